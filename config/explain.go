package config

import (
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"

	"gopkg.in/yaml.v3"
)

// Explain writes the effective configuration and the source of each value. The
// text loads again as a configuration file with the same values; secrets are
// in comments, masked.
func (c *Config) Explain(w io.Writer) error {
	encoder := yaml.NewEncoder(w)
	encoder.SetIndent(2)
	if err := encoder.Encode(c.section(reflect.ValueOf(c).Elem(), "")); err != nil {
		return fmt.Errorf("writing the configuration: %w", err)
	}
	return nil
}

// section is a struct with a key a line; each value's origin is its comment.
func (c *Config) section(s reflect.Value, path string) *yaml.Node {
	m := &yaml.Node{Kind: yaml.MappingNode}
	for _, field := range fields(s.Type()) {
		name, value := text(field.Tag.Get("yaml")), s.FieldByIndex(field.Index)
		here := join(path, name.Value)
		m.Content = append(m.Content, name)
		if value.Kind() == reflect.Struct {
			name.HeadComment = field.Tag.Get("about")
			m.Content = append(m.Content, c.section(value, here))
			continue
		}
		node, origin := oneLineOf(value), oneLine(c.Origin(here))
		if isStructs(field.Type) && value.Len() > 0 {
			node.Style = 0 // an entry a line
			name.LineComment = origin
		} else {
			node.LineComment = origin
		}
		m.Content = append(m.Content, node)
	}
	for _, secret := range secretsOf(s, path) {
		m.Content[0].HeadComment += "# " + oneLine(secret.describe()) + "\n"
	}
	return m
}

// oneLineOf is a value as YAML on one line.
func oneLineOf(value reflect.Value) *yaml.Node {
	node := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
	switch value.Kind() {
	case reflect.String:
		return text(value.String())
	case reflect.Slice:
		node.Kind = yaml.SequenceNode
		for i := range value.Len() {
			node.Content = append(node.Content, oneLineOf(value.Index(i)))
		}
	case reflect.Map:
		for _, key := range slices.Sorted(maps.Keys(value.Interface().(map[string]string))) {
			node.Content = append(node.Content, text(key), oneLineOf(value.MapIndex(reflect.ValueOf(key))))
		}
	case reflect.Struct:
		for _, field := range fields(value.Type()) {
			node.Content = append(node.Content, text(field.Tag.Get("yaml")), oneLineOf(value.FieldByIndex(field.Index)))
		}
	default:
		return &yaml.Node{Kind: yaml.ScalarNode, Value: fmt.Sprint(value.Interface())}
	}
	return node
}

// text is a string, in quotes where it would be read as something else.
func text(s string) *yaml.Node {
	node := &yaml.Node{}
	node.SetString(s)
	if node.Style = 0; s == "<<" || s != oneLine(s) {
		node.Style = yaml.DoubleQuotedStyle
	}
	return node
}
