package config

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"guildhand/calc/outline"
	"guildhand/calc/stock"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

func write(t *testing.T, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
	return path
}

func load(t *testing.T, content string, environ ...string) (*Config, error) {
	t.Helper()
	return Load(write(t, "guild.yaml", content), environ)
}

func mustLoad(t *testing.T, content string, environ ...string) *Config {
	t.Helper()
	c, err := load(t, content, environ...)
	require.NoError(t, err, "%s", content)
	return c
}

// What only tests read starts no complaint in a program that a test starts.
func TestVariablesOfTests(t *testing.T) {
	developers, err := os.ReadFile("../DEVELOPERS.md")
	require.NoError(t, err)
	names := regexp.MustCompile("GUILDHAND_[A-Z_]+").FindAllString(string(developers), -1)
	require.GreaterOrEqual(t, len(names), 4)
	for _, name := range names {
		_, err := load(t, "", name+"=1")
		assert.NoError(t, err, name)
	}
}

func TestDefaults(t *testing.T) {
	c, err := Load("", nil)
	require.NoError(t, err)
	assert.True(t, c.Shop().Demo, "the default workshop is not marked as invented")
	assert.Equal(t, Log{Level: "info", Format: "text"}, c.Log)
	assert.Equal(t, Limits{MakerAtOnce: 60, MakerPerMinute: 60, ChannelAtOnce: 300, ChannelPerMinute: 240}, c.Limits)
	assert.Equal(t, Discord{FreshFor: time.Hour}, c.Discord)
	assert.Equal(t, Matrix{DeviceName: "guildhand", Encryption: true, Prefix: "!", TeacherPower: 50, FreshFor: 72 * time.Hour}, c.Matrix)
	assert.Empty(t, c.Health)
	assert.Empty(t, c.Daybook)
	assert.Empty(t, c.Notes())
}

// The demo workshop comes through the configuration's form unchanged, but for
// the last bits of angles and areas.
func TestDemoWorkshopComesThrough(t *testing.T) {
	c, err := Load("", nil)
	require.NoError(t, err)
	got, want := c.Shop(), stock.DemoWorkshop()
	require.NotEmpty(t, want.Blocks)
	require.NotEmpty(t, want.Punches)
	require.NotEmpty(t, want.Presses)
	for i, b := range want.Blocks {
		assert.InEpsilon(t, float64(b.Lean), float64(got.Blocks[i].Lean), 1e-8, b.Name)
		got.Blocks[i].Lean = b.Lean
	}
	for i, p := range want.Punches {
		assert.InEpsilon(t, float64(p.Lean), float64(got.Punches[i].Lean), 1e-8, p.Name)
		got.Punches[i].Lean = p.Lean
	}
	for i, p := range want.Presses {
		assert.InEpsilon(t, p.CapacityN, got.Presses[i].CapacityN, 1e-8, p.Name)
		assert.InEpsilon(t, p.RamAreaMM2, got.Presses[i].RamAreaMM2, 1e-8, p.Name)
		got.Presses[i] = p
	}
	assert.Equal(t, want, got)
}

// Every key says what it must be, and its example is a value that loads.
func TestEveryKeyHasAnExampleThatLoads(t *testing.T) {
	checked := 0
	var check func(typ reflect.Type, wrap func(string) string)
	check = func(typ reflect.Type, wrap func(string) string) {
		for _, field := range fields(typ) {
			name := field.Tag.Get("yaml")
			inside := func(s string) string { return wrap(fmt.Sprintf("%s: {%s}", name, s)) }
			line := example(field)
			switch {
			case field.Type.Kind() == reflect.Struct:
				assert.NotEmpty(t, field.Tag.Get("about")+inside(""), name)
				check(field.Type, inside)
				continue
			case isStructs(field.Type):
				// One entry made of its fields' examples.
				var parts []string
				for _, inner := range fields(field.Type.Elem()) {
					assert.NotEmpty(t, inner.Tag.Get("mustBe"), inner.Name)
					assert.NotEmpty(t, example(inner), inner.Name)
					parts = append(parts, example(inner))
				}
				line = fmt.Sprintf("%s: [{%s}]", name, strings.Join(parts, ", "))
			default:
				assert.NotEmpty(t, field.Tag.Get("mustBe"), name)
				assert.NotEmpty(t, line, name)
			}
			_, err := load(t, wrap(line))
			assert.NoError(t, err, line)
			checked++
		}
	}
	check(reflect.TypeFor[Config](), func(s string) string { return s })
	assert.Greater(t, checked, 25)
}

