package config

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// validate checks every value against its field's tags and makes the workshop.
func (c *Config) validate() error {
	v := &validation{c: c, names: map[string]string{}}
	v.walk(reflect.ValueOf(c).Elem(), "")
	v.workshop()
	return errors.Join(v.problems...)
}

type validation struct {
	c        *Config
	names    map[string]string // of the workshop's entries, each with its path
	problems []error
}

func (v *validation) problem(path, format string, args ...any) {
	v.problems = append(v.problems,
		fmt.Errorf("%s: %s", v.c.Origin(path), fmt.Sprintf(format, args...)))
}

func (v *validation) walk(s reflect.Value, path string) {
	for _, field := range fields(s.Type()) {
		value, key := s.FieldByIndex(field.Index), join(path, field.Tag.Get("yaml"))
		switch {
		case value.Kind() == reflect.Struct:
			v.walk(value, key)
		case isStructs(field.Type):
			for i := range value.Len() {
				v.walk(value.Index(i), fmt.Sprintf("%s[%d]", key, i+1))
			}
		case !fits(value, field.Tag):
			v.problem(key, "%s", mustBe(key, field))
		}
	}
}

// fits reports whether a value matches its tags. An empty string means "not
// given" outside lists; what must be given is checked where it is used.
func fits(value reflect.Value, tag reflect.StructTag) bool {
	if s, ok := value.Interface().(string); ok {
		if words := tag.Get("oneof"); words != "" {
			return slices.Contains(strings.Fields(words), s)
		}
		if pattern := tag.Get("pattern"); pattern != "" && s != "" {
			return regexp.MustCompile("^(?:" + pattern + ")$").MatchString(s)
		}
		return true
	}
	if d, ok := value.Interface().(time.Duration); ok {
		least, _ := time.ParseDuration(tag.Get("min"))
		most, _ := time.ParseDuration(tag.Get("max"))
		return least <= d && d <= most
	}
	if tag.Get("min") == "" || !value.CanConvert(reflect.TypeFor[float64]()) {
		return true
	}
	return inRange(value.Convert(reflect.TypeFor[float64]()).Float(), tag)
}

func inRange(x float64, tag reflect.StructTag) bool {
	least, _ := strconv.ParseFloat(tag.Get("min"), 64)
	most, _ := strconv.ParseFloat(tag.Get("max"), 64)
	return least <= x && x <= most // false for NaN
}
