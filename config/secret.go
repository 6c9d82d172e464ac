package config

import (
	"fmt"
	"log/slog"
	"os"
	"strings"
)

// Secret is a token, password or address that is never shown: however it is
// printed, logged or marshalled, what comes out is a mask. The zero Secret is
// not set.
type Secret struct {
	key   string
	value string // from the environment
	file  string // where the environment has none
	// from names the environment variable or the file.
	from string
}

// Set reports whether the secret was given; its file may still be unreadable.
func (s Secret) Set() bool { return s.from != "" }

// From names where the secret comes from, or is "".
func (s Secret) From() string { return s.from }

// Reveal returns the secret itself, reading its file now; "" if it is not set.
// The error names the key and the file, never the file's content.
func (s Secret) Reveal() (string, error) {
	if s.value != "" || s.file == "" {
		return s.value, nil
	}
	content, err := os.ReadFile(s.file)
	if err != nil {
		return "", fmt.Errorf("%s: can't read the secret: %w", s.key, err)
	}
	value := strings.TrimSpace(string(content))
	if value == "" || strings.ContainsAny(value, "\r\n") {
		return "", fmt.Errorf("%s: the file %s must have one line, the secret; it is empty or has several", s.key, s.file)
	}
	return value, nil
}

// String is a mask.
func (s Secret) String() string {
	if !s.Set() {
		return "not set"
	}
	return "set, hidden"
}

// Format masks the secret under every verb, %#v among them.
func (s Secret) Format(f fmt.State, _ rune) { fmt.Fprint(f, s.String()) }

// LogValue masks the secret in logs.
func (s Secret) LogValue() slog.Value { return slog.StringValue(s.String()) }

// MarshalText masks the secret in JSON and YAML.
func (s Secret) MarshalText() ([]byte, error) { return []byte(s.String()), nil }
