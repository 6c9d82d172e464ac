package matrix

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	"maunium.net/go/mautrix/id"
)

// Config is what the adapter needs to know of its account and its rooms.
// Defaults and ranges are the business of package config, so every value here is
// final.
type Config struct {
	// Homeserver is the address of the client API, "https://example.org".
	Homeserver string
	// UserID is the bot's full id, "@guildhand:example.org".
	UserID string
	// Token is an access token, secret. With it Password is not needed.
	Token string
	// Password logs in once; the store keeps the token that comes back. It also
	// confirms the bot's cross-signing keys where the server asks for it.
	Password string
	// RecoveryKey opens the account's secret storage, secret.
	RecoveryKey string
	// ResetSigning lets new cross-signing keys replace those that nobody can open.
	ResetSigning bool
	// VerifyWith are full ids of those who may verify the bot by emoji.
	VerifyWith []string
	// DeviceName is what others see of the bot's device.
	DeviceName string
	// StorePath is the SQLite file of session, keys and room state.
	StorePath string
	// Encryption lets the bot work in encrypted rooms.
	Encryption bool
	// PicturesApart sends an answer's text and its picture as two messages, for
	// clients that do not show a picture's caption.
	PicturesApart bool
	// Allow says whose invitations are accepted.
	Allow Allow
	// Prefix stands before a request in a room.
	Prefix string
	// Prefixes, by room id, replace Prefix in their rooms.
	Prefixes map[string]string
	// TeacherPower is the power level of a teacher.
	TeacherPower int
	// FreshFor is how old a question or a recorded answer may be and still be
	// answered.
	FreshFor time.Duration
}

// Allow lists whose invitations are accepted. If nothing is listed, none are.
type Allow struct {
	// Servers are names of homeservers of those who invite, "example.org".
	Servers []string
	// Users are full ids of those who invite.
	Users []string
	// Rooms are ids of rooms that anyone may invite to.
	Rooms []string
}

// problems says what is missing or wrong before anything is asked of the server.
func (c Config) problems() []string {
	var out []string
	if u, err := url.Parse(c.Homeserver); err != nil || u.Host == "" || (u.Scheme != "http" && u.Scheme != "https") {
		out = append(out, fmt.Sprintf("homeserver: want an address such as https://example.org, got %q", c.Homeserver))
	}
	if _, _, err := id.UserID(c.UserID).Parse(); err != nil {
		out = append(out, fmt.Sprintf("user: want a full id such as @guildhand:example.org, got %q", c.UserID))
	}
	out = append(out, c.Allow.problems()...)
	out = append(out, notUsers("verify_with", c.VerifyWith)...)
	if c.Encryption && !encryptionBuilt {
		out = append(out, noEncryptionHere)
	}
	return out
}

// noEncryptionHere is said where a build without encryption is asked for it.
const noEncryptionHere = "encryption: this build has none; build with -tags goolm, or set encryption to false"

// problems says what in the lists can't be what it should be. A list that never
// matches would refuse everybody in silence.
func (a Allow) problems() []string {
	var out []string
	for _, server := range a.Servers {
		if server == "" || strings.ContainsAny(server, "/@# ") || strings.Contains(server, "*") {
			out = append(out, fmt.Sprintf("allow.servers: want the name of a server, such as example.org, without https://; got %q", server))
		}
	}
	out = append(out, notUsers("allow.users", a.Users)...)
	for _, room := range a.Rooms {
		if !strings.HasPrefix(room, "!") || len(room) < 2 {
			out = append(out, fmt.Sprintf("allow.rooms: want a room's id such as !abc:example.org, which its settings show; got %q", room))
		}
	}
	return out
}

// notUsers says what in a list is no full id of a user.
func notUsers(key string, users []string) []string {
	var out []string
	for _, user := range users {
		if _, _, err := id.UserID(user).Parse(); err != nil {
			out = append(out, fmt.Sprintf("%s: want a full id such as @anna:example.org, got %q", key, user))
		}
	}
	return out
}

// allows reports whether an invitation to room by inviter is accepted.
func (a Allow) allows(inviter id.UserID, room id.RoomID) bool {
	if slices.Contains(a.Rooms, string(room)) || slices.Contains(a.Users, string(inviter)) {
		return true
	}
	server := inviter.Homeserver()
	return server != "" && slices.ContainsFunc(a.Servers, func(s string) bool {
		return strings.EqualFold(s, server)
	})
}

// empty reports whether no invitation can be accepted.
func (a Allow) empty() bool {
	return len(a.Servers) == 0 && len(a.Users) == 0 && len(a.Rooms) == 0
}
