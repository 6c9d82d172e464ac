package config

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/agnivade/levenshtein"
	"gopkg.in/yaml.v3"
)

const (
	envPrefix = "GUILDHAND_"
	envFile   = "GUILDHAND_CONFIG"
)

// envTests begin what only tests read (see DEVELOPERS.md); the program that a
// test starts inherits it.
var envTests = []string{
	"GUILDHAND_TEST_", "GUILDHAND_LONG", "GUILDHAND_WHOLE", "GUILDHAND_LOOK", "GUILDHAND_DISCORD_OPENAPI",
	"GUILDHAND_TIMES", "GUILDHAND_OUTCOMES", "GUILDHAND_PHOTOS", "GUILDHAND_SEEDS", "GUILDHAND_NUMBER", "GUILDHAND_HARD",
}

func ofTests(name string) bool {
	return slices.ContainsFunc(envTests, func(prefix string) bool { return strings.HasPrefix(name, prefix) })
}

// key is a value of the configuration outside the lists of the workshop.
type key struct {
	path  string
	field reflect.StructField // Index is from the root
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

func envName(path string) string {
	return envPrefix + strings.ToUpper(strings.ReplaceAll(path, ".", "_"))
}

// keys lists the values that an environment variable can set: all but the
// maps and the lists of structs.
func keys(t reflect.Type, path string) []key {
	var all []key
	for _, field := range fields(t) {
		here := join(path, field.Tag.Get("yaml"))
		switch kind := field.Type.Kind(); {
		case kind == reflect.Struct:
			for _, inner := range keys(field.Type, here) {
				inner.field.Index = append(append([]int{}, field.Index...), inner.field.Index...)
				all = append(all, inner)
			}
		case kind == reflect.Map, isStructs(field.Type):
		default:
			all = append(all, key{here, field})
		}
	}
	return all
}

// fields lists the fields that are keys.
func fields(t reflect.Type) []reflect.StructField {
	var all []reflect.StructField
	for i := range t.NumField() {
		if name := t.Field(i).Tag.Get("yaml"); name != "" && name != "-" {
			all = append(all, t.Field(i))
		}
	}
	return all
}

func fieldOf(t reflect.Type, name string) (reflect.StructField, bool) {
	for _, field := range fields(t) {
		if field.Tag.Get("yaml") == name {
			return field, true
		}
	}
	return reflect.StructField{}, false
}

// secretField is a Secret of the configuration, with its environment variable
// and the file that the configuration names for it.
type secretField struct {
	path, env, file string
	value           reflect.Value
}

func secrets(root reflect.Value) []secretField {
	var all []secretField
	for _, section := range fields(root.Type()) {
		all = append(all, secretsOf(root.FieldByIndex(section.Index), section.Tag.Get("yaml"))...)
	}
	return all
}

func secretsOf(section reflect.Value, path string) []secretField {
	var all []secretField
	for i := range section.NumField() {
		field := section.Type().Field(i)
		if field.Type == reflect.TypeFor[Secret]() {
			all = append(all, secretField{
				path:  join(path, strings.ToLower(field.Name)),
				env:   field.Tag.Get("env"),
				file:  section.FieldByName(field.Tag.Get("file")).String(),
				value: section.Field(i),
			})
		}
	}
	return all
}

// describe says whether the secret is set and by what, never what it is.
func (s secretField) describe() string {
	secret := s.value.Interface().(Secret)
	from := secret.From()
	if !secret.Set() {
		from = s.env + " sets it"
	}
	return fmt.Sprintf("%s: %s (%s)", s.path[strings.LastIndex(s.path, ".")+1:], secret, from)
}

// setScalar reads a plain value's text into a field. An empty text takes the
// default. Commas separate a list of strings, which only the environment needs.
func setScalar(into reflect.Value, field reflect.StructField, text string) error {
	if text == "" {
		text = field.Tag.Get("default")
	}
	switch into.Interface().(type) {
	case time.Duration:
		d, err := time.ParseDuration(text)
		into.SetInt(int64(d))
		return err
	case []string:
		var list []string
		for item := range strings.SplitSeq(text, ",") {
			if item = strings.TrimSpace(item); item != "" {
				list = append(list, item)
			}
		}
		into.Set(reflect.ValueOf(list))
		return nil
	}
	switch into.Kind() {
	case reflect.String:
		into.SetString(text)
	case reflect.Int:
		n, err := strconv.Atoi(text)
		into.SetInt(int64(n))
		return err
	case reflect.Float64:
		x, err := strconv.ParseFloat(text, 64)
		into.SetFloat(x)
		return err
	case reflect.Bool:
		switch text {
		case "true", "yes", "on", "1":
			into.SetBool(true)
		case "false", "no", "off", "0":
			into.SetBool(false)
		default:
			return errors.New("neither true nor false")
		}
	default:
		return errors.New("not a plain value")
	}
	return nil
}

// mustBe is the sentence for a value that does not fit.
func mustBe(path string, field reflect.StructField) string {
	text := strings.NewReplacer("{min}", field.Tag.Get("min"), "{max}", field.Tag.Get("max")).Replace(field.Tag.Get("mustBe"))
	return fmt.Sprintf("%s must be %s%s", path, text, suchAs(field))
}

func suchAs(field reflect.StructField) string {
	if line := example(field); line != "" {
		return fmt.Sprintf(", such as \"%s\"", line)
	}
	return ""
}

// example is a line that works: the tag's, or the one that sets the default.
func example(field reflect.StructField) string {
	if line := field.Tag.Get("example"); line != "" || field.Tag.Get("default") == "" {
		return line
	}
	line, _ := yaml.Marshal(map[string]yaml.Node{ // can't fail
		field.Tag.Get("yaml"): {Kind: yaml.ScalarNode, Value: field.Tag.Get("default")},
	})
	return strings.TrimSpace(string(line))
}

// formerly finds the key that had this path before.
func formerly(path string) (key, bool) {
	all := keys(reflect.TypeFor[Config](), "")
	i := slices.IndexFunc(all, func(k key) bool { return k.field.Tag.Get("was") == path })
	if i < 0 {
		return key{}, false
	}
	return all[i], true
}

func isStructs(t reflect.Type) bool {
	return t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Struct
}

// oneLine takes line breaks and other control characters out of a text.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, text)
}

// names lists the keys of a section.
func names(t reflect.Type) []string {
	var all []string
	for _, field := range fields(t) {
		all = append(all, field.Tag.Get("yaml"))
	}
	return all
}

// nearest suggests the known word that is most like one that is not known, or
// lists all of them.
func nearest(word string, known []string) string {
	slices.Sort(known)
	best, distance := "", len(word)/2+1
	for _, name := range known {
		if d := levenshtein.ComputeDistance(word, name); d < distance {
			best, distance = name, d
		}
	}
	if best == "" {
		return "; choose from " + strings.Join(known, ", ")
	}
	return fmt.Sprintf("; did you mean %s?", best)
}
