package config

import (
	_ "embed"
	"errors"
	"fmt"
	"os"
	"reflect"
	"strings"

	"guildhand/calc/stock"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

//go:embed default.yaml
var defaultYAML []byte

const defaultName = "default"

// Load reads the embedded default, then the file, then the environment
// (os.Environ's form), and checks the result. Without a file it takes the one
// that GUILDHAND_CONFIG names or the one in the user's configuration folder,
// where there is one.
//
// The error holds one sentence a line, each with the key, what it wants and an
// example; none has a secret in it.
func Load(file string, environ []string) (*Config, error) {
	c := &Config{origins: map[string]string{}, env: newEnvironment(environ)}
	c.Workshop = workshopOf(stock.DemoWorkshop())
	if err := c.addYAML(defaultName, defaultYAML); err != nil {
		return nil, err
	}
	if file == "" {
		file = c.env[envFile]
	}
	if file == "" {
		if usual := c.env.configFile(); usual != "" {
			if _, err := os.Stat(usual); err == nil {
				file = usual
			}
		}
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

// layer reads one YAML text over what is there.
type layer struct {
	name     string
	origins  map[string]string
	problems []error
}

func (c *Config) addYAML(name string, content []byte) error {
	file, err := parser.ParseBytes(content, 0)
	if err != nil {
		return syntaxProblem(name, err)
	}
	l := &layer{name: name, origins: c.origins}
	documents := 0
	for _, document := range file.Docs {
		if document.Body == nil {
			continue
		}
		if documents++; documents > 1 {
			l.problem(document.Body, "the file holds more than one document; put all keys in one, without --- between them")
			break
		}
		root, ok := document.Body.(ast.MapNode)
		if !ok {
			l.problem(document.Body, "the file wants keys, such as \"log: {level: info}\"")
			break
		}
		if hasKey(root, "workshop") {
			c.Workshop = Workshop{}
		}
		l.mapping(root, reflect.ValueOf(c).Elem(), "")
	}
	return errors.Join(l.problems...)
}

// hasKey tells whether the mapping has the key with a value.
func hasKey(m ast.MapNode, key string) bool {
	for it := m.MapRange(); it.Next(); {
		if it.Key().GetToken().Value == key {
			return it.Value().Type() != ast.NullType
		}
	}
	return false
}

func syntaxProblem(name string, err error) error {
	var syntax *yaml.SyntaxError
	if errors.As(err, &syntax) && syntax.Token != nil {
		return fmt.Errorf("%s line %d: this is not YAML: %s", name, syntax.Token.Position.Line, syntax.Message)
	}
	// The library's own text quotes the line, and a line may hold a secret.
	return fmt.Errorf("%s: this is not YAML", name)
}

func (l *layer) at(node ast.Node) string {
	return fmt.Sprintf("%s line %d", l.name, node.GetToken().Position.Line)
}

func (l *layer) problem(node ast.Node, format string, args ...any) {
	l.problems = append(l.problems, fmt.Errorf("%s: %s", l.at(node), fmt.Sprintf(format, args...)))
}

// mapping reads the keys of a mapping into a struct.
func (l *layer) mapping(m ast.MapNode, into reflect.Value, path string) {
	for it := m.MapRange(); it.Next(); {
		name := it.Key().GetToken().Value
		key := join(path, name)
		field, ok := fieldOf(into.Type(), name)
		if !ok {
			l.problem(it.Key(), "%s", unknownKey(into.Type(), path, name))
			continue
		}
		l.value(it.Value(), into.FieldByIndex(field.Index), key, field)
	}
}

func (l *layer) value(node ast.Node, into reflect.Value, key string, field reflect.StructField) {
	if node.Type() == ast.NullType { // "key:" alone leaves what was there
		return
	}
	switch {
	case into.Kind() == reflect.Struct:
		m, ok := node.(ast.MapNode)
		if !ok {
			l.problem(node, "%s wants keys under it, such as %s", key, keysOf(into.Type()))
			return
		}
		l.mapping(m, into, key)
		return
	case into.Kind() == reflect.Slice:
		list, ok := node.(*ast.SequenceNode)
		if !ok {
			l.problem(node, "%s wants a list%s", key, such(field))
			return
		}
		into.Set(reflect.MakeSlice(into.Type(), len(list.Values), len(list.Values)))
		for i, item := range list.Values {
			l.value(item, into.Index(i), fmt.Sprintf("%s[%d]", key, i+1), field)
		}
	case into.Kind() == reflect.Map:
		m, ok := node.(ast.MapNode)
		if !ok {
			l.problem(node, "%s", wants(key, field))
			return
		}
		into.Set(reflect.MakeMap(into.Type()))
		for it := m.MapRange(); it.Next(); {
			text, ok := scalar(it.Value())
			if !ok {
				l.problem(it.Value(), "%s", wants(key, field))
				return
			}
			into.SetMapIndex(reflect.ValueOf(it.Key().GetToken().Value), reflect.ValueOf(text))
		}
	default:
		text, ok := scalar(node)
		if !ok || setScalar(into, text) != nil {
			l.problem(node, "%s", wants(key, field))
			return
		}
	}
	if l.name == defaultName {
		l.origins[key] = defaultName
	} else {
		l.origins[key] = l.at(node)
	}
}

// scalar gives a plain value's text as written, so that an id of twenty digits
// stays what it is.
func scalar(node ast.Node) (string, bool) {
	switch n := node.(type) {
	case *ast.LiteralNode:
		return n.Value.Value, true
	case ast.ScalarNode:
		return n.GetToken().Value, true
	}
	return "", false
}

func (c *Config) addEnvironment() error {
	root := reflect.ValueOf(c).Elem()
	known := map[string]bool{envFile: true}
	var problems []error
	for _, k := range keys(root.Type(), "") {
		name := envName(k.path)
		known[name] = true
		text, ok := c.env[name]
		if !ok {
			continue
		}
		if err := setScalar(root.FieldByIndex(k.field.Index), text); err != nil {
			problems = append(problems, fmt.Errorf("environment %s: %s", name, wants(k.path, k.field)))
			continue
		}
		c.origins[k.path] = "environment " + name
	}
	for _, s := range secrets(root) {
		known[s.env] = true
		secret := Secret{file: s.file}
		if s.file != "" {
			secret.from = "file " + s.file
		}
		if value := strings.TrimSpace(c.env[s.env]); value != "" {
			secret = Secret{value: value, from: "environment " + s.env}
		}
		s.value.Set(reflect.ValueOf(secret))
	}
	for name := range c.env {
		if strings.HasPrefix(name, envPrefix) && !ofTests(name) && !known[name] {
			problems = append(problems, fmt.Errorf("environment %s is not known%s", name, nearest(name, known)))
		}
	}
	sortErrors(problems)
	return errors.Join(problems...)
}

// Origin tells where a key's value comes from: "default", "config.yaml line
// 3", "environment GUILDHAND_LOG_LEVEL".
func (c *Config) Origin(key string) string {
	for key != "" {
		if origin, ok := c.origins[key]; ok {
			return origin
		}
		key = key[:max(strings.LastIndexAny(key, ".["), 0)]
	}
	return defaultName
}
