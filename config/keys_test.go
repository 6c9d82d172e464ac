package config

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sources parses the Go files of a folder and of those in it, without tests.
func sources(t *testing.T, files *token.FileSet, folder string) map[string][]*ast.File {
	t.Helper()
	byFolder := map[string][]*ast.File{}
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(files, name, nil, parser.SkipObjectResolution)
		byFolder[filepath.Dir(name)] = append(byFolder[filepath.Dir(name)], file)
		return err
	})
	require.NoError(t, err)
	require.NotEmpty(t, byFolder, folder)
	return byFolder
}

// A default and a range stand in a tag of config alone. A second one elsewhere
// is a literal with the same value under the same name, give or take a word:
// prefix, defaultPrefix or Prefix for matrix.prefix.

// literal is a constant of a source file and the name that it belongs to.
type literal struct {
	name  string
	value constant.Value
	at    token.Pos
}

// literals finds the constants that a file declares, assigns, compares, returns
// or puts into a struct, with the name of what they are for.
func literals(file *ast.File) (all []literal) {
	add := func(name, value ast.Expr) {
		if v := constantOf(value); v != nil {
			all = append(all, literal{nameOf(name), v, value.Pos()})
		}
	}
	pairs := func(names, values []ast.Expr) {
		for i := range min(len(names), len(values)) {
			add(names[i], values[i])
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ValueSpec:
			for i := range min(len(n.Names), len(n.Values)) {
				add(n.Names[i], n.Values[i])
			}
		case *ast.AssignStmt:
			pairs(n.Lhs, n.Rhs)
		case *ast.KeyValueExpr:
			add(n.Key, n.Value)
		case *ast.BinaryExpr:
			add(n.X, n.Y)
			add(n.Y, n.X)
		case *ast.CallExpr: // cmp.Or(c.Prefix, "!")
			for _, arg := range n.Args {
				for _, other := range n.Args {
					add(arg, other)
				}
			}
		case *ast.FuncDecl:
			ast.Inspect(n, func(inner ast.Node) bool {
				if r, ok := inner.(*ast.ReturnStmt); ok {
					for _, result := range r.Results {
						add(n.Name, result)
					}
				}
				return true
			})
		}
		return true
	})
	return all
}

// nameOf is the last word of an expression: FreshFor of a.config.FreshFor.
func nameOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}

// constantOf is the value of an expression of literals and units of time, or nil.
func constantOf(e ast.Expr) constant.Value {
	switch e := e.(type) {
	case *ast.BasicLit:
		return constant.MakeFromLiteral(e.Value, e.Kind, 0)
	case *ast.ParenExpr:
		return constantOf(e.X)
	case *ast.SelectorExpr:
		unit := map[string]time.Duration{"Second": time.Second, "Minute": time.Minute, "Hour": time.Hour}[e.Sel.Name]
		if pkg, ok := e.X.(*ast.Ident); ok && pkg.Name == "time" && unit != 0 {
			return constant.MakeInt64(int64(unit))
		}
	case *ast.BinaryExpr:
		if x, y := constantOf(e.X), constantOf(e.Y); e.Op == token.MUL && x != nil && y != nil &&
			x.Kind() == constant.Int && y.Kind() == constant.Int {
			return constant.BinaryOp(x, e.Op, y)
		}
	}
	return nil
}

// told are the default and the range of a key, as constants. Zero, one and the
// empty text say nothing of where they come from.
func told(field reflect.StructField) (all []constant.Value) {
	for _, tag := range []string{"default", "min", "max"} {
		text := field.Tag.Get(tag)
		if text == "" || text == "0" || text == "1" || field.Type.Kind() == reflect.Bool {
			continue
		}
		v := constant.MakeString(text)
		if field.Type == reflect.TypeFor[time.Duration]() {
			d, _ := time.ParseDuration(text)
			v = constant.MakeInt64(int64(d))
		} else if field.Type.Kind() != reflect.String {
			v = constant.MakeFromLiteral(text, token.FLOAT, 0)
		}
		all = append(all, v)
	}
	return all
}

