package config

import (
	"errors"
	"fmt"
	"net"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// validate checks every value against its field's tags, then what the tags
// can't say, and makes the workshop.
func (c *Config) validate() error {
	v := &validation{c: c}
	v.walk(reflect.ValueOf(c).Elem(), "")
	v.metrics()
	v.workshop()
	return errors.Join(v.problems...)
}

type validation struct {
	c        *Config
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
		case value.Kind() == reflect.Slice && value.Type().Elem().Kind() == reflect.Struct:
			for i := range value.Len() {
				v.walk(value.Index(i), fmt.Sprintf("%s[%d]", key, i+1))
			}
		case !fits(value, field.Tag):
			v.problem(key, "%s", wants(key, field))
		}
	}
}

// fits tells whether a value is in the range of its tags. An empty string is
// "not given" outside lists; what must be given is checked where it is used.
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
	low, high := tag.Get("min"), tag.Get("max")
	if low == "" {
		return true
	}
	if d, ok := value.Interface().(time.Duration); ok {
		least, _ := time.ParseDuration(low)
		most, _ := time.ParseDuration(high)
		return least <= d && d <= most
	}
	least, _ := strconv.ParseFloat(low, 64)
	most, _ := strconv.ParseFloat(high, 64)
	x := value.Convert(reflect.TypeFor[float64]()).Float()
	return least <= x && x <= most // false for NaN
}

func (v *validation) metrics() {
	addr := v.c.Discord.MetricsAddr
	if addr == "" {
		return
	}
	if _, port, err := net.SplitHostPort(addr); err != nil || port == "" {
		field, _ := fieldOf(reflect.TypeFor[Discord](), "metrics_addr")
		v.problem("discord.metrics_addr", "%s", wants("discord.metrics_addr", field))
	}
}