func TestLayers(t *testing.T) {
	c := mustLoad(t, "log:\n  level: warn\n  format: json\nmatrix:\n  homeserver: https://m.example.org\n  allow:\n    servers: [a.example, b.example]\n",
		"GUILDHAND_LOG_LEVEL=debug", "GUILDHAND_MATRIX_ALLOW_USERS=@a:x.example, @b:x.example", "GUILDHAND_DISCORD_SHARDS=3")
	assert.Equal(t, Log{Level: "debug", Format: "json"}, c.Log)
	assert.Equal(t, 3, c.Discord.Shards)
	assert.Equal(t, []string{"a.example", "b.example"}, c.Matrix.Allow.Servers)
	assert.Equal(t, []string{"@a:x.example", "@b:x.example"}, c.Matrix.Allow.Users)
	for key, want := range map[string]string{
		"log.level":         "environment GUILDHAND_LOG_LEVEL",
		"log.format":        "guild.yaml line 3 column 11",
		"matrix.prefix":     "default",
		"matrix.homeserver": "guild.yaml line 5 column 15",
	} {
		assert.Equal(t, want, filepath.Base(c.Origin(key)), key)
	}
}

// An id without quotes keeps all its digits.
func TestLongIDStaysText(t *testing.T) {
	c := mustLoad(t, "discord: {application_id: 01234567890123456789}")
	assert.Equal(t, "01234567890123456789", c.Discord.ApplicationID)
}

// An empty text means that the owner has no wish: the default holds.
func TestEmptyTextIsTheDefault(t *testing.T) {
	c := mustLoad(t, "matrix: {prefix: \"\", device_name: ''}\nlimits: {maker_at_once: \"\"}", "GUILDHAND_LOG_LEVEL=")
	d, err := Load("", nil)
	require.NoError(t, err)
	assert.Equal(t, d.Matrix, c.Matrix)
	assert.Equal(t, d.Limits, c.Limits)
	assert.Equal(t, d.Log, c.Log)
}

// A former name still works and says what it is called now.
func TestFormerNames(t *testing.T) {
	const addr, both = "127.0.0.1:9090", "127.0.0.1:9191"
	for _, test := range []struct {
		name, yaml string
		environ    []string
		note       string
	}{
		{"file", "discord: {metrics_addr: \"" + addr + "\"}", nil, "line 1 column 11: discord.metrics_addr is now called health.addr"},
		{"environment", "", []string{"GUILDHAND_DISCORD_METRICS_ADDR=" + addr}, "GUILDHAND_DISCORD_METRICS_ADDR is now called GUILDHAND_HEALTH_ADDR"},
		// The image sets the new name; who set the old one before keeps it.
		{"both in the environment", "", []string{"GUILDHAND_DISCORD_METRICS_ADDR=" + addr, "GUILDHAND_HEALTH_ADDR=" + both}, "GUILDHAND_DISCORD_METRICS_ADDR is now called GUILDHAND_HEALTH_ADDR"},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := mustLoad(t, test.yaml, test.environ...)
			assert.Equal(t, addr, c.Health.Addr)
			require.Len(t, c.Notes(), 1)
			assert.Contains(t, c.Notes()[0], test.note)
		})
	}
}

