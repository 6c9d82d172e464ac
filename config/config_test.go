package config

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log/slog"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"

	"gopkg.in/yaml.v3"
)

func write(t *testing.T, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// What only tests read starts no complaint in a program that a test starts.
func TestVariablesOfTests(t *testing.T) {
	developers, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	names := regexp.MustCompile("GUILDHAND_[A-Z_]+").FindAllString(string(developers), -1)
	if len(names) < 4 {
		t.Fatalf("DEVELOPERS.md names only %q", names)
	}
	for _, name := range names {
		if _, err := load(t, "", name+"=1"); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func load(t *testing.T, content string, environ ...string) (*Config, error) {
	t.Helper()
	return Load(write(t, "guild.yaml", content), environ)
}

func mustLoad(t *testing.T, content string, environ ...string) *Config {
	t.Helper()
	c, err := load(t, content, environ...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestDefaultStandsAlone(t *testing.T) {
	c, err := Load("", nil)
	if err != nil {
		t.Fatal(err)
	}
	if !c.Shop().Demo {
		t.Error("the default workshop is not marked as invented")
	}
	if c.Log.Level != "info" || c.Matrix.FreshFor != 72*time.Hour || !c.Matrix.Encryption {
		t.Errorf("defaults not read: %+v", c)
	}
}

// The demo workshop comes through the configuration's form unchanged, but for
// the last bits of angles and areas.
func TestDemoWorkshopComesThrough(t *testing.T) {
	c, err := Load("", nil)
	if err != nil {
		t.Fatal(err)
	}
	got, want := c.Shop(), stock.DemoWorkshop()
	if len(want.Blocks) == 0 || len(want.Punches) == 0 || len(want.Presses) == 0 {
		t.Fatal("the demo workshop lacks a list")
	}
	near := func(what string, a, b float64) float64 {
		if math.Abs(a-b) > 1e-8*math.Abs(b) {
			t.Errorf("%s: got %v, want %v", what, a, b)
		}
		return b
	}
	for i, b := range want.Blocks {
		got.Blocks[i].Lean = units.Angle(near(b.Name, float64(got.Blocks[i].Lean), float64(b.Lean)))
	}
	for i, p := range want.Punches {
		got.Punches[i].Lean = units.Angle(near(p.Name, float64(got.Punches[i].Lean), float64(p.Lean)))
	}
	for i, p := range want.Presses {
		got.Presses[i].CapacityN = near(p.Name, got.Presses[i].CapacityN, p.CapacityN)
		got.Presses[i].RamAreaMM2 = near(p.Name, got.Presses[i].RamAreaMM2, p.RamAreaMM2)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

// The default file names every key, so that owners can copy from it.
func TestDefaultNamesEveryKey(t *testing.T) {
	c, err := Load("", nil)
	if err != nil {
		t.Fatal(err)
	}
	all := keys(reflect.TypeFor[Config](), "")
	if len(all) < 20 {
		t.Fatalf("only %d keys found", len(all))
	}
	for _, k := range all {
		if _, ok := c.origins[k.path]; !ok && k.path != "workshop.demo" {
			t.Errorf("default.yaml lacks %s", k.path)
		}
	}
}

// Every key says what it wants, and its example is a value that loads.
func TestKeysBringWantsAndExample(t *testing.T) {
	checked := 0
	var check func(typ reflect.Type, path string, wrap func(string) string)
	check = func(typ reflect.Type, path string, wrap func(string) string) {
		for _, field := range fields(typ) {
			key := join(path, field.Tag.Get("yaml"))
			if field.Type.Kind() == reflect.Struct {
				check(field.Type, key, func(s string) string {
					return wrap(fmt.Sprintf("%s: {%s}", field.Tag.Get("yaml"), s))
				})
				continue
			}
			if field.Type.Kind() == reflect.Slice && field.Type.Elem().Kind() == reflect.Struct {
				// One entry made of its fields' examples.
				var parts []string
				for _, inner := range fields(field.Type.Elem()) {
					if inner.Tag.Get("wants") == "" || inner.Tag.Get("example") == "" {
						t.Errorf("%s.%s lacks wants or example", key, inner.Tag.Get("yaml"))
					}
					parts = append(parts, inner.Tag.Get("example"))
				}
				text := wrap(fmt.Sprintf("%s: [{%s}]", field.Tag.Get("yaml"), strings.Join(parts, ", ")))
				if _, err := load(t, text); err != nil {
					t.Errorf("the examples of %s don't load: %v\n%s", key, err, text)
				}
				checked++
				continue
			}
			if field.Tag.Get("wants") == "" || field.Tag.Get("example") == "" {
				t.Errorf("%s lacks wants or example", key)
				continue
			}
			if _, err := load(t, wrap(field.Tag.Get("example"))); err != nil {
				t.Errorf("the example of %s doesn't load: %v", key, err)
			}
			checked++
		}
	}
	check(reflect.TypeFor[Config](), "", func(s string) string { return s })
	if checked < 25 {
		t.Errorf("only %d keys checked", checked)
	}
}

func TestLayers(t *testing.T) {
	c := mustLoad(t, "log:\n  level: warn\n  format: json\nmatrix:\n  homeserver: https://m.example.org\n  allow:\n    servers: [a.example, b.example]\n",
		"GUILDHAND_LOG_LEVEL=debug", "GUILDHAND_MATRIX_ALLOW_USERS=@a:x.example, @b:x.example", "GUILDHAND_DISCORD_SHARDS=3")
	if c.Log.Level != "debug" || c.Log.Format != "json" || c.Discord.Shards != 3 {
		t.Errorf("got log %+v and %d shards", c.Log, c.Discord.Shards)
	}
	if got := strings.Join(c.Matrix.Allow.Servers, " "); got != "a.example b.example" {
		t.Errorf("servers: %q", got)
	}
	if got := strings.Join(c.Matrix.Allow.Users, " "); got != "@a:x.example @b:x.example" {
		t.Errorf("users: %q", got)
	}
	for key, want := range map[string]string{
		"log.level":         "environment GUILDHAND_LOG_LEVEL",
		"log.format":        "line 3",
		"matrix.prefix":     "default",
		"matrix.homeserver": "line 5",
	} {
		if got := c.Origin(key); !strings.HasSuffix(got, want) {
			t.Errorf("origin of %s: got %q, want …%q", key, got, want)
		}
	}
}

// An id without quotes keeps all its digits.
func TestLongIDStaysText(t *testing.T) {
	c := mustLoad(t, "discord: {application_id: 01234567890123456789}")
	if c.Discord.ApplicationID != "01234567890123456789" {
		t.Errorf("got %q", c.Discord.ApplicationID)
	}
}

func TestOwnWorkshopReplacesTheDemo(t *testing.T) {
	c := mustLoad(t, "workshop:\n  blocks:\n    - {name: ours, outline: oval, lean_deg: 10, thickness_mm: 20, holes_mm: [8x6, 12 x 10, 10x8]}\n  presses:\n    - {name: ten, capacity_tonnes: 10, ram_diameter_mm: 40}\n")
	shop := c.Shop()
	if shop.Demo || len(shop.Tubes) != 0 || len(shop.Blocks) != 1 {
		t.Fatalf("the demo workshop shows through: %+v", shop)
	}
	want := []outline.Size{{LengthMM: 12, WidthMM: 10}, {LengthMM: 10, WidthMM: 8}, {LengthMM: 8, WidthMM: 6}}
	if !reflect.DeepEqual(shop.Blocks[0].Holes, want) {
		t.Errorf("holes %v, want %v", shop.Blocks[0].Holes, want)
	}
	if got := shop.Blocks[0].Lean.Degrees(); got < 9.999999 || got > 10.000001 {
		t.Errorf("lean %v", got)
	}
	// 10 tonnes-force are 98066.5 N (standard gravity, exact); a ram of 40 mm
	// has 400 pi = 1256.637 mm2.
	if press := shop.Presses[0]; press.CapacityN != 98066.5 || press.RamAreaMM2 < 1256.63 || press.RamAreaMM2 > 1256.64 {
		t.Errorf("press %+v", press)
	}
}

func TestProblemsNameKeyRangeAndExample(t *testing.T) {
	tests := []struct {
		name, yaml string
		environ    []string
		want       []string
	}{
		{"unknown key", "discord:\n  shard: 2\n", nil, []string{"line 2", "discord.shard is not a known key", "nearest is shards"}},
		{"unknown section", "discrod: {shards: 2}\n", nil, []string{"line 1", "discrod is not a known key", "nearest is discord"}},
		{"far from all", "zzzzzzzzzzzz: 1\n", nil, []string{"known are daybook, discord, limits, log"}},
		{"unknown in a list", "workshop:\n  tubes:\n    - {name: a, alloy: sterling, outer: 8, wall_mm: 1}\n", nil, []string{"line 3", "workshop.tubes[1].outer is not a known key", "outer_mm"}},
		{"word for a number", "discord: {shards: many}\n", nil, []string{"discord.shards wants a whole number from 0", "256", `such as "shards: 0"`}},
		{"out of range", "discord: {shards: 300}\n", nil, []string{"guild.yaml line 1", "discord.shards wants a whole number from 0", "256"}},
		{"negative", "matrix: {teacher_power: -1}\n", nil, []string{"matrix.teacher_power", "from 1 to 100"}},
		{"not a number", "workshop: {tubes: [{name: a, alloy: sterling, outer_mm: NaN, wall_mm: 1}]}\n", nil, []string{"workshop.tubes[1].outer_mm", "from 0.5 to 100 mm"}},
		{"wall too thick", "workshop: {tubes: [{name: a, alloy: sterling, outer_mm: 2, wall_mm: 1}]}\n", nil, []string{"workshop.tubes[1].wall_mm", "less than half the diameter"}},
		{"no such outline", "workshop: {blocks: [{name: a, outline: ovel, lean_deg: 8, thickness_mm: 20, holes_mm: [8x6]}]}\n", nil, []string{`"ovel" is not an outline's word`, "nearest is oval"}},
		{"no such alloy", "workshop: {tubes: [{name: a, alloy: stirling, outer_mm: 8, wall_mm: 1}]}\n", nil, []string{`"stirling" is not an alloy's word`, "nearest is sterling"}},
		{"bad hole", "workshop: {blocks: [{name: a, outline: oval, lean_deg: 8, thickness_mm: 20, holes_mm: [8xx6]}]}\n", nil, []string{"workshop.blocks[1].holes_mm", "length x width", "12x10"}},
		{"no holes", "workshop: {blocks: [{name: a, outline: oval, lean_deg: 8, thickness_mm: 20}]}\n", nil, []string{"workshop.blocks[1].holes_mm"}},
		{"nameless", "workshop: {presses: [{capacity_tonnes: 10, ram_diameter_mm: 40}]}\n", nil, []string{"workshop.presses[1].name wants a name"}},
		{"two of a name", "workshop: {sheets: [], tubes: [{name: a, alloy: sterling, outer_mm: 8, wall_mm: 1}, {name: A, alloy: copper, outer_mm: 8, wall_mm: 1}]}\n", nil, []string{"workshop.tubes[2].name", "workshop.tubes[1].name"}},
		{"no such day", "workshop: {prices: [{alloy: copper, per_gram: 1, currency: EUR, date: 2026-13-01}]}\n", nil, []string{"workshop.prices[1].date", "year-month-day"}},
		{"list wanted", "workshop: {tubes: 4}\n", nil, []string{"workshop.tubes wants a list"}},
		{"keys wanted", "log: loud\n", nil, []string{"log wants keys under it, such as level, format"}},
		{"wrong word", "log: {level: loud}\n", nil, []string{"log.level wants debug, info, warn or error"}},
		{"two documents", "log: {level: info}\n---\nlog: {level: warn}\n", nil, []string{"more than one document"}},
		{"a bare word", "hello\n", nil, []string{"wants keys"}},
		{"twice", "log: {level: info}\nlog: {level: warn}\n", nil, []string{"line 2", "not YAML", "already defined"}},
		{"broken", "log: {level: info\n", nil, []string{"guild.yaml", "not YAML"}},
		{"token in the file", "discord: {token: abc}\n", nil, []string{"discord.token is not a known key", "token_file"}},
		{"environment misspelt", "", []string{"GUILDHAND_DISCRD_TOKEN=x"}, []string{"GUILDHAND_DISCRD_TOKEN is not known", "GUILDHAND_DISCORD_TOKEN"}},
		{"environment wrong", "", []string{"GUILDHAND_DISCORD_SHARDS=x"}, []string{"environment GUILDHAND_DISCORD_SHARDS", "discord.shards wants"}},
		{"metrics", "discord: {metrics_addr: here}\n", nil, []string{"discord.metrics_addr wants an address"}},
		{"fresh", "discord: {fresh_for: 3}\n", nil, []string{"discord.fresh_for wants", "from 1m to 168h", "fresh_for: 1h"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := load(t, test.yaml, test.environ...)
			if err == nil {
				t.Fatal("accepted")
			}
			for _, want := range test.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("%q\nlacks %q", err, want)
				}
			}
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("more than one sentence: %q", err)
			}
		})
	}
}

func TestEveryProblemIsTold(t *testing.T) {
	_, err := load(t, "log: {level: loud, format: pink}\ndiscord: {shards: 999}\n")
	if err == nil || strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("want three sentences, got %v", err)
	}
}

func TestEmptyFileIsTheDefault(t *testing.T) {
	for _, text := range []string{"", "# nothing\n", "log:\n", "---\n", "workshop:\n"} {
		c := mustLoad(t, text)
		if c.Log.Level != "info" || !c.Shop().Demo {
			t.Errorf("%q: got %+v", text, c.Log)
		}
	}
}

func TestWhereTheFileIsFound(t *testing.T) {
	home := t.TempDir()
	usual := filepath.Join(home, "guildhand", "config.yaml")
	if err := os.MkdirAll(filepath.Dir(usual), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(usual, []byte("log: {level: warn}"), 0o600); err != nil {
		t.Fatal(err)
	}
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
		if err != nil {
			t.Fatal(err)
		}
		if c.Log.Level != test.want {
			t.Errorf("%q %v: got %q, want %q", test.file, test.environ, c.Log.Level, test.want)
		}
	}
	if _, err := Load(filepath.Join(home, "none.yaml"), nil); err == nil {
		t.Error("a named file that is missing was passed over")
	}
}

const hush = "s3cret-token-value"

// No way of printing, logging or marshalling shows a secret.
func TestSecretsStayHidden(t *testing.T) {
	file := write(t, "token", hush+"\n")
	c := mustLoad(t, "matrix: {token_file: "+file+"}", "GUILDHAND_DISCORD_TOKEN="+hush, "GUILDHAND_DAYBOOK_URL=postgres://u:"+hush+"@h/d")
	for _, secret := range []Secret{c.Discord.Token, c.Matrix.Token} {
		got, err := secret.Reveal()
		if err != nil || got != hush {
			t.Fatalf("Reveal: %q, %v", got, err)
		}
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
	text, err := json.Marshal(c.Discord)
	if err != nil {
		t.Fatal(err)
	}
	out.Write(text)
	if text, err = yaml.Marshal(c.Discord); err != nil {
		t.Fatal(err)
	}
	out.Write(text)
	if err := c.Explain(&out); err != nil {
		t.Fatal(err)
	}
	hex := fmt.Sprintf("%x", hush)
	if strings.Contains(out.String(), hush) || strings.Contains(out.String(), hex) {
		t.Errorf("a secret shows:\n%s", out.String())
	}
	if !strings.Contains(out.String(), "set, hidden (environment GUILDHAND_DISCORD_TOKEN)") {
		t.Errorf("explain doesn't say where the token comes from:\n%s", out.String())
	}
}

func TestSecretFileProblems(t *testing.T) {
	for name, content := range map[string]string{"empty": "\n", "several lines": "a\nb\n"} {
		file := write(t, "token", content)
		c := mustLoad(t, "discord: {token_file: "+file+"}")
		if _, err := c.Discord.Token.Reveal(); err == nil || !strings.Contains(err.Error(), file) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	c := mustLoad(t, "discord: {token_file: /nowhere/token}")
	if _, err := c.Discord.Token.Reveal(); err == nil || !c.Discord.Token.Set() {
		t.Errorf("missing file: got %v", err)
	}
	if _, err := (Secret{}).Reveal(); err == nil {
		t.Error("a secret that is not set was revealed")
	}
}

// What Explain writes loads again to the same configuration.
func TestExplainLoadsAgain(t *testing.T) {
	first := mustLoad(t, "matrix:\n  prefixes: {\"!a:b.example\": \"?\"}\n  allow: {servers: [b.example]}\nworkshop: {sheets: [{name: a, width_mm: 10, length_mm: 20.5}]}\n")
	var text bytes.Buffer
	if err := first.Explain(&text); err != nil {
		t.Fatal(err)
	}
	second, err := load(t, text.String())
	if err != nil {
		t.Fatalf("%v\n%s", err, text.String())
	}
	if !reflect.DeepEqual(first.Matrix, second.Matrix) || !reflect.DeepEqual(first.Shop(), second.Shop()) || first.Discord != second.Discord {
		t.Errorf("not the same:\n%s", text.String())
	}
}

func TestDaybookPath(t *testing.T) {
	t.Run("usual place", func(t *testing.T) {
		home := t.TempDir()
		c := mustLoad(t, "", "HOME="+home)
		path, note, err := c.DaybookPath()
		if err != nil || note != "" || !strings.HasPrefix(path, home) {
			t.Errorf("got %q, %q, %v", path, note, err)
		}
	})
	t.Run("no home", func(t *testing.T) {
		t.Setenv("TMPDIR", t.TempDir())
		missing := filepath.Join(t.TempDir(), "gone")
		for _, environ := range [][]string{nil, {"HOME=" + missing}} {
			c := mustLoad(t, "", environ...)
			path, note, err := c.DaybookPath()
			if err != nil || !strings.HasPrefix(path, os.Getenv("TMPDIR")) {
				t.Errorf("got %q, %v", path, err)
			}
			if !strings.Contains(note, "no home") || !strings.Contains(note, "daybook.path") {
				t.Errorf("the note %q does not say why and what to do", note)
			}
		}
		if _, err := os.Stat(missing); err == nil {
			t.Error("a home that did not exist was created")
		}
	})
	t.Run("prepared by somebody else", func(t *testing.T) {
		tmp := t.TempDir()
		t.Setenv("TMPDIR", tmp)
		c := mustLoad(t, "")
		_, _, err := c.DaybookPath()
		if err != nil {
			t.Fatal(err)
		}
		dirs, err := os.ReadDir(tmp)
		if err != nil || len(dirs) != 1 {
			t.Fatal(dirs, err)
		}
		dir := filepath.Join(tmp, dirs[0].Name())
		if err := os.Chmod(dir, 0o777); err != nil {
			t.Fatal(err)
		}
		if path, _, err := c.DaybookPath(); err == nil || !strings.Contains(err.Error(), "open to others") {
			t.Errorf("a folder open to all: got %q, %v", path, err)
		}
		if err := os.Rename(dir, dir+"-elsewhere"); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(dir+"-elsewhere", dir); err != nil {
			t.Fatal(err)
		}
		if path, _, err := c.DaybookPath(); err == nil {
			t.Errorf("a link: got %q", path)
		}
	})
	t.Run("named and useless", func(t *testing.T) {
		c := mustLoad(t, "daybook: {path: /proc/none/daybook.db}")
		if path, _, err := c.DaybookPath(); err == nil {
			t.Errorf("got %q in place of a refusal", path)
		}
	})
}
