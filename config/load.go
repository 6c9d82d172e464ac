package config

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"reflect"
	"slices"
	"strings"

	"guildhand/calc/stock"

	"gopkg.in/yaml.v3"
)

const defaultName = "default"

// Load takes the defaults, then the file, then the environment (in the form of
// os.Environ), and checks the result. Without a file it takes the one that
// GUILDHAND_CONFIG names, or the one in the user's configuration folder if there
// is one.
//
// The error has one sentence a line. Each names the key, what it must be and an
// example; none contains a secret.
func Load(file string, environ []string) (*Config, error) {
	c := &Config{origins: map[string]string{}, env: newEnvironment(environ)}
	c.Workshop = workshopOf(stock.DemoWorkshop())
	root := reflect.ValueOf(c).Elem()
	for _, k := range keys(root.Type(), "") {
		if text := k.field.Tag.Get("default"); text != "" {
			if err := setScalar(root.FieldByIndex(k.field.Index), k.field, text); err != nil {
				return nil, fmt.Errorf("the default of %s: %w", k.path, err)
			}
		}
	}
	if file == "" {
		file = c.env.configFile()
	}
	if file != "" {
		content, err := os.ReadFile(file)
		if err != nil {
			return nil, fmt.Errorf("can't read the configuration: %w", err)
		}
		if err := c.addYAML(file, content); err != nil {
			return nil, err
		}
	}
	if err := c.addEnvironment(); err != nil {
		return nil, err
	}
	if err := c.validate(); err != nil {
		return nil, err
	}
	return c, nil
}

// layer reads one YAML file over what is already set.
type layer struct {
	c        *Config
	name     string
	set      map[string]*yaml.Node // the keys that this file has set, by path
	problems []error
}

func (c *Config) addYAML(name string, content []byte) error {
	l := &layer{c: c, name: name, set: map[string]*yaml.Node{}}
	root, err := l.parse(content)
	switch {
	case err != nil:
		return err
	case root == nil:
		return nil
	case root.Kind != yaml.MappingNode:
		l.problem(root, "the file must have keys, such as \"log: {level: info}\"")
	default:
		l.structure(root, reflect.ValueOf(c).Elem(), "")
	}
	return errors.Join(l.problems...)
}

// parse returns the one document that has something in it, or nil.
func (l *layer) parse(content []byte) (root *yaml.Node, err error) {
	decoder := yaml.NewDecoder(bytes.NewReader(content))
	for {
		var document yaml.Node
		err := decoder.Decode(&document)
		switch {
		case errors.Is(err, io.EOF):
			return root, nil
		case err != nil:
			return nil, l.syntaxProblem(err)
		}
		body := document.Content[0]
		switch {
		case isNull(body):
		case root != nil:
			l.problem(body, "the file has a second document; put all keys in one, without --- between them")
			return nil, l.problems[0]
		default:
			root = body
		}
	}
}

func (l *layer) syntaxProblem(err error) error {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	if strings.HasPrefix(text, "unknown anchor") {
		// The library quotes what follows the *, which can be a password.
		text = "put a value that begins with * in quotes"
	}
	where := l.name
	if line, rest, ok := strings.Cut(text, ": "); ok && strings.HasPrefix(line, "line ") {
		where, text = where+" near "+line, rest
	}
	return fmt.Errorf("%s: this is not YAML: %s", where, text)
}

func (l *layer) at(node *yaml.Node) string {
	return fmt.Sprintf("%s line %d column %d", l.name, node.Line, node.Column)
}

func (l *layer) problem(node *yaml.Node, format string, args ...any) {
	l.problems = append(l.problems, fmt.Errorf("%s: %s", l.at(node), fmt.Sprintf(format, args...)))
}

// first refuses a key that the file has set before.
func (l *layer) first(key *yaml.Node, path string) bool {
	first, twice := l.set[path]
	if twice {
		l.problem(key, "%s is set twice; the first is on line %d", path, first.Line)
		return false
	}
	l.set[path] = key
	return true
}

func (l *layer) each(m *yaml.Node, path string, visit func(key, value *yaml.Node, path string)) {
	for i := 0; i < len(m.Content); i += 2 {
		key, value := m.Content[i], m.Content[i+1]
		here := join(path, key.Value)
		switch {
		case key.Tag == "!!merge" || value.Kind == yaml.AliasNode:
			l.alias(key)
		case key.Kind != yaml.ScalarNode:
			l.problem(key, "a key must be a plain word")
		case l.first(key, here):
			visit(key, value, here)
		}
	}
}

// alias refuses << and *: a few lines of them can expand to millions of values.
func (l *layer) alias(node *yaml.Node) {
	l.problem(node, "a configuration has no aliases (* and <<); write the values out, or put a text that begins with * in quotes")
}