// Each key that was renamed is found under its former name.
func TestEveryFormerNameIsFound(t *testing.T) {
	found := 0
	for _, k := range keys(reflect.TypeFor[Config](), "") {
		if was := k.field.Tag.Get("was"); was != "" {
			now, ok := formerly(was)
			assert.True(t, ok)
			assert.Equal(t, k.path, now.path)
			found++
		}
	}
	assert.NotZero(t, found)
}

// What the library lets pass, or says in words that can hold a secret.
func TestTrapsOfYAML(t *testing.T) {
	const plain = "log: {level: warn}\n"
	for _, test := range []struct{ name, yaml string }{
		{"byte order mark", "\ufeff" + plain},
		{"an empty second document", plain + "---\n"},
		{"an empty first document", "---\n---\n" + plain},
		{"null in the middle", "log: {level: warn, format: }\nmatrix: ~\n"},
		{"line ends of Windows", "log:\r\n  level: warn\r\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, "warn", mustLoad(t, test.yaml).Log.Level)
		})
	}
}

func TestOwnWorkshopReplacesTheDemo(t *testing.T) {
	c := mustLoad(t, "workshop:\n  blocks:\n    - {name: ours, outline: oval, lean_deg: 10, thickness_mm: 20, holes_mm: [8x6, 12 x 10, 10x8]}\n  presses:\n    - {name: ten, capacity_tonnes: 10, ram_diameter_mm: 40}\n")
	shop := c.Shop()
	assert.False(t, shop.Demo)
	assert.Empty(t, shop.Tubes, "the demo workshop shows through")
	require.Len(t, shop.Blocks, 1)
	assert.Equal(t, []outline.Size{{LengthMM: 12, WidthMM: 10}, {LengthMM: 10, WidthMM: 8}, {LengthMM: 8, WidthMM: 6}}, shop.Blocks[0].Holes)
	assert.InDelta(t, 10, shop.Blocks[0].Lean.Degrees(), 1e-6)
	// 10 tonnes-force are 98066.5 N (standard gravity, exact); a ram of 40 mm
	// has 400 pi = 1256.637 mm2.
	assert.Equal(t, 98066.5, shop.Presses[0].CapacityN)
	assert.InDelta(t, 1256.637, shop.Presses[0].RamAreaMM2, 0.001)
}

