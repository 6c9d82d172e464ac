package config

import (
	"fmt"
	"io"
	"reflect"
	"strings"

	"github.com/goccy/go-yaml"
)

// Explain writes the configuration that holds, with where each value comes
// from. What it writes can be loaded again as a configuration file; secrets
// stand in comments, masked.
func (c *Config) Explain(w io.Writer) error {
	var b strings.Builder
	root := reflect.ValueOf(c).Elem()
	for _, section := range fields(root.Type()) {
		name := section.Tag.Get("yaml")
		fmt.Fprintf(&b, "%s:\n", name)
		for _, s := range secrets(root) {
			if !strings.HasPrefix(s.path, name+".") {
				continue
			}
			secret := s.value.Interface().(Secret)
			fmt.Fprintf(&b, "  # %s: %s", strings.TrimPrefix(s.path, name+"."), secret)
			if secret.Set() {
				fmt.Fprintf(&b, " (%s)", secret.From())
			} else {
				fmt.Fprintf(&b, " (%s sets it)", s.env)
			}
			b.WriteByte('\n')
		}
		if err := c.explain(&b, root.FieldByIndex(section.Index), name, "  "); err != nil {
			return err
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (c *Config) explain(b *strings.Builder, s reflect.Value, path, indent string) error {
	for _, field := range fields(s.Type()) {
		name, value := field.Tag.Get("yaml"), s.FieldByIndex(field.Index)
		key := join(path, name)
		if value.Kind() == reflect.Struct {
			fmt.Fprintf(b, "%s%s:\n", indent, name)
			if err := c.explain(b, value, key, indent+"  "); err != nil {
				return err
			}
			continue
		}
		if value.Kind() == reflect.Slice && value.Type().Elem().Kind() == reflect.Struct && value.Len() > 0 {
			fmt.Fprintf(b, "%s%s: # %s\n", indent, name, c.Origin(key))
			for i := range value.Len() {
				text, err := flow(value.Index(i).Interface())
				if err != nil {
					return err
				}
				fmt.Fprintf(b, "%s  - %s\n", indent, text)
			}
			continue
		}
		text, err := flow(value.Interface())
		if err != nil {
			return err
		}
		fmt.Fprintf(b, "%s%s: %s # %s\n", indent, name, text, c.Origin(key))
	}
	return nil
}

// flow is a value as YAML on one line.
func flow(value any) (string, error) {
	if s := reflect.ValueOf(value); (s.Kind() == reflect.Slice || s.Kind() == reflect.Map) && s.Len() == 0 {
		return map[reflect.Kind]string{reflect.Slice: "[]", reflect.Map: "{}"}[s.Kind()], nil
	}
	text, err := yaml.MarshalWithOptions(value, yaml.Flow(true))
	if err != nil {
		return "", fmt.Errorf("writing the configuration: %w", err)
	}
	return strings.TrimSpace(string(text)), nil
}