// structure reads the keys of a mapping into a struct.
func (l *layer) structure(m *yaml.Node, into reflect.Value, path string) {
	l.each(m, path, func(key, value *yaml.Node, path string) {
		if field, ok := fieldOf(into.Type(), key.Value); ok {
			l.value(value, into.FieldByIndex(field.Index), path, field)
			return
		}
		k, ok := formerly(path)
		if !ok {
			l.problem(key, "%s is not a known key%s", path, nearest(key.Value, names(into.Type())))
			return
		}
		l.c.renamed(l.at(key), path, k.path)
		if l.first(key, k.path) {
			l.value(value, reflect.ValueOf(l.c).Elem().FieldByIndex(k.field.Index), k.path, k.field)
		}
	})
}

func (l *layer) value(node *yaml.Node, into reflect.Value, path string, field reflect.StructField) {
	if isNull(node) { // "key:" alone leaves what was there
		return
	}
	if into.Type() == reflect.TypeFor[Workshop]() {
		into.SetZero()
	}
	switch into.Kind() {
	case reflect.Struct:
		if node.Kind != yaml.MappingNode {
			l.problem(node, "%s must have keys under it, such as %s", path, strings.Join(names(into.Type()), ", "))
			return
		}
		l.structure(node, into, path)
		return
	case reflect.Slice:
		if node.Kind != yaml.SequenceNode {
			l.problem(node, "%s must be a list%s", path, suchAs(field))
			return
		}
		into.SetZero() // an empty list is none
		if n := len(node.Content); n > 0 {
			into.Set(reflect.MakeSlice(into.Type(), n, n))
		}
		for i, item := range node.Content {
			if item.Kind == yaml.AliasNode {
				l.alias(item)
				return
			}
			l.value(item, into.Index(i), fmt.Sprintf("%s[%d]", path, i+1), field)
		}
	case reflect.Map:
		if node.Kind != yaml.MappingNode {
			l.problem(node, "%s", mustBe(path, field))
			return
		}
		into.SetZero()
		l.each(node, path, func(key, value *yaml.Node, _ string) {
			name, _ := scalar(key)
			text, ok := scalar(value)
			if !ok {
				l.problem(value, "%s", mustBe(path, field))
			}
			if into.IsNil() {
				into.Set(reflect.MakeMap(into.Type()))
			}
			into.SetMapIndex(reflect.ValueOf(name), reflect.ValueOf(text))
		})
	default:
		if text, ok := scalar(node); !ok || setScalar(into, field, text) != nil {
			l.problem(node, "%s", mustBe(path, field))
			return
		}
	}
	l.c.origins[path] = l.at(node)
}

func isNull(node *yaml.Node) bool { return node.Kind == yaml.ScalarNode && node.Tag == "!!null" }

// scalar returns a plain value's text as written, so that an id of twenty digits
// keeps them all.
func scalar(node *yaml.Node) (text string, ok bool) {
	if node.Tag == "!!binary" { // a text that is not UTF-8, from Explain
		return text, node.Decode(&text) == nil
	}
	return node.Value, node.Kind == yaml.ScalarNode
}

func (c *Config) addEnvironment() error {
	root := reflect.ValueOf(c).Elem()
	known := []string{envFile}
	var problems []error
	for _, k := range keys(root.Type(), "") {
		name := envName(k.path)
		known = append(known, name)
		if was := k.field.Tag.Get("was"); was != "" {
			old := envName(was)
			known = append(known, old)
			if c.env[old] != "" {
				c.renamed("environment", old, name)
				name = old
			}
		}
		text, ok := c.env[name]
		if !ok {
			continue
		}
		if err := setScalar(root.FieldByIndex(k.field.Index), k.field, text); err != nil {
			problems = append(problems, fmt.Errorf("environment %s: %s", name, mustBe(k.path, k.field)))
			continue
		}
		c.origins[k.path] = "environment " + name
	}
	for _, s := range secrets(root) {
		known = append(known, s.env)
		var secret Secret
		if value := strings.TrimSpace(c.env[s.env]); value != "" {
			secret = Secret{key: s.path, value: value, from: "environment " + s.env}
		} else if s.file != "" {
			secret = Secret{key: s.path, file: s.file, from: "file " + s.file}
		}
		s.value.Set(reflect.ValueOf(secret))
	}
	for name := range c.env {
		if strings.HasPrefix(name, envPrefix) && !ofTests(name) && !slices.Contains(known, name) {
			problems = append(problems, fmt.Errorf("environment %s is not known%s", name, nearest(name, known)))
		}
	}
	slices.SortFunc(problems, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) })
	return errors.Join(problems...)
}

// renamed notes that an old name was used.
func (c *Config) renamed(where, old, now string) {
	c.notes = append(c.notes, fmt.Sprintf("%s: %s is now called %s; the old name still works, but please change it", where, old, now))
}

// Notes are sentences that the owner should read although everything loaded,
// such as a key's new name.
func (c *Config) Notes() []string { return c.notes }

// Origin says where a key's value comes from: "default", "config.yaml line 3
// column 10", "environment GUILDHAND_LOG_LEVEL".
func (c *Config) Origin(key string) string {
	for key != "" {
		if origin, ok := c.origins[key]; ok {
			return origin
		}
		key = key[:max(strings.LastIndexAny(key, ".["), 0)]
	}
	return defaultName
}
