package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const root = "../.."

// imported is one import of a file, paths from the root of the project.
type imported struct{ file, pkg string }

func (i imported) ours() bool { return strings.HasPrefix(i.pkg, "guildhand/") }
func (i imported) in(dir string) bool {
	return i.pkg == "guildhand/"+dir || strings.HasPrefix(i.pkg, "guildhand/"+dir+"/")
}

// rules says what a folder may not import. Dependencies point inward: cmd,
// adapters, bot, calc.
var rules = []struct {
	folder, why string
	// tests reports whether the rule binds test files too.
	tests  bool
	broken func(imported) bool
}{
	{"calc", "calc imports the standard library, gonum and calc alone", false, func(i imported) bool {
		standard := !strings.Contains(strings.Split(i.pkg, "/")[0], ".") && !i.ours()
		return !standard && !i.in("calc") && !strings.HasPrefix(i.pkg, "gonum.org/v1/gonum/")
	}},
	{"calc", "calc has no clock, no input or output and no log, but for the switches of its tests", false, func(i imported) bool {
		if i.in("calc/testcount") {
			return true
		}
		return !strings.HasPrefix(i.file, "calc/testcount/") && slices.Contains([]string{"os", "io/fs", "net", "net/http", "log", "log/slog", "time", "database/sql", "os/exec"}, i.pkg)
	}},
	{"bot", "bot knows no adapter, no configuration and no command", true, func(i imported) bool {
		return i.in("adapters") || i.in("config") || i.in("cmd")
	}},
	{"bot/catalogue", "the catalogue says what a request is: it knows no store and no parser", true, func(i imported) bool {
		return i.in("bot/daybook") || i.in("bot/reading") || i.in("bot/requests")
	}},
	{"bot/reading", "reading knows no store", false, func(i imported) bool {
		return i.in("bot/daybook") || i.in("bot/requests")
	}},
	{"adapters", "adapters know neither the configuration nor the command", true, func(i imported) bool {
		return i.in("config") || i.in("cmd")
	}},
	{"adapters", "adapters don't know each other, but for the health port and, in tests, one conversation", true, func(i imported) bool {
		own := "adapters/" + strings.Split(i.file, "/")[1]
		shared := i.in("adapters/health") || i.in("adapters/conversationtest") && strings.HasSuffix(i.file, "_test.go")
		return i.in("adapters") && !i.in(own) && !shared
	}},
	{"config", "the configuration knows no adapter and no command", true, func(i imported) bool {
		return i.in("adapters") || i.in("cmd")
	}},
}

func breaks(all []imported) []string {
	var broken []string
	for _, rule := range rules {
		for _, i := range all {
			inTest := strings.HasSuffix(i.file, "_test.go")
			if strings.HasPrefix(i.file, rule.folder+"/") && (rule.tests || !inTest) && rule.broken(i) {
				broken = append(broken, i.file+" imports "+i.pkg+": "+rule.why)
			}
		}
	}
	return broken
}

func TestDependenciesPointInward(t *testing.T) {
	var all []imported
	folders := map[string]int{}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && d.Name() != ".." {
			return fs.SkipDir
		}
		if path.Ext(name) != ".go" {
			return nil
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		for _, rule := range rules {
			if strings.HasPrefix(rel, rule.folder+"/") {
				folders[rule.folder]++
			}
		}
		for _, spec := range parsed.Imports {
			pkg, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			all = append(all, imported{rel, pkg})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, rule := range rules {
		if folders[rule.folder] == 0 {
			t.Errorf("no files found in %s", rule.folder)
		}
	}
	for _, line := range breaks(all) {
		t.Error(line)
	}
}

// Each rule is broken once, so that it is known to notice.
func TestEveryRuleNotices(t *testing.T) {
	for i, planted := range []imported{
		{"calc/ring/ring.go", "golang.org/x/image/vector"},
		{"calc/ring/ring.go", "time"},
		{"bot/bot_test.go", "guildhand/adapters/matrix"},
		{"bot/catalogue/call.go", "guildhand/bot/reading"},
		{"bot/reading/parse.go", "guildhand/bot/daybook"},
		{"adapters/matrix/room.go", "guildhand/config"},
		{"adapters/matrix/room.go", "guildhand/adapters/discord"},
		{"config/load.go", "guildhand/adapters/discord"},
	} {
		found := breaks([]imported{planted})
		if len(found) != 1 || !strings.HasSuffix(found[0], rules[i].why) {
			t.Errorf("%v: got %q", planted, found)
		}
	}
	for _, fine := range []imported{
		{"calc/ring/ring.go", "math"},
		{"calc/ring/ring.go", "gonum.org/v1/gonum/mat"},
		{"calc/ring/ring.go", "guildhand/calc/units"},
		{"calc/ring/ring_source_test.go", "gonum.org/v1/gonum/mathext"},
		{"adapters/matrix/room.go", "guildhand/adapters/health"},
		{"adapters/matrix/room.go", "guildhand/bot"},
		{"cmd/guildhand/serve.go", "guildhand/adapters/discord"},
	} {
		if found := breaks([]imported{fine}); found != nil {
			t.Errorf("%v: got %q", fine, found)
		}
	}
}

// The top of the project is a table of contents.
func TestTopLevel(t *testing.T) {
	allowed := strings.Fields("cmd bot calc adapters config go.mod go.sum README.md DEVELOPERS.md Dockerfile LICENSE")
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		// Whatever building and testing leaves there is no part of it.
		name := entry.Name()
		if name == "guildhand" || name == "dist" || name == "tmp" || slices.Contains([]string{".out", ".test"}, path.Ext(name)) {
			continue
		}
		if !strings.HasPrefix(name, ".") && !slices.Contains(allowed, name) {
			t.Errorf("%s does not belong at the top", name)
		}
	}
}