// sameName reports whether a name of a source file is a key's.
func sameName(name, key string) bool {
	plain := func(s string) string { return strings.ReplaceAll(strings.ToLower(s), "_", "") }
	name, key = strings.TrimPrefix(plain(name), "default"), plain(key)
	return len(name) >= 4 && (strings.Contains(name, key) || strings.Contains(key, name))
}

func twinsIn(files *token.FileSet, file *ast.File) (found []string) {
	all := keys(reflect.TypeFor[Config](), "")
	for _, l := range literals(file) {
		for _, k := range all {
			if !sameName(l.name, k.field.Tag.Get("yaml")) {
				continue
			}
			for _, v := range told(k.field) {
				if comparable := (v.Kind() == constant.String) == (l.value.Kind() == constant.String); comparable && constant.Compare(v, token.EQL, l.value) {
					found = append(found, fmt.Sprintf("%s: %s is %s, as config says of %s; take it from there", files.Position(l.at), l.name, l.value, k.path))
				}
			}
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

func TestDefaultsAndRangesStandOnce(t *testing.T) {
	files := token.NewFileSet()
	for _, folder := range []string{"../adapters", "../bot", "../cmd"} {
		for _, parsed := range sources(t, files, folder) {
			for _, file := range parsed {
				assert.Empty(t, twinsIn(files, file))
			}
		}
	}
}

// Twins as they stood once, and some other ways of writing one, are noticed.
func TestATwinIsNoticed(t *testing.T) {
	for _, line := range []string{
		`const defaultPrefix = "!"`, `const defaultDeviceName = "guildhand"`, `const defaultTeacherPower = 50`,
		`const defaultFreshFor = 72 * time.Hour`, `const DefaultFresh = time.Hour`,
		`var defaultMakerLimit = Limit{AtOnce: 60, PerMinute: 60}`,
		`func f(c Config) bool { return c.Shards < 0 || c.Shards > 256 }`,
		`func f(c *Config) { c.Prefix = "!" }`, `func f(c *Config) { c.FreshFor = 60 * time.Minute }`,
		`func freshFor(c *Config) time.Duration { return 72 * time.Hour }`,
		`func f(c *Config) string { return cmp.Or(c.Prefix, "!") }`,
	} {
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, "planted.go", "package planted\n"+line, parser.SkipObjectResolution)
		require.NoError(t, err)
		assert.NotEmpty(t, twinsIn(files, file), line)
	}
}

// importer gives our own package config and, for every other import, an empty
// package: what is looked for are config's fields alone, and errors are let pass.
type importer struct{ config *types.Package }

func (i importer) Import(name string) (*types.Package, error) {
	if name == "guildhand/config" {
		return i.config, nil
	}
	empty := types.NewPackage(name, path.Base(name))
	empty.MarkComplete()
	return empty, nil
}

// fieldsRead lists the struct fields of package config that the files read, as
// "Discord.Shards". A struct that another package's type is made of is read
// whole: a field more would not compile.
func fieldsRead(i importer, files *token.FileSet, name string, parsed []*ast.File) (pkg *types.Package, read map[string]bool) {
	info := &types.Info{Selections: map[*ast.SelectorExpr]*types.Selection{}}
	checker := types.Config{Importer: i, Error: func(error) {}}
	pkg, _ = checker.Check(name, files, parsed, info)
	written := map[ast.Expr]bool{}
	whole := map[ast.Expr]bool{}
	for _, file := range parsed {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.AssignStmt:
				for _, left := range n.Lhs {
					written[left] = true
				}
			case *ast.CallExpr:
				if _, elsewhere := n.Fun.(*ast.SelectorExpr); elsewhere && len(n.Args) == 1 {
					whole[n.Args[0]] = true
				}
			}
			return true
		})
	}
	read = map[string]bool{}
	for e, s := range info.Selections {
		owner, ok := types.Unalias(s.Recv()).(*types.Pointer)
		recv := s.Recv()
		if ok {
			recv = owner.Elem()
		}
		named, ok := types.Unalias(recv).(*types.Named)
		if !ok || named.Obj().Pkg() == nil || named.Obj().Pkg().Path() != "guildhand/config" || written[e] {
			continue
		}
		read[named.Obj().Name()+"."+s.Obj().Name()] = true
		if inner, ok := types.Unalias(s.Type()).(*types.Named); ok && whole[e] {
			if all, ok := inner.Underlying().(*types.Struct); ok {
				for f := range all.Fields() {
					read[inner.Obj().Name()+"."+f.Name()] = true
				}
			}
		}
	}
	return pkg, read
}

