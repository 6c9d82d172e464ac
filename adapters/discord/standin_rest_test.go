package discord

import (
	"encoding/json"
	"net/http"
	"slices"
	"strconv"
	"time"
)

func (s *standIn) guildOf(part []string) string {
	if len(part) == 5 {
		return part[3]
	}
	return ""
}

func (s *standIn) getCommands(w http.ResponseWriter, r *http.Request, part []string) {
	guild := s.guildOf(part)
	if guild != "" && s.closed[guild] {
		fail(w, 403, codeMissingAccess, "Missing Access")
		return
	}
	list := s.commands[guild]
	if list == nil {
		list = json.RawMessage("[]")
	}
	if r.URL.Query().Get("with_localizations") != "true" {
		var bare []map[string]any
		if err := json.Unmarshal(list, &bare); err != nil {
			panic(err)
		}
		for _, c := range bare {
			delete(c, "description_localizations")
		}
		list = mustJSON(bare)
	}
	reply(w, list)
}

func (s *standIn) putCommands(w http.ResponseWriter, part []string, data []byte) {
	guild := s.guildOf(part)
	if guild != "" && s.closed[guild] {
		fail(w, 403, codeMissingAccess, "Missing Access")
		return
	}
	var list []command
	if err := json.Unmarshal(data, &list); err != nil {
		fail(w, 400, 50109, "The request body contains invalid JSON.")
		return
	}
	if problem := badCommands(list); problem != "" {
		s.violate("commands: %s", problem)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	out := make([]map[string]any, 0, len(list))
	for _, c := range list {
		m := map[string]any{}
		if err := json.Unmarshal(mustJSON(c), &m); err != nil {
			panic(err)
		}
		m["id"], m["version"], m["application_id"] = s.newID(), s.newID(), s.appID
		if c.Type == commandMessage {
			m["description"] = ""
		}
		m["nsfw"], m["dm_permission"] = false, true
		m["name_localizations"] = nil
		if c.Needs != 0 {
			// Discord takes a number and gives text.
			m["default_member_permissions"] = strconv.FormatInt(int64(c.Needs), 10)
		}
		if guild != "" {
			m["guild_id"] = guild
		}
		out = append(out, m)
	}
	s.commands[guild] = mustJSON(out)
	s.overwrites++
	reply(w, out)
}

// find gives the interaction of a token that is still good.
func (s *standIn) find(token string) *interactionState {
	e := s.interactions[token]
	if e == nil || time.Now().After(e.until) {
		return nil
	}
	return e
}

func (s *standIn) callback(w http.ResponseWriter, r *http.Request, part []string, data []byte, files []*filePart) {
	e := s.find(part[2])
	if e == nil || e.id != part[1] || e.ack == 0 && time.Since(e.sentAt) > s.window {
		fail(w, 404, codeUnknownInteraction, "Unknown interaction")
		return
	}
	if e.ack != 0 {
		fail(w, 400, codeAcknowledged, "Interaction has already been acknowledged.")
		return
	}
	var body struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	if err := json.Unmarshal(data, &body); err != nil {
		fail(w, 400, 50109, "The request body contains invalid JSON.")
		return
	}
	if problem := s.takeAnswer(e, body.Type, body.Data, files); problem != "" {
		s.violate("answer of type %d: %s", body.Type, problem)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	e.ack, e.ackAt = body.Type, time.Now()
	if r.URL.Query().Get("with_response") != "true" {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	inter := map[string]any{"id": e.id, "type": e.kind, "channel_id": e.channel}
	if e.guild != "" {
		inter["guild_id"] = e.guild
	}
	out := map[string]any{"interaction": inter}
	if e.original != nil {
		inter["response_message_id"] = e.original.id
		inter["response_message_loading"] = e.original.loading
		inter["response_message_ephemeral"] = e.original.ephemeral
		if body.Type == replyMessage || body.Type == replyUpdate {
			out["resource"] = map[string]any{"type": body.Type, "message": newMessageBody(e.original.id, e.channel, &e.original.message)}
		}
	}
	reply(w, out)
}

// takeAnswer applies a first answer, or says what is wrong with it.
func (s *standIn) takeAnswer(e *interactionState, kind int, data []byte, files []*filePart) string {
	switch kind {
	case replyMessage, replyUpdate:
		var m message
		if err := json.Unmarshal(data, &m); err != nil {
			return err.Error()
		}
		if kind == replyUpdate && m.Mentions.Parse == nil && m.Embeds == nil && m.Content == "" {
			m.Mentions = mentions{Parse: []string{}} // only buttons change: no text that could ping
		}
		if problem := badMessage(&m, len(files), kind == replyUpdate); problem != "" {
			return problem
		}
		if kind == replyUpdate {
			if e.kind != 3 {
				return "an update without a message"
			}
			e.update = &m
			e.original = e.source
			if e.original == nil {
				e.original = &shown{id: s.newID(), channel: e.channel}
			}
			e.original.edits++
			if m.Embeds != nil { // what is left out stays as it is
				e.original.message.Embeds = m.Embeds
			}
			e.original.message.Components = m.Components
			return ""
		}
		e.original = &shown{id: s.newID(), channel: e.channel, message: m, files: files, ephemeral: m.Flags&flagEphemeral != 0}
		s.channels[e.channel] = append(s.channels[e.channel], e.original)
	case replyDeferredUpdate:
		if e.kind != 3 {
			return "an update without a message"
		}
		e.original = e.source
	case replyDeferred:
		var m message
		if err := json.Unmarshal(data, &m); err != nil {
			return err.Error()
		}
		e.original = &shown{id: s.newID(), channel: e.channel, message: message{Flags: m.Flags | flagLoading}, ephemeral: m.Flags&flagEphemeral != 0, loading: true}
		s.channels[e.channel] = append(s.channels[e.channel], e.original)
	case replyChoices:
		var c choices
		if err := json.Unmarshal(data, &c); err != nil {
			return err.Error()
		}
		if e.kind != 4 {
			return "choices for what asked for none"
		}
		e.choices = c.Choices
		return badChoices(c.Choices)
	case replyModal:
		var f modal
		if err := json.Unmarshal(data, &f); err != nil {
			return err.Error()
		}
		if e.kind == 5 {
			return "a form on a form"
		}
		e.form = &f
		return badModal(&f)
	default:
		return "a type of answer that is not known"
	}
	return ""
}

func (s *standIn) originalMessage(w http.ResponseWriter, method string, part []string, data []byte, files []*filePart) {
	e := s.find(part[2])
	if part[1] != s.appID || e == nil || e.ack == 0 {
		fail(w, 404, 10015, "Unknown Webhook")
		return
	}
	if e.original == nil {
		fail(w, 404, 10008, "Unknown Message")
		return
	}
	if method == http.MethodDelete {
		s.channels[e.channel] = slices.DeleteFunc(s.channels[e.channel], func(m *shown) bool { return m == e.original })
		e.original = nil
		w.WriteHeader(http.StatusNoContent)
		return
	}
	if method == http.MethodPatch {
		var m message
		if err := json.Unmarshal(data, &m); err != nil {
			fail(w, 400, 50109, "The request body contains invalid JSON.")
			return
		}
		if problem := badMessage(&m, len(files), false); problem != "" {
			s.violate("edit: %s", problem)
			fail(w, 400, 50035, "Invalid Form Body")
			return
		}
		flags := e.original.message.Flags &^ flagLoading
		e.original.message, e.original.files, e.original.loading = m, files, false
		e.original.message.Flags = flags
		e.original.edits++
	}
	reply(w, newMessageBody(e.original.id, e.channel, &e.original.message))
}

func (s *standIn) followUp(w http.ResponseWriter, part []string, data []byte, files []*filePart) {
	e := s.find(part[2])
	if part[1] != s.appID || e == nil || e.ack == 0 {
		fail(w, 404, 10015, "Unknown Webhook")
		return
	}
	var m message
	if err := json.Unmarshal(data, &m); err != nil {
		fail(w, 400, 50109, "The request body contains invalid JSON.")
		return
	}
	if problem := badMessage(&m, len(files), false); problem != "" {
		s.violate("further message: %s", problem)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	if e.original != nil && e.original.loading {
		s.violate("a further message before the deferral was finished, whose place it would take")
	}
	f := &shown{id: s.newID(), channel: e.channel, message: m, files: files, ephemeral: m.Flags&flagEphemeral != 0}
	e.follows = append(e.follows, f)
	s.channels[e.channel] = append(s.channels[e.channel], f)
	reply(w, newMessageBody(f.id, f.channel, &f.message))
}

func (s *standIn) openDirect(w http.ResponseWriter, data []byte) {
	var body struct {
		Recipient string `json:"recipient_id"`
	}
	if err := json.Unmarshal(data, &body); err != nil || !snowflake(body.Recipient) {
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	reply(w, map[string]any{"id": directChannel(body.Recipient), "type": 1, "flags": 0, "recipients": []any{userBody(body.Recipient)}})
}

// changeMessage edits a message of the bot's own.
func (s *standIn) changeMessage(w http.ResponseWriter, channel, id string, data []byte, files []*filePart) {
	var m message
	if err := json.Unmarshal(data, &m); err != nil {
		fail(w, 400, 50109, "The request body contains invalid JSON.")
		return
	}
	if problem := badMessage(&m, len(files), false); problem != "" {
		s.violate("change: %s", problem)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	for _, known := range s.channels[channel] {
		if known.id == id && !known.ephemeral {
			known.message, known.files = m, files
			known.edits++
			reply(w, newMessageBody(id, channel, &m))
			return
		}
	}
	fail(w, 404, 10008, "Unknown Message")
}

func (s *standIn) getChannel(w http.ResponseWriter, id string) {
	if s.closed[id] {
		fail(w, 403, codeMissingAccess, "Missing Access")
		return
	}
	reply(w, s.channelBody(id))
}

// openThread opens a thread at a message that all see.
func (s *standIn) openThread(w http.ResponseWriter, channel, message string, data []byte) {
	var start threadStart
	if err := json.Unmarshal(data, &start); err != nil || start.Name == "" || length(start.Name) > maxThreadName || start.Message != nil {
		s.violate("a thread called %q", start.Name)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	at := slices.IndexFunc(s.channels[channel], func(m *shown) bool { return m.id == message && !m.ephemeral })
	switch {
	case s.noThreads[channel]:
		fail(w, 403, codeNoPermission, "Missing Permissions")
	case at < 0:
		fail(w, 404, 10008, "Unknown Message")
	case s.threads[channel] != "":
		fail(w, 400, 50024, "Cannot execute action on this channel type")
	case s.threads[message] != "":
		fail(w, 400, codeThreadThere, "A thread has already been created for this message")
	default:
		s.threads[message], s.names[message] = channel, start.Name
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(http.StatusCreated)
		_, _ = w.Write(mustJSON(s.channelBody(message)))
	}
}

// openPost opens a post of a forum.
func (s *standIn) openPost(w http.ResponseWriter, forum string, data []byte, files []*filePart) {
	var start threadStart
	err := json.Unmarshal(data, &start)
	switch {
	case err != nil || start.Message == nil || start.Name == "" || length(start.Name) > maxThreadName:
		s.violate("a post called %q", start.Name)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	case !s.forums[forum]:
		fail(w, 400, 50024, "Cannot execute action on this channel type")
		return
	}
	if problem := badMessage(start.Message, len(files), false); problem != "" || start.Message.Flags != 0 {
		s.violate("first message of a post: %s, flags %d", problem, start.Message.Flags)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	id := s.newID()
	s.threads[id], s.names[id] = forum, start.Name
	s.channels[id] = append(s.channels[id], &shown{id: id, channel: id, message: *start.Message, files: files})
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(http.StatusCreated)
	_, _ = w.Write(mustJSON(s.channelBody(id)))
}

// channelBody is a channel or thread of the guild.
func (s *standIn) channelBody(id string) map[string]any {
	c := map[string]any{"id": id, "type": 0, "guild_id": theGuild, "name": "bench", "position": 1, "parent_id": nil, "flags": 0, "permission_overwrites": []any{}}
	if s.forums[id] {
		c["type"] = 15
	}
	if name := s.names[id]; name != "" {
		c["name"] = name
	}
	if parent := s.threads[id]; parent != "" {
		c["type"], c["parent_id"] = 11, parent
		c["owner_id"], c["message_count"], c["member_count"], c["total_message_sent"] = theMaker, 1, 1, 1
		c["thread_metadata"] = map[string]any{"archived": false, "auto_archive_duration": 60, "archive_timestamp": "2026-01-01T00:00:00Z", "locked": false}
		delete(c, "position")
		delete(c, "permission_overwrites")
	}
	return c
}

// directChannel is the direct chat with a maker: his id with its last digit
// changed.
func directChannel(maker string) string { return maker[:len(maker)-1] + "9" }

func (s *standIn) channelMessage(w http.ResponseWriter, channel string, data []byte, files []*filePart) {
	if s.closed[channel] {
		fail(w, 403, codeMissingAccess, "Missing Access")
		return
	}
	var m message
	if err := json.Unmarshal(data, &m); err != nil {
		fail(w, 400, 50109, "The request body contains invalid JSON.")
		return
	}
	if problem := badMessage(&m, len(files), false); problem != "" {
		s.violate("channel message: %s", problem)
		fail(w, 400, 50035, "Invalid Form Body")
		return
	}
	key := channel + " " + m.Nonce
	if known := s.nonces[key]; m.EnforceNonce && m.Nonce != "" && known != nil {
		reply(w, newMessageBody(known.id, channel, &known.message))
		return
	}
	msg := &shown{id: s.newID(), channel: channel, message: m, files: files}
	s.channels[channel] = append(s.channels[channel], msg)
	if m.Nonce != "" {
		s.nonces[key] = msg
	}
	reply(w, newMessageBody(msg.id, channel, &msg.message))
}
