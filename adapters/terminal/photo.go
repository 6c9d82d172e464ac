package terminal

import (
	"fmt"
	"io"
	"os"
	"strings"

	"guildhand/bot/photograph"
)

// ReadPhoto reads a photograph's file, a little over what a photograph may have
// at most, so that the service names the limit.
func ReadPhoto(name string) ([]byte, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("reading the photograph: %w", err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, photograph.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading the photograph: %w", err)
	}
	return data, nil
}

// photoIn finds the file that a line names after trace, "trace stone.jpg length
// 18", and takes its name out of the line.
func photoIn(line string) (rest string, photo []byte) {
	fields := strings.Fields(line)
	if len(fields) < 2 || !strings.EqualFold(fields[0], "trace") {
		return line, nil
	}
	for i, f := range fields[1:] {
		low := strings.ToLower(f)
		if !strings.HasSuffix(low, ".jpg") && !strings.HasSuffix(low, ".jpeg") && !strings.HasSuffix(low, ".png") && !strings.HasSuffix(low, ".heic") {
			continue
		}
		data, err := ReadPhoto(strings.Trim(f, `"'`))
		if err != nil {
			return line, nil
		}
		return strings.Join(append(fields[:i+1:i+1], fields[i+2:]...), " "), data
	}
	return line, nil
}