func TestProblemsNameKeyRangeAndExample(t *testing.T) {
	tests := []struct {
		name, yaml string
		environ    []string
		want       []string
	}{
		{"unknown key", "discord:\n  shard: 2\n", nil, []string{"line 2", "discord.shard is not a known key", "did you mean shards?"}},
		{"unknown section", "discrod: {shards: 2}\n", nil, []string{"line 1", "discrod is not a known key", "did you mean discord?"}},
		{"far from all", "zzzzzzzzzzzz: 1\n", nil, []string{"choose from daybook, discord, health, limits, log"}},
		{"unknown in a list", "workshop:\n  tubes:\n    - {name: a, alloy: sterling, outer: 8, wall_mm: 1}\n", nil, []string{"line 3", "workshop.tubes[1].outer is not a known key", "outer_mm"}},
		{"word for a number", "discord: {shards: many}\n", nil, []string{"guild.yaml line 1 column 19", "discord.shards must be a whole number from 0", "256", `such as "shards: 0"`}},
		{"out of range", "discord: {shards: 300}\n", nil, []string{"guild.yaml line 1 column 19", "discord.shards must be a whole number from 0", "256"}},
		{"negative", "matrix: {teacher_power: -1}\n", nil, []string{"matrix.teacher_power", "from 1 to 100"}},
		{"one for a list", "matrix: {verify_with: \"@ana:b.example\"}\n", nil, []string{"matrix.verify_with must be a list", `verify_with: ["@ana:example.org"]`}},
		{"not a number", "workshop: {tubes: [{name: a, alloy: sterling, outer_mm: NaN, wall_mm: 1}]}\n", nil, []string{"workshop.tubes[1].outer_mm", "from 0.5 to 100 mm"}},
		{"wall too thick", "workshop: {tubes: [{name: a, alloy: sterling, outer_mm: 2, wall_mm: 1}]}\n", nil, []string{"workshop.tubes[1].wall_mm", "less than half the diameter"}},
		{"no such outline", "workshop: {blocks: [{name: a, outline: ovel, lean_deg: 8, thickness_mm: 20, holes_mm: [8x6]}]}\n", nil, []string{`"ovel" is not an outline's word`, "did you mean oval?"}},
		{"no such alloy", "workshop: {tubes: [{name: a, alloy: stirling, outer_mm: 8, wall_mm: 1}]}\n", nil, []string{`"stirling" is not an alloy's word`, "did you mean sterling?"}},
		{"bad hole", "workshop: {blocks: [{name: a, outline: oval, lean_deg: 8, thickness_mm: 20, holes_mm: [8xx6]}]}\n", nil, []string{"workshop.blocks[1].holes_mm", "length x width", "12x10"}},
		{"no holes", "workshop: {blocks: [{name: a, outline: oval, lean_deg: 8, thickness_mm: 20}]}\n", nil, []string{"workshop.blocks[1].holes_mm"}},
		{"nameless", "workshop: {presses: [{capacity_tonnes: 10, ram_diameter_mm: 40}]}\n", nil, []string{"workshop.presses[1].name must be a name"}},
		{"two of a name", "workshop: {sheets: [], tubes: [{name: a, alloy: sterling, outer_mm: 8, wall_mm: 1}, {name: A, alloy: copper, outer_mm: 8, wall_mm: 1}]}\n", nil, []string{"workshop.tubes[2].name", "workshop.tubes[1].name"}},
		{"no such day", "workshop: {prices: [{alloy: copper, per_gram: 1, currency: EUR, date: 2026-13-01}]}\n", nil, []string{"workshop.prices[1].date", "year-month-day"}},
		{"list wanted", "workshop: {tubes: 4}\n", nil, []string{"workshop.tubes must be a list"}},
		{"keys wanted", "log: loud\n", nil, []string{"log must have keys under it, such as level, format"}},
		{"wrong word", "log: {level: loud}\n", nil, []string{"log.level must be debug, info, warn or error"}},
		{"two documents", "log: {level: info}\n---\nlog: {level: warn}\n", nil, []string{"line 3 column 1", "second document"}},
		{"a bare word", "hello\n", nil, []string{"must have keys"}},
		{"twice", "log: {level: info}\nlog: {level: warn}\n", nil, []string{"line 2 column 1", "log is set twice; the first is on line 1"}},
		{"twice deep down", "log:\n  level: info\n  level: warn\n", nil, []string{"line 3 column 3", "log.level is set twice; the first is on line 2"}},
		{"twice under two names", "discord: {metrics_addr: \":1\"}\nhealth: {addr: \":2\"}\n", nil, []string{"line 2 column 10", "health.addr is set twice; the first is on line 1"}},
		{"twice in a map", "matrix: {prefixes: {a: b, a: c}}\n", nil, []string{"matrix.prefixes.a is set twice"}},
		{"a merge", "log: {<<: {level: info}}\n", nil, []string{"line 1 column 7", "no aliases"}},
		{"an alias", "daybook: {path: &a x}\nlog: {level: *a}\n", nil, []string{"line 2 column 7", "write the values out"}},
		{"an alias in a list", "daybook: {path: &a x}\nmatrix: {allow: {users: [a, *a]}}\n", nil, []string{"line 2 column 29", "write the values out"}},
		{"a mapping that holds itself", "log: &a {level: info, format: *a}\n", nil, []string{"write the values out"}},
		{"a list as a key", "log: {[level]: info}\n", nil, []string{"a key must be a plain word"}},
		{"a map as a prefix", "matrix: {prefixes: {a: {b: c}}}\n", nil, []string{"matrix.prefixes must be room ids"}},
		{"tab", "log:\n\tlevel: info\n", nil, []string{"guild.yaml near line 2", "not YAML"}},
		{"not UTF-8", "log: {level: \xff}\n", nil, []string{"not YAML"}},
		{"no such anchor", "daybook: {path: *hush}\n", nil, []string{"guild.yaml", "put a value that begins with * in quotes"}},
		{"broken", "log: {level: info\n", nil, []string{"guild.yaml", "not YAML"}},
		{"token in the file", "discord: {token: abc}\n", nil, []string{"discord.token is not a known key", "token_file"}},
		{"environment misspelt", "", []string{"GUILDHAND_DISCRD_TOKEN=x"}, []string{"GUILDHAND_DISCRD_TOKEN is not known", "GUILDHAND_DISCORD_TOKEN"}},
		{"environment wrong", "", []string{"GUILDHAND_DISCORD_SHARDS=x"}, []string{"environment GUILDHAND_DISCORD_SHARDS", "discord.shards must be"}},
		{"health", "health: {addr: here}\n", nil, []string{"health.addr must be an address", "addr: 127.0.0.1:9090"}},
		{"fresh", "discord: {fresh_for: 3}\n", nil, []string{"discord.fresh_for must be", "from 1m to 168h", "fresh_for: 1h"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := load(t, test.yaml, test.environ...)
			require.Error(t, err)
			for _, want := range test.want {
				assert.Contains(t, err.Error(), want)
			}
			assert.NotContains(t, err.Error(), "\n", "more than one sentence")
		})
	}
}

