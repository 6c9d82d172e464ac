package config

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"

	"github.com/agnivade/levenshtein"
)

const (
	envPrefix = "GUILDHAND_"
	envFile   = "GUILDHAND_CONFIG"
)

// envTests begin what only tests read (see DEVELOPERS.md); the program that a
// test starts inherits it.
var envTests = []string{"GUILDHAND_TEST_", "GUILDHAND_LONG", "GUILDHAND_LOOK", "GUILDHAND_DISCORD_OPENAPI"}

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
		case kind == reflect.Map, kind == reflect.Slice && field.Type.Elem().Kind() != reflect.String:
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
		v := root.FieldByIndex(section.Index)
		for i := range v.NumField() {
			field := v.Type().Field(i)
			if field.Type != reflect.TypeFor[Secret]() {
				continue
			}
			all = append(all, secretField{
				path:  join(section.Tag.Get("yaml"), strings.ToLower(field.Name)),
				env:   field.Tag.Get("env"),
				file:  v.FieldByName(field.Tag.Get("file")).String(),
				value: v.Field(i),
			})
		}
	}
	return all
}

// setScalar reads a plain value's text into a field. A list of strings is
// separated by commas, which only the environment needs.
func setScalar(into reflect.Value, text string) error {
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

// wants is the one sentence of a value that does not serve.
func wants(path string, field reflect.StructField) string {
	return fmt.Sprintf("%s wants %s%s", path, field.Tag.Get("wants"), such(field))
}

func such(field reflect.StructField) string {
	if example := field.Tag.Get("example"); example != "" {
		return fmt.Sprintf(", such as \"%s\"", example)
	}
	return ""
}

func unknownKey(t reflect.Type, path, name string) string {
	known := map[string]bool{}
	for _, field := range fields(t) {
		known[field.Tag.Get("yaml")] = true
	}
	return fmt.Sprintf("%s is not a known key%s", join(path, name), nearest(name, known))
}

func keysOf(t reflect.Type) string {
	var names []string
	for _, field := range fields(t) {
		names = append(names, field.Tag.Get("yaml"))
	}
	return strings.Join(names, ", ")
}

// nearest names the known word nearest to one that is not known, or all of
// them where none is near.
func nearest(word string, known map[string]bool) string {
	names := make([]string, 0, len(known))
	for name := range known {
		names = append(names, name)
	}
	sort.Strings(names)
	best, distance := "", len(word)/2+1
	for _, name := range names {
		if d := levenshtein.ComputeDistance(word, name); d < distance {
			best, distance = name, d
		}
	}
	if best == "" {
		return "; known are " + strings.Join(names, ", ")
	}
	return fmt.Sprintf("; the nearest is %s", best)
}

func sortErrors(errs []error) {
	sort.Slice(errs, func(i, j int) bool { return errs[i].Error() < errs[j].Error() })
}
