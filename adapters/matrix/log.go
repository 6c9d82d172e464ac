package matrix

import (
	"context"
	"encoding/json"
	"log/slog"
	"strings"

	"github.com/rs/zerolog"
)

// libraryLog passes the library's warnings on to log. Bodies of requests are
// left out: they hold what people wrote.
func libraryLog(log *slog.Logger) zerolog.Logger {
	return zerolog.New(logWriter{log}).Level(zerolog.WarnLevel)
}

type logWriter struct{ log *slog.Logger }

// Write takes one JSON line.
func (w logWriter) Write(line []byte) (int, error) { return w.WriteLevel(zerolog.WarnLevel, line) }

// WriteLevel takes one JSON line with its level.
func (w logWriter) WriteLevel(level zerolog.Level, line []byte) (int, error) {
	var fields map[string]any
	if json.Unmarshal(line, &fields) != nil {
		return len(line), nil
	}
	text, _ := fields[zerolog.MessageFieldName].(string)
	cause, _ := fields[zerolog.ErrorFieldName].(string)
	if strings.HasPrefix(text, "Request ") || strings.HasSuffix(cause, "context canceled") {
		return len(line), nil // the adapter says so itself where it matters
	}
	for _, name := range []string{"req_body", zerolog.MessageFieldName, zerolog.LevelFieldName} {
		delete(fields, name)
	}
	attrs := make([]any, 0, 2*len(fields))
	for k, v := range fields {
		attrs = append(attrs, k, v)
	}
	to := slog.LevelWarn
	if level >= zerolog.ErrorLevel {
		to = slog.LevelError
	}
	w.log.Log(context.Background(), to, "matrix library: "+text, attrs...)
	return len(line), nil
}