// unread lists the keys whose values nothing outside config reads. The lists of
// the workshop leave config as Shop, so config's own reading of them counts.
func unread(t *testing.T) (keys []string) {
	files := token.NewFileSet()
	own := sources(t, files, ".")["."]
	pkg, inside := fieldsRead(importer{}, files, "guildhand/config", own)
	outside := map[string]bool{}
	for folder, parsed := range sources(t, files, "../cmd") {
		_, read := fieldsRead(importer{pkg}, files, folder, parsed)
		maps.Copy(outside, read)
	}
	require.True(t, outside["Config.Shop"], "nothing takes the workshop")
	var walk func(s reflect.Type, path string, read map[string]bool)
	walk = func(s reflect.Type, path string, read map[string]bool) {
		byFile := map[string]bool{} // secrets' files, which config reads where the secret is read
		for i := range s.NumField() {
			field := s.Field(i)
			if file := field.Tag.Get("file"); file != "" {
				byFile[file] = read[s.Name()+"."+field.Name]
				if !byFile[file] {
					keys = append(keys, join(path, strings.ToLower(field.Name)))
				}
			}
		}
		for _, field := range fields(s) {
			here := join(path, field.Tag.Get("yaml"))
			switch {
			case field.Type == reflect.TypeFor[Workshop]():
				walk(field.Type, here, inside)
			case field.Type.Kind() == reflect.Struct:
				walk(field.Type, here, read)
			case isStructs(field.Type):
				walk(field.Type.Elem(), here, read)
			case !read[s.Name()+"."+field.Name] && !byFile[field.Name]:
				keys = append(keys, here)
			}
		}
	}
	walk(reflect.TypeFor[Config](), "", outside)
	return keys
}

func TestEveryKeyIsRead(t *testing.T) {
	assert.Empty(t, unread(t), "nothing outside config reads these keys, so to set them does nothing")
}

// A key that is only written, or that nothing names, does not count as read.
func TestAnUnreadKeyIsNoticed(t *testing.T) {
	files := token.NewFileSet()
	pkg, _ := fieldsRead(importer{}, files, "guildhand/config", sources(t, files, ".")["."])
	parse := func(body string) map[string]bool {
		text := "package main\nimport (\n\"guildhand/config\"\n\"guildhand/adapters/matrix\"\n)\nfunc f(c *config.Config, shards int) any {\n" + body + "\n}"
		file, err := parser.ParseFile(files, "planted"+strconv.Itoa(files.Base())+".go", text, parser.SkipObjectResolution)
		require.NoError(t, err)
		_, read := fieldsRead(importer{pkg}, files, "main", []*ast.File{file})
		return read
	}
	assert.NotContains(t, parse("c.Discord.Shards = 3\nreturn nil"), "Discord.Shards")
	assert.NotContains(t, parse("return matrix.Config{Shards: shards}"), "Discord.Shards")
	assert.Contains(t, parse("return matrix.Config{Shards: c.Discord.Shards}"), "Discord.Shards")
	assert.Contains(t, parse("d := c.Discord\nreturn d.Shards"), "Discord.Shards")
	assert.NotContains(t, parse("d := c.Matrix.Allow\n_ = d\nreturn nil"), "Allow.Rooms")
	assert.Contains(t, parse("return matrix.Allow(c.Matrix.Allow)"), "Allow.Rooms")
}
