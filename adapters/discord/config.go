package discord

import (
	"errors"
	"strings"
	"time"
)

// Config is what a guild sets for Discord. Defaults and ranges are the business
// of package config, so every value here is final.
type Config struct {
	// Token is the bot's secret: never log it, never show it.
	Token string
	// ApplicationID is looked up by the token if it is empty.
	ApplicationID string
	// TestGuild, if set, is the only server to get the commands: there they
	// change at once.
	TestGuild string
	// TeacherRole is the id of the role that may use what needs a teacher,
	// besides those who manage the server. Blanks separate several.
	TeacherRole string
	// Shards is the number of gateway connections; 0 takes Discord's advice.
	Shards int
	// FreshFor is how old an undelivered answer may be and still be sent.
	FreshFor time.Duration
}

// validate says what is wrong, without the token.
func (c *Config) validate() error {
	switch {
	case c.Token == "":
		return errors.New("the bot's token is missing: set GUILDHAND_DISCORD_TOKEN or discord.token_file")
	case strings.ContainsAny(c.Token, " \t\r\n"):
		return errors.New("the bot's token has blanks in it: copy it again, without the word Bot before it")
	}
	return nil
}

func (c *Config) teachers() []string { return strings.Fields(c.TeacherRole) }

func snowflake(id string) bool {
	return len(id) >= 15 && len(id) <= 20 && strings.Trim(id, "0123456789") == ""
}
