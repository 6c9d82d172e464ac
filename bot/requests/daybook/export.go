package daybookrequest

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"guildhand/bot/answer"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/words"
)

// mostExported is how many entries one export has.
const mostExported = 10_000

// exportedEntry is an entry in the JSON of an export. Its names are a promise.
type exportedEntry struct {
	Entry       int64                `json:"entry"`
	At          time.Time            `json:"at"`
	Maker       string               `json:"maker"`
	Typed       string               `json:"typed"`
	Request     string               `json:"request"`
	Line        string               `json:"line"`
	Outline     string               `json:"outline,omitempty"`
	Status      string               `json:"status"`
	Headline    string               `json:"headline,omitempty"`
	Figures     []exportedFigure     `json:"figures"`
	Problem     string               `json:"problem,omitempty"`
	Try         string               `json:"try,omitempty"`
	Version     string               `json:"version"`
	Corrections []exportedCorrection `json:"corrections,omitempty"`
}

type exportedFigure struct {
	ID    string      `json:"id"`
	Label string      `json:"label"`
	Value float64     `json:"value"`
	Unit  answer.Unit `json:"unit"`
	Text  string      `json:"text,omitempty"`
}

type exportedCorrection struct {
	At   time.Time `json:"at"`
	By   string    `json:"by"`
	Text string    `json:"text"`
}

func exported(e *daybook.Entry, corrected []daybook.Amendment) (exportedEntry, error) {
	x := exportedEntry{
		Entry: e.ID, At: e.At.UTC(), Maker: e.Maker, Typed: e.Typed, Request: e.Request, Line: e.Line, Outline: e.Outline,
		Status: string(e.Status), Headline: e.Headline, Figures: []exportedFigure{}, Problem: e.Problem, Try: e.Try, Version: e.Version,
	}
	figures, err := answer.RecordedFigures(e.Figures)
	for _, f := range figures {
		x.Figures = append(x.Figures, exportedFigure{f.ID, f.Label, f.Value, f.Unit, f.Text})
	}
	for _, a := range corrected {
		x.Corrections = append(x.Corrections, exportedCorrection{a.At.UTC(), a.By, a.Text})
	}
	return x, err
}

func exportEntries(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	f, line, err := b.chosen(bookExport)
	if err != nil {
		return nil, err
	}
	amendments, err := b.book.AmendmentsIn(ctx, b.room)
	if err != nil {
		return nil, err
	}
	of := map[int64][]daybook.Amendment{}
	for _, a := range amendments {
		of[a.EntryID] = append(of[a.EntryID], a)
	}
	var list []exportedEntry
	more := false
	err = b.walk(ctx, f, 200, func(e *daybook.Entry) bool {
		if more = len(list) == mostExported; more || err != nil {
			return false
		}
		var x exportedEntry
		x, err = exported(e, of[e.ID])
		list = append(list, x)
		return err == nil
	})
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Line: line, Alone: true, Headline: fmt.Sprintf("%s of this channel, as a file", words.Counted(len(list), "entry", "entries"))}
	if len(list) == 0 {
		a.Headline = "nothing in this channel's daybook matches, so there is no file"
		return b.days(a), nil
	}
	if !b.Args.Has("before") {
		// The file made again, after a restart, is the same file.
		a.Line = olderLine(line, list[0].Entry+1)
	}
	if more {
		a.Notes = append(a.Notes, fmt.Sprintf("a file has at most %d entries; for older ones ask: %s", mostExported, olderLine(line, list[len(list)-1].Entry)))
	}
	name := fmt.Sprintf("daybook-%d-to-%d", list[len(list)-1].Entry, list[0].Entry)
	slices.Reverse(list) // in the order of the class
	file := answer.Attachment{Name: name + ".csv", Type: "text/csv", Alt: "entries of the daybook as a spreadsheet"}
	data, err := entriesCSV(list)
	if b.Args.Word("format") == "json" {
		file = answer.Attachment{Name: name + ".json", Type: "application/json", Alt: "entries of the daybook as JSON"}
		data, err = indented(struct {
			Platform string          `json:"platform"`
			Guild    string          `json:"guild"`
			Channel  string          `json:"channel"`
			Entries  []exportedEntry `json:"entries"`
		}{b.room.Platform, b.room.Guild, b.room.Channel, list})
	}
	if err != nil {
		return nil, err
	}
	file.Render = func(context.Context) ([]byte, error) { return data, nil }
	a.Attachments = []answer.Attachment{file}
	return b.days(a), nil
}

func indented(v any) ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	err := encoder.Encode(v)
	return out.Bytes(), err
}

// entriesCSV writes one row an entry: what was asked, then a column for each
// figure, named by its id and unit.
func entriesCSV(list []exportedEntry) ([]byte, error) {
	type column struct {
		id   string
		unit answer.Unit
	}
	var columns []column
	for i := range list {
		for _, f := range list[i].Figures {
			if c := (column{f.ID, f.Unit}); !slices.Contains(columns, c) {
				columns = append(columns, c)
			}
		}
	}
	at := map[column]int{}
	header := []string{"entry", "at", "maker", "request", "line", "typed", "outline", "status", "headline", "problem", "corrections", "version"}
	for _, c := range columns {
		at[c] = len(header)
		header = append(header, safeCell(fmt.Sprintf("%s (%s)", c.id, c.unit)))
	}
	var out bytes.Buffer
	out.WriteString("\ufeff") // by it spreadsheets know UTF-8
	w := csv.NewWriter(&out)
	w.UseCRLF = true // RFC 4180, section 2
	if err := w.Write(header); err != nil {
		return nil, err
	}
	for i := range list {
		e := &list[i]
		var corrected []string
		for _, c := range e.Corrections {
			corrected = append(corrected, c.Text)
		}
		row := make([]string, len(header))
		row[0] = strconv.FormatInt(e.Entry, 10)
		row[1] = e.At.Format(time.RFC3339)
		for k, text := range []string{e.Maker, e.Request, e.Line, e.Typed, e.Outline, e.Status, e.Headline, e.Problem, strings.Join(corrected, " / "), e.Version} {
			row[2+k] = safeCell(text)
		}
		for _, f := range e.Figures {
			cell := strconv.FormatFloat(f.Value, 'f', -1, 64)
			if f.Text != "" {
				cell = safeCell(f.Text)
			}
			row[at[column{f.ID, f.Unit}]] = cell
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

// plainNumber is a number that no spreadsheet takes for a formula.
var plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

// safeCell makes a text that no spreadsheet runs as a formula, also where it
// parts the file at other marks than commas (semicolons, tabs, bars) and knows
// nothing of quotation marks: an apostrophe stands before what would begin one.
// It is one line. Numbers stay as they are. See CWE-1236.
func safeCell(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\ufffd"))
	if plainNumber.MatchString(text) {
		return text
	}
	var b strings.Builder
	start := true
	for _, r := range text {
		switch {
		case start && strings.ContainsRune("=+-@＝＋－＠−", r):
			b.WriteByte('\'')
			start = false
		case strings.ContainsRune(",;|", r):
			start = true
		case !unicode.IsSpace(r) && !unicode.Is(unicode.Cf, r) && r != '"':
			start = false
		}
		b.WriteRune(r)
	}
	return b.String()
}
