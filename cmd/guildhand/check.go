package main

import (
	"errors"
	"fmt"
	"strings"

	"guildhand/adapters/discord"
	"guildhand/adapters/matrix"
	"guildhand/config"
)

type checkCommand struct{}

// errMissing ends a check that has printed what is missing.
var errMissing = errors.New("something is missing, see above")

// Run checks the daybook and every platform, prints what each lacks, and fails
// if something that is configured can't work.
func (checkCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	r := &report{}
	for _, note := range c.Notes() {
		r.head("configuration")
		r.line("note", "%s", note)
	}
	s.checkDaybook(c, r)
	s.checkDiscord(c, r)
	s.checkMatrix(c, r)
	if _, err := fmt.Fprint(s.Stdout, r.String()); err != nil {
		return err
	}
	if r.missing {
		return errMissing
	}
	return nil
}

// report is what check prints: a heading for each part, with lines under it.
type report struct {
	strings.Builder
	missing bool
}

func (r *report) head(part string) { fmt.Fprintf(r, "%s\n", part) }

func (r *report) line(what, format string, args ...any) {
	fmt.Fprintf(r, "  %s: %s\n", what, fmt.Sprintf(format, args...))
}

func (r *report) lack(format string, args ...any) {
	r.missing = true
	r.line("missing", format, args...)
}

func (s *session) checkDaybook(c *config.Config, r *report) {
	r.head("daybook")
	book, note, err := s.openDaybook(c)
	if err != nil {
		r.lack("%v", err)
		return
	}
	defer book.Close()
	if note != "" {
		r.line("note", "%s", note)
	}
	health, err := book.Check(s.ctx)
	if err != nil {
		r.lack("%v", err)
		return
	}
	r.line("store", "%s, schema %d", health.Store, health.SchemaVersion)
	if entries, err := book.Verify(s.ctx); err != nil {
		r.lack("%v", err)
	} else {
		r.line("entries", "%d, all readable", entries)
	}
	if c.Daybook.Path == "" && !c.Daybook.URL.Set() {
		if path, _, err := c.DaybookPath(); err == nil {
			r.line("file", "%s", path)
		}
	}
	if health.FreeBytes >= 0 {
		r.line("free disk", "%d MiB", health.FreeBytes>>20)
	}
	if health.DiskLow {
		r.line("note", "the disk is nearly full; when it is, nothing can be recorded or answered")
	}
}

func (s *session) checkDiscord(c *config.Config, r *report) {
	r.head("discord")
	if !servesDiscord(c) && c.Discord.ApplicationID == "" {
		r.line("not set up", "to serve it, set GUILDHAND_DISCORD_TOKEN or discord.token_file")
		return
	}
	conf, err := discordConfig(c)
	if err != nil {
		r.lack("%v", err) // the invite link does without the token
	}
	found, err := discord.Check(s.ctx, conf)
	if err != nil {
		r.lack("Discord can't be asked: %v", err)
	}
	if found.Application != "" {
		r.line("application", "%s (%s)", found.Application, found.ID)
	}
	for _, missing := range found.Missing {
		r.lack("%s", missing)
	}
	for _, note := range found.Notes {
		r.line("note", "%s", note)
	}
	if c.Discord.TeacherRole == "" {
		r.line("note", "discord.teacher_role is not set, so only those who manage the server may use daybook")
	}
	if found.Invite != "" {
		r.line("invite to a server", "%s", found.Invite)
		r.line("install for yourself", "%s", found.Install)
	}
}

func (s *session) checkMatrix(c *config.Config, r *report) {
	r.head("matrix")
	if !servesMatrix(c) {
		r.line("not set up", "to serve it, set matrix.homeserver, matrix.user and GUILDHAND_MATRIX_TOKEN")
		return
	}
	conf, err := matrixConfig(c)
	if err != nil {
		r.lack("%v", err)
		return
	}
	found, err := matrix.Check(s.ctx, conf)
	if err != nil {
		r.lack("Matrix can't be asked: %v", err)
	}
	r.line("account", "%s on %s", found.User, found.Server)
	if found.Login != "" {
		r.line("login", "%s", found.Login)
	}
	if found.Fingerprint != "" {
		r.line("device", "%s, fingerprint %s, %s", found.Device, found.Fingerprint, found.Signed)
	}
	r.line("encrypted rooms", "%s", map[bool]string{true: "served", false: "not served"}[found.Encryption])
	if found.Sending != "" {
		r.line("sending", "%s", found.Sending)
	}
	if found.Rooms > 0 {
		r.line("rooms", "%d, of them %d encrypted", found.Rooms, found.EncryptedRooms)
	}
	for _, missing := range found.Missing {
		r.lack("%s", missing)
	}
	for _, warning := range found.Warnings {
		r.line("note", "%s", warning)
	}
	if len(found.Missing) == 0 {
		r.line("next", "guildhand serve, then invite %s to a room and ask !help there", found.User)
	}
}
