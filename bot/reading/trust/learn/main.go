// Learn makes the weights of package trust from what became of readings, or records
// what becomes of marked messages that neither the reader nor its models have seen.
package main

import (
	"compress/gzip"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"log"
	"os"
	"slices"
	"strings"

	"guildhand/bot/reading/sentence"
	"guildhand/bot/reading/trust"
	"guildhand/bot/reading/written"
)

func main() {
	log.SetFlags(0)
	file := flag.String("outcomes", "", "the file of outcomes")
	weights := flag.String("weights", "", "the file of weights to write")
	messages := flag.String("record", "", "a folder of marked messages, to add to the outcomes")
	shown := flag.String("show", "", "a folder of marked messages, to print what becomes of each")
	followUps := flag.String("follow", "", "a folder of marked follow-ups, to print what becomes of each after a piece of -after, and to add it to the outcomes where they are named")
	after := flag.String("after", "bot/reading/written/messages", "a folder of marked messages")
	flag.Parse()
	if err := run(*shown, *followUps, *after, *messages, *file, *weights); err != nil {
		log.Fatal(err)
	}
}

func run(shown, followUps, after, messages, file, weights string) error {
	switch {
	case shown != "":
		return show(shown)
	case followUps != "":
		return showFollowUps(followUps, after, file)
	case messages != "":
		return record(messages, file)
	}
	outcomes, err := read(file)
	if err != nil {
		return err
	}
	w, err := trust.Fit(outcomes)
	if err != nil {
		return err
	}
	data, err := json.MarshalIndent(w, "", "\t")
	if err != nil {
		return err
	}
	log.Printf("%d outcomes, %d signs", len(outcomes), len(w))
	return os.WriteFile(weights, append(data, '\n'), 0o644)
}

func read(path string) (all []trust.Outcome, err error) {
	f, err := os.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	} else if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }()
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, err
	}
	for d := json.NewDecoder(z); ; {
		var o trust.Outcome
		switch err := d.Decode(&o); {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
		all = append(all, o)
	}
}

// record adds what becomes of messages to the outcomes in a file.
func record(folder, path string) error {
	messages, err := written.Messages(folder)
	if err != nil {
		return err
	}
	var outcomes []trust.Outcome
	right := 0
	for _, m := range messages {
		r, signs, isPiece := sentence.Signs(m.Text, sentence.Context{Addressed: true})
		if !isPiece {
			continue
		}
		o := trust.Outcome{Right: slices.Contains(m.Intents, r.Request) && placed(m, r), Signs: signs}
		if o.Right {
			right++
		}
		outcomes = append(outcomes, o)
	}
	log.Printf("%d messages, %d pieces, %d of them right", len(messages), len(outcomes), right)
	return trust.Append(path, outcomes)
}

// alike are options that hold the same figure under other names in the marks, and
// anywhere those that a piece may do without, because the answer says so.
var alike = map[string][]string{
	"shank-width": {"shankwide"}, "ring": {"bangle"}, "bangle": {"ring"}, "size": {"thickness", "collet", "disc"}, "wire": {"thickness"}, "strip": {"offcut"}, "offcut": {"strip"},
	"tube": {"tubesize"}, "tubesize": {"tube"}, "block": {"included"}, "wax": {"model"},
}

// spare are roles of figures that a piece may do without: its answer says that they
// are left out.
var spare = []string{"press", "button", "sprue", "paper", "spare"}

// placed reports whether every figure of a message is where its mark says.
func placed(m written.Message, r sentence.Reading) bool {
	for _, f := range m.Figures {
		typed := m.Text[f.Start:f.End]
		switch f.Role {
		case written.Retracted, written.Idle, written.Result:
			if strings.ContainsAny(typed, "0123456789") && isAnywhere(typed, r) && !markedElse(m, f) {
				return false
			}
		case written.Asked:
		default:
			if !slices.Contains(spare, f.Role) && !isAt(f.Role, typed, r) {
				return false
			}
		}
	}
	return true
}

func isAt(role, typed string, r sentence.Reading) bool {
	for _, option := range append([]string{role, "pieces"}, alike[role]...) {
		v, ok := r.Options[option]
		if ok && (sentence.HasFigure(v, typed) || strings.HasSuffix(strings.ToLower(v), strings.ToLower(strings.TrimSpace(typed)))) {
			return true
		}
	}
	return false
}

func isAnywhere(typed string, r sentence.Reading) bool {
	for _, v := range r.Options {
		if sentence.HasFigure(v, typed) {
			return true
		}
	}
	return false
}

// markedElse reports whether the same figure stands elsewhere in a message with a role
// of its own.
func markedElse(m written.Message, f written.Figure) bool {
	return slices.ContainsFunc(m.Figures, func(g written.Figure) bool {
		return g.Start != f.Start && m.Text[g.Start:g.End] == m.Text[f.Start:f.End] && g.Role != f.Role
	})
}