func TestEveryProblemIsTold(t *testing.T) {
	_, err := load(t, "log: {level: loud, format: pink}\ndiscord: {shards: 999}\n")
	require.Error(t, err)
	assert.Len(t, strings.Split(err.Error(), "\n"), 3)
}

func TestEmptyFileIsTheDefault(t *testing.T) {
	for _, text := range []string{"", "# nothing\n", "log:\n", "---\n", "workshop:\n", "\ufeff", "~"} {
		c := mustLoad(t, text)
		assert.Equal(t, "info", c.Log.Level, text)
		assert.True(t, c.Shop().Demo, text)
	}
}

func TestWhereTheFileIsFound(t *testing.T) {
	home := t.TempDir()
	usual := filepath.Join(home, "guildhand", "config.yaml")
	require.NoError(t, os.MkdirAll(filepath.Dir(usual), 0o700))
	require.NoError(t, os.WriteFile(usual, []byte("log: {level: warn}"), 0o600))
	named := write(t, "named.yaml", "log: {level: error}")
	given := write(t, "given.yaml", "log: {level: debug}")
	for _, test := range []struct {
		file    string
		environ []string
		want    string
	}{
		{"", nil, "info"},
		{"", []string{"XDG_CONFIG_HOME=" + home}, "warn"},
		{"", []string{"XDG_CONFIG_HOME=" + home, "GUILDHAND_CONFIG=" + named}, "error"},
		{given, []string{"XDG_CONFIG_HOME=" + home, "GUILDHAND_CONFIG=" + named}, "debug"},
	} {
		c, err := Load(test.file, test.environ)
		require.NoError(t, err)
		assert.Equal(t, test.want, c.Log.Level, "%q %v", test.file, test.environ)
	}
	_, err := Load(filepath.Join(home, "none.yaml"), nil)
	assert.Error(t, err, "a named file that is missing was passed over")
}

const hush = "s3cret-token-value"

