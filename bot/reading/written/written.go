// Package written reads the messages that were written for the reader to learn
// from: each has what it asks for, and what each of its figures measures.
//
// A file has a message a line, after its intents and a tab. A figure stands in
// brackets with its role:
//
//	bezel	strip for an [18x13|size] oval, [5|dome] tall
//
// The roles are the options that a figure is given for, and Retracted, Idle,
// Asked and Result.
package written

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// FollowUp is a message that came after an answer or a question of the bot, with
// what it does. A line of a file has the request that was answered, what the message
// does, and the message, with tabs between.
type FollowUp struct {
	After, Does string
	Message
}

// What a figure may be beside an option.
const (
	Retracted = "old"    // "8x6, no, 9x7"
	Idle      = "other"  // nothing that matters to the answer
	Asked     = "asked"  // what a question of knowledge is about
	Result    = "result" // what was measured on a trial piece
)

// Figure is a marked part of a message: the bytes from Start to before End.
type Figure struct {
	Start, End int
	Role       string
}

// Message is one message with its marks taken out.
type Message struct {
	Intents []string
	Text    string
	Figures []Figure
}

var mark = regexp.MustCompile(`\[([^\[\]|]+)\|([a-z-]+)\]`)

// Read reads a line.
func Read(line string) (Message, error) {
	intents, marked, ok := strings.Cut(line, "\t")
	if !ok || strings.TrimSpace(marked) == "" {
		return Message{}, fmt.Errorf("written: %q has no tab between its intents and its message", line)
	}
	m := unmarked(marked)
	m.Intents = strings.Split(intents, ",")
	return m, nil
}

// unmarked takes the marks out of a message.
func unmarked(marked string) (m Message) {
	var text strings.Builder
	last := 0
	for _, at := range mark.FindAllStringSubmatchIndex(marked, -1) {
		text.WriteString(marked[last:at[0]])
		start := text.Len()
		text.WriteString(marked[at[2]:at[3]])
		m.Figures = append(m.Figures, Figure{Start: start, End: text.Len(), Role: marked[at[4]:at[5]]})
		last = at[1]
	}
	text.WriteString(marked[last:])
	m.Text = text.String()
	return m
}

// ReadFollowUp reads a line of three columns.
func ReadFollowUp(line string) (FollowUp, error) {
	columns := strings.Split(line, "\t")
	if len(columns) != 3 || strings.TrimSpace(columns[2]) == "" {
		return FollowUp{}, fmt.Errorf("written: %q has not three columns", line)
	}
	return FollowUp{columns[0], columns[1], unmarked(columns[2])}, nil
}

// Messages reads all files of a folder, *.txt, in the order of their names.
func Messages(folder string) ([]Message, error) { return folderOf(folder, Read) }

// FollowUps reads all files of a folder of follow-ups.
func FollowUps(folder string) ([]FollowUp, error) { return folderOf(folder, ReadFollowUp) }

func folderOf[T any](folder string, read func(line string) (T, error)) (all []T, err error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.txt"))
	if err != nil {
		return nil, err
	}
	for _, file := range files {
		raw, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		for _, line := range strings.Split(string(raw), "\n") {
			if line == "" {
				continue
			}
			one, err := read(line)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", file, err)
			}
			all = append(all, one)
		}
	}
	return all, nil
}

// Sentence is one labelled sentence of sentence/testdata, or a conversation, which has
// turns; see corpus_test.go there.
type Sentence struct {
	Say   string            `json:"say"`
	Want  []Reading         `json:"want"`
	Turns []json.RawMessage `json:"turns"`
}

// Reading is one that is right for a sentence.
type Reading struct {
	Request                       string
	Options                       map[string]string
	Ask, Explain, Decline, Silent bool
	Aid, Topic                    string
}

// Sentences reads the labelled sentences of a folder. Sets that are only measured,
// blind-*, are left out, and so are those that are named.
func Sentences(folder string, leaveOut ...string) (all []Sentence, err error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil {
		return nil, err
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		if strings.HasPrefix(name, "blind-") || slices.Contains(leaveOut, name) {
			continue
		}
		raw, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		var set []Sentence
		if err := json.Unmarshal(raw, &set); err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		all = append(all, set...)
	}
	return all, nil
}
