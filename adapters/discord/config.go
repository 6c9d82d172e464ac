package discord

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// Config is what a guild sets for Discord.
type Config struct {
	// Token is the bot's secret. It comes from the environment or a file, and
	// is in no log and no message.
	Token string `json:"-" yaml:"-"`
	// ApplicationID is looked up by the token where it is empty.
	ApplicationID string `yaml:"application_id"`
	// TestGuild, if set, is the only server to get the commands: there they
	// change at once.
	TestGuild string `yaml:"test_guild"`
	// TeacherRole is the id of the role that may use what needs a teacher,
	// besides those who manage the server. Several are separated by blanks.
	TeacherRole string `yaml:"teacher_role"`
	// Shards is the number of gateway connections; 0 takes Discord's advice.
	Shards int `yaml:"shards"`
	// MetricsAddr is where /healthz, /readyz and /metrics are; empty for none.
	MetricsAddr string `yaml:"metrics_addr"`
	// FreshFor is how old an undelivered answer may be to be sent on return;
	// 0 takes DefaultFresh.
	FreshFor time.Duration `yaml:"fresh_for"`
}

// DefaultFresh is for how long an answer is worth sending late.
const DefaultFresh = time.Hour

// validate says what is wrong, without the token.
func (c *Config) validate() error {
	var problems []error
	if c.Token == "" {
		problems = append(problems, errors.New("the bot's token is missing: set GUILDHAND_DISCORD_TOKEN, or discord.token_file"))
	} else if strings.ContainsAny(c.Token, " \t\r\n") {
		problems = append(problems, errors.New("the bot's token has blanks in it: copy it again, without the word Bot before it"))
	}
	for name, id := range map[string]string{"discord.application_id": c.ApplicationID, "discord.test_guild": c.TestGuild} {
		if id != "" && !snowflake(id) {
			problems = append(problems, fmt.Errorf("%s is %q, and an id is 15 to 20 digits", name, id))
		}
	}
	for _, id := range c.teachers() {
		if !snowflake(id) {
			problems = append(problems, fmt.Errorf("discord.teacher_role is %q, and an id is 15 to 20 digits", id))
		}
	}
	if c.Shards < 0 || c.Shards > 256 {
		problems = append(problems, fmt.Errorf("discord.shards is %d, and can be 0 (Discord's advice) to 256", c.Shards))
	}
	return errors.Join(problems...)
}

func (c *Config) teachers() []string { return strings.Fields(c.TeacherRole) }

func (c *Config) fresh() time.Duration {
	if c.FreshFor > 0 {
		return c.FreshFor
	}
	return DefaultFresh
}

func snowflake(id string) bool {
	if len(id) < 15 || len(id) > 20 {
		return false
	}
	return strings.Trim(id, "0123456789") == ""
}