// No way of printing, logging or marshalling shows a secret.
func TestSecretsStayHidden(t *testing.T) {
	file := write(t, "token", hush+"\n")
	c := mustLoad(t, "matrix: {token_file: "+file+"}", "GUILDHAND_DISCORD_TOKEN="+hush, "GUILDHAND_DAYBOOK_URL=postgres://u:"+hush+"@h/d")
	for _, secret := range []Secret{c.Discord.Token, c.Matrix.Token} {
		got, err := secret.Reveal()
		require.NoError(t, err)
		require.Equal(t, hush, got)
	}
	var out bytes.Buffer
	for _, format := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x"} {
		fmt.Fprintf(&out, format+"\n", c.Discord.Token)
		fmt.Fprintf(&out, format+"\n", c.Discord)
		fmt.Fprintf(&out, format+"\n", c.Daybook)
	}
	for _, handler := range []slog.Handler{slog.NewTextHandler(&out, nil), slog.NewJSONHandler(&out, nil)} {
		slog.New(handler).Info("start", "token", c.Discord.Token, "all", c.Discord, "book", c.Daybook)
	}
	for _, marshal := range []func(any) ([]byte, error){json.Marshal, yaml.Marshal} {
		text, err := marshal(c.Discord)
		require.NoError(t, err)
		out.Write(text)
	}
	require.NoError(t, c.Explain(&out))
	assert.NotContains(t, out.String(), hush)
	assert.NotContains(t, out.String(), fmt.Sprintf("%x", hush))
	assert.Contains(t, out.String(), "set, hidden (environment GUILDHAND_DISCORD_TOKEN)")
}

// A secret that was written where it does not belong is in no message.
func TestNoMessageQuotesASecret(t *testing.T) {
	for _, text := range []string{
		"discord: {token: %s}", "discord: %s", "%s", "discord: {token_file: *%s}", "daybook: {url: %s", "discord:\n  token: %s\n bad: x",
		"matrix: {teacher_power: %s}", "matrix: {encryption: %s}", "matrix: {fresh_for: %s}", "matrix: {password: \"%s}", "matrix: {allow: %s}",
		"discord: {application_id: %s}", "matrix: {user: %s}", "log: {<<: %s}", "log: {<<: *%s}", "%%%s x", "a: !%s!x y", "a: |%s\n", "matrix:\n\t%s: x",
		"log: {level: %s}",
	} {
		text = fmt.Sprintf(text, hush)
		_, err := load(t, text)
		if assert.Error(t, err, text) {
			assert.NotContains(t, err.Error(), hush, text)
		}
	}
}

func TestSecretFileProblems(t *testing.T) {
	for name, content := range map[string]string{"empty": "\n", "several lines": "a\nb\n"} {
		file := write(t, "token", content)
		c := mustLoad(t, "discord: {token_file: "+file+"}")
		_, err := c.Discord.Token.Reveal()
		assert.ErrorContains(t, err, file, name)
	}
	c := mustLoad(t, "discord: {token_file: /nowhere/token}")
	_, err := c.Discord.Token.Reveal()
	assert.ErrorContains(t, err, "discord.token: ")
	assert.True(t, c.Discord.Token.Set())
	got, err := (Secret{}).Reveal()
	assert.NoError(t, err)
	assert.Empty(t, got)
}

// loadsAgain wants what Explain writes to load to the same values.
func loadsAgain(t *testing.T, first *Config) {
	t.Helper()
	var text bytes.Buffer
	require.NoError(t, first.Explain(&text))
	second, err := load(t, text.String())
	require.NoError(t, err, "%s", &text)
	for _, c := range []*Config{first, second} { // what a file can't hold
		c.origins, c.notes, c.env = nil, nil, nil
		for _, s := range secrets(reflect.ValueOf(c).Elem()) {
			s.value.SetZero()
		}
	}
	assert.True(t, reflect.DeepEqual(first, second), "not the same values:\n%s", &text)
}

