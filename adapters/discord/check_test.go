package discord

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCheck(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name    string
		spoil   func(*standIn, *Config)
		missing []string
		notes   []string
		id      string
	}{
		{name: "all is well", id: "223456789012345678", notes: []string{"every server"}},
		{name: "test server", spoil: func(_ *standIn, c *Config) { c.TestGuild = theGuild }, id: "223456789012345678"},
		{name: "no token", spoil: func(_ *standIn, c *Config) { c.Token = "" }, missing: []string{"GUILDHAND_DISCORD_TOKEN"}, id: "223456789012345678"},
		{name: "nothing at all", spoil: func(_ *standIn, c *Config) { *c = Config{} }, missing: []string{"the bot's token is missing"}},
		{name: "token with blanks", spoil: func(_ *standIn, c *Config) { c.Token = "Bot x" }, missing: []string{"without the word Bot"}, id: "223456789012345678"},
		{name: "wrong token", spoil: func(_ *standIn, c *Config) { c.Token = "another" }, missing: []string{"does not accept the token"}, id: "223456789012345678"},
		{name: "id of another application", spoil: func(_ *standIn, c *Config) { c.ApplicationID = "223456789012345670" },
			missing: []string{"the token belongs to 223456789012345678"}, notes: []string{"every server"}, id: "223456789012345678"},
		{name: "no id given", spoil: func(_ *standIn, c *Config) { c.ApplicationID = "" }, notes: []string{"every server"}, id: "223456789012345678"},
		{name: "not in the test server", spoil: func(s *standIn, c *Config) { c.TestGuild = theGuild; s.closed[theGuild] = true },
			missing: []string{"the app is not in the server " + theGuild}, id: "223456789012345678"},
		{name: "endpoint set", spoil: func(s *standIn, _ *Config) { s.app["interactions_endpoint_url"] = "https://example.test/" },
			missing: []string{"Interactions Endpoint URL"}, notes: []string{"every server"}, id: "223456789012345678"},
		{name: "no user installation", spoil: func(s *standIn, _ *Config) {
			s.app["integration_types_config"] = map[string]any{"0": map[string]any{}}
		}, notes: []string{"user installation is off", "every server"}, id: "223456789012345678"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := newStandIn(t)
			c := s.config()
			if test.spoil != nil {
				test.spoil(s, &c)
			}
			r, err := check(context.Background(), c, s.transport())
			require.NoError(t, err)
			same(t, "missing", r.Missing, test.missing)
			same(t, "notes", r.Notes, test.notes)
			if test.id != "" && (!strings.Contains(r.Invite, "client_id="+test.id) || !strings.Contains(r.Invite, "scope=bot+applications.commands")) || test.id == "" && r.Invite != "" {
				t.Errorf("invite link %q", r.Invite)
			}
			if all := fmt.Sprintf("%+v", r); r.OK() != (len(test.missing) == 0) || strings.Contains(all, s.token) {
				t.Errorf("report:\n%s", all)
			}
		})
	}
	t.Run("no network", func(t *testing.T) {
		t.Parallel()
		s := newStandIn(t)
		c := s.config()
		s.server.Close()
		if _, err := check(context.Background(), c, s.transport()); err == nil || strings.Contains(err.Error(), s.token) {
			t.Errorf("got %v", err)
		}
	})
}

// same compares a list with what each of its lines must say.
func same(t *testing.T, what string, got, want []string) {
	t.Helper()
	ok := len(got) == len(want)
	all := strings.Join(got, "\n")
	for _, w := range want {
		ok = ok && strings.Contains(all, w)
	}
	assert.True(t, ok, "%s: %q, want %q", what, got, want)
}

func TestNewRefusesABadConfiguration(t *testing.T) {
	if _, err := New(Config{}, Options{Service: newFaulty(t, testSpecs())}); err == nil {
		t.Error("accepted without a token")
	}
	if _, err := New(Config{Token: "x"}, Options{Service: newFaulty(t, append(testSpecs(), testSpecs()[0]))}); err == nil {
		t.Error("accepted with two requests of one name")
	}
	if _, err := New(Config{Token: "x"}, Options{Service: newFaulty(t, testSpecs()), Journal: "/nowhere/at/all"}); err == nil {
		t.Error("accepted with an intake that can't be written")
	}
}