func TestExplainLoadsAgain(t *testing.T) {
	for _, text := range []string{
		"",
		"matrix:\n  verify_with: [\"@ana:b.example\"]\n  prefixes: {\"!a:b.example\": \"?\"}\n  allow: {servers: [b.example]}\nworkshop: {sheets: [{name: a, width_mm: 10, length_mm: 20.5}]}\n",
		"log: {level: debug, format: json}\nhealth: {addr: \"[::1]:9090\"}\nlimits: {maker_at_once: 1}\nmatrix: {encryption: false, teacher_power: 1, fresh_for: 90s, prefix: \"#\"}",
	} {
		loadsAgain(t, mustLoad(t, text))
	}
}

// Whatever a text has in it, it comes back.
func FuzzExplainLoadsAgain(f *testing.F) {
	for _, text := range []string{
		"plain", "", " ", "~", "null", "yes", "0x10", "1e3", "010", "2026-11-01", "<<", "=", "!", "&a", "*a", "# no comment", "a: b", "a #b", "[x]", "{x}",
		"- x", "'", "\"", "\\", "%x", "@x", "`x`", "two\nlines", "\n", "trailing \n\n", "\ttab", "cr\rx", "nel\u0085x", "ls\u2028x", "\ufeffbom", "esc\x1b[2J", "Latin \xe9", "💍", "---", "...",
		strings.Repeat("long ", 100),
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if strings.ContainsRune(text, 0) {
			t.Skip("no environment and no path holds a zero byte")
		}
		c := mustLoad(t, "", "GUILDHAND_DAYBOOK_PATH="+text, "GUILDHAND_MATRIX_TOKEN_FILE="+text, "GUILDHAND_MATRIX_ALLOW_ROOMS="+text)
		c.Matrix.Prefixes = map[string]string{text: text, "room": text}
		loadsAgain(t, c)
	})
}

func TestDaybookPath(t *testing.T) {
	t.Run("usual place", func(t *testing.T) {
		home := t.TempDir()
		path, note, err := mustLoad(t, "", "HOME="+home).DaybookPath()
		require.NoError(t, err)
		assert.Empty(t, note)
		assert.True(t, strings.HasPrefix(path, home), path)
	})
	t.Run("no home", func(t *testing.T) {
		t.Setenv("TMPDIR", t.TempDir())
		missing := filepath.Join(t.TempDir(), "gone")
		for _, environ := range [][]string{nil, {"HOME=" + missing}} {
			path, note, err := mustLoad(t, "", environ...).DaybookPath()
			require.NoError(t, err)
			assert.True(t, strings.HasPrefix(path, os.Getenv("TMPDIR")), path)
			assert.Contains(t, note, "no home", "why")
			assert.Contains(t, note, "daybook.path", "what to do")
		}
		assert.NoDirExists(t, missing, "a home that did not exist was created")
	})
	t.Run("prepared by somebody else", func(t *testing.T) {
		tmp := t.TempDir()
		t.Setenv("TMPDIR", tmp)
		c := mustLoad(t, "")
		_, _, err := c.DaybookPath()
		require.NoError(t, err)
		dirs, err := os.ReadDir(tmp)
		require.NoError(t, err)
		require.Len(t, dirs, 1)
		dir := filepath.Join(tmp, dirs[0].Name())
		require.NoError(t, os.Chmod(dir, 0o777))
		_, _, err = c.DaybookPath()
		assert.ErrorContains(t, err, "open to others")
		require.NoError(t, os.Rename(dir, dir+"-elsewhere"))
		require.NoError(t, os.Symlink(dir+"-elsewhere", dir))
		_, _, err = c.DaybookPath()
		assert.Error(t, err, "a link")
	})
	t.Run("named and useless", func(t *testing.T) {
		path, _, err := mustLoad(t, "daybook: {path: /proc/none/daybook.db}").DaybookPath()
		assert.Error(t, err, "got %q in place of a refusal", path)
	})
	t.Run("nothing else is left", func(t *testing.T) {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, ".writable"), nil, 0o600)) // of a start that was killed
		_, _, err := mustLoad(t, "daybook: {path: "+dir+"/daybook.db}").DaybookPath()
		require.NoError(t, err)
		left, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Empty(t, left)
	})
}
