package terminal

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stand is a service whose answers the tests choose.
type stand struct {
	reply     bot.Reply
	err       error
	asked     []bot.Request
	delivered []int64
	words     []bot.Completion
	forgetful bool
}

func (s *stand) Handle(_ context.Context, r bot.Request) (bot.Reply, error) {
	s.asked = append(s.asked, r)
	return s.reply, s.err
}

func (s *stand) Delivered(_ context.Context, entry int64, _ string) error {
	if s.forgetful {
		return errors.New("disk full")
	}
	s.delivered = append(s.delivered, entry)
	return nil
}

func (s *stand) Recorded(_ context.Context, entry int64) (bot.Reply, error) {
	if entry != s.reply.Entry {
		return bot.Reply{}, errors.New("not found")
	}
	return s.reply, nil
}

func (s *stand) Stop(context.Context, catalogue.Who, string) int { return 0 }

func (s *stand) Specs() []catalogue.Spec { return []catalogue.Spec{{Name: "collet"}} }

func (s *stand) Complete(context.Context, string, int) []bot.Completion { return s.words }

func file(name, content string) answer.Attachment {
	return answer.Attachment{Name: name, Type: "image/png", Alt: "a blank",
		Render: func(context.Context) ([]byte, error) { return []byte(content), nil }}
}

func broken(name string) answer.Attachment {
	return answer.Attachment{Name: name, Render: func(context.Context) ([]byte, error) {
		return nil, errors.New("no ink")
	}}
}

func collet() *answer.Answer {
	return &answer.Answer{
		Request: "collet", Line: "collet oval 8x6", Headline: "cut 21.5 x 6.1 mm of 0.64 mm sterling silver",
		Figures: []answer.Figure{
			{ID: "rim_length", Label: "rim length", Value: 22.10345678901234, Unit: answer.MM, Main: true},
			{ID: "slant", Label: "slant", Value: 5.8, Unit: answer.MM, Main: true},
			{ID: "blank_area", Label: "area", Value: 120, Unit: answer.MM2},
		},
		Notes:       []string{"thin for a collet from sheet"},
		Assumptions: []string{"lean 8.5° (from memory)", "clearance 0.05 mm (default)"},
		Steps:       []string{"draw it", "saw it"},
		Cautions:    []string{"goggles at the torch"},
		Attachments: []answer.Attachment{file("collet-oval-8x6.png", "PNG"), file("collet-oval-8x6.pdf", "PDF")},
	}
}

func converse(t *testing.T, service *stand, room Room, typed string) string {
	t.Helper()
	var out bytes.Buffer
	room.Service, room.In, room.Out = service, strings.NewReader(typed), &out
	room.Log = slog.New(slog.DiscardHandler)
	require.NoError(t, room.Run(t.Context()))
	return out.String()
}

func wantLines(t *testing.T, got string, want ...string) {
	t.Helper()
	for _, line := range want {
		assert.Contains(t, got, line)
	}
}

func TestRoomAnswersShowsAndSaves(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "templates")
	service := &stand{reply: bot.Reply{Entry: 12, Answer: collet()}}
	out := converse(t, service, Room{Folder: folder}, "collet oval 8x6\nworking\n")
	wantLines(t, out, "try: collet", "cut 21.5 x 6.1 mm", "  rim length  22.10 mm", "  slant       5.80 mm",
		"note: thin", "assumed: lean 8.5°", "take care: goggles",
		"saved: "+filepath.Join(folder, "12-collet-oval-8x6.png"), "       12-collet-oval-8x6.pdf",
		"more: working, save DIR", " 1. draw it\n 2. saw it")
	if first, working, _ := strings.Cut(out, " 1. draw it"); strings.Contains(first, "area") || !strings.Contains(working, "area: 120.0 mm²") {
		t.Errorf("a figure that is not a main one belongs to the working:\n%s", out)
	}
	got, err := os.ReadFile(filepath.Join(folder, "12-collet-oval-8x6.pdf"))
	if err != nil || string(got) != "PDF" {
		t.Errorf("the saved PDF: %q, %v", got, err)
	}
	if len(service.delivered) != 1 || service.delivered[0] != 12 {
		t.Errorf("delivered: %v", service.delivered)
	}
}

// Every line is a message of its own, so that a question asked twice is
// answered twice.
func TestRoomGivesEveryLineItsOwnID(t *testing.T) {
	service := &stand{reply: bot.Reply{Entry: 1, Refusal: answer.Refuse("collet oval 8x6", "no")}}
	converse(t, service, Room{}, "a\na\n")
	converse(t, service, Room{}, "a")
	seen := map[string]bool{}
	for _, request := range service.asked {
		if request.Message == "" || seen[request.Message] {
			t.Errorf("message id %q is empty or used twice", request.Message)
		}
		seen[request.Message] = true
	}
	assert.Len(t, seen, 3)
}

func TestRoomWords(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "mine")
	answered := bot.Reply{Entry: 3, Answer: collet()}
	for _, test := range []struct {
		name, typed string
		reply       bot.Reply
		want        string
		asked       int
	}{
		{"nothing to work from", "working\n", answered, "ask something first", 0},
		{"nothing to save", "save x\n", answered, "no template to save yet", 0},
		{"save where", "collet\nsave\n", answered, "save needs a folder, for example: save templates", 1},
		{"save", "collet\nSAVE \"" + folder + "\"\n", answered, "saved: " + filepath.Join(folder, "collet-oval-8x6.png"), 1},
		{"save nowhere", "collet\nsave /proc/nowhere\n", answered, "can't save in /proc/nowhere", 1},
		{"reply to what", "re 12\n", answered, "re needs the number of an entry and a question about it", 0},
		{"reply to nothing", "re 12 and in 20 gauge?\n", answered, "there is no entry 12 in the daybook", 0},
		{"reply", "re 3: and in 20 gauge?\n", answered, "cut 21.5", 1},
		{"quit", "quit\ncollet\n", answered, "", 0},
		{"refusal", "colet\n", bot.Reply{Entry: 4, Refusal: answer.Refuse("collet oval 8x6", "no request is called colet")}, "no request is called colet\ntry: collet oval 8x6\n", 1},
		{"blank lines", "\n  \n\t\n", answered, "", 0},
		{"last line without an end", "collet", answered, "cut 21.5", 1},
		{"an endless line", strings.Repeat("x", 3*maxLine) + "\ncollet\n", answered, "Type one request a", 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			service := &stand{reply: test.reply}
			out := converse(t, service, Room{}, test.typed)
			wantLines(t, out, test.want)
			if len(service.asked) != test.asked {
				t.Errorf("asked %d times, want %d", len(service.asked), test.asked)
			}
		})
	}
}

func TestRoomSaysThatItCantRecord(t *testing.T) {
	var log bytes.Buffer
	var out bytes.Buffer
	room := Room{Service: &stand{err: errors.New("disk full")}, In: strings.NewReader("collet oval 8x6\n"),
		Out: &out, Log: slog.New(slog.NewTextHandler(&log, nil))}
	require.NoError(t, room.Run(t.Context()))
	wantLines(t, out.String(), bot.CantRecord)
	if strings.Contains(out.String(), "disk full") || strings.Contains(log.String(), "oval") {
		t.Errorf("cause shown or request logged:\n%s\n%s", out.String(), log.String())
	}
}

func TestRoomWhenTheTemplateCantBeSaved(t *testing.T) {
	out := converse(t, &stand{reply: bot.Reply{Entry: 5, Answer: collet()}}, Room{Folder: "/proc/nowhere"}, "collet\n")
	wantLines(t, out, "cut 21.5", "the template can't be saved in /proc/nowhere", "type: save DIR")
}

// A room whose maker types nothing ends when its context does.
func TestRoomEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	in, typing := io.Pipe()
	defer typing.Close()
	ended := make(chan error, 1)
	room := Room{Service: &stand{}, In: in, Out: io.Discard, Log: slog.New(slog.DiscardHandler)}
	go func() { ended <- room.Run(ctx) }()
	cancel()
	select {
	case err := <-ended:
		assert.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("still open")
	}
}

// busy is a service with long work, saga, which goes on until it is let go or
// stopped.
type busy struct {
	stand
	letGo, stopped chan struct{}
}

func newBusy() *busy { return &busy{letGo: make(chan struct{}), stopped: make(chan struct{})} }

func (b *busy) Handle(ctx context.Context, r bot.Request) (bot.Reply, error) {
	if strings.HasPrefix(r.Text, "saga") {
		r.OnLong()
		select {
		case <-b.letGo:
		case <-b.stopped:
			return bot.Reply{Entry: 1, Refusal: answer.Refuse("saga", "stopped")}, nil
		}
	}
	b.asked = append(b.asked, r) // one after the other
	return bot.Reply{Entry: 2, Answer: &answer.Answer{Headline: "answer to " + r.Text}}, nil
}

func (b *busy) Stop(_ context.Context, _ catalogue.Who, message string) int {
	if !strings.HasSuffix(message, "-1") {
		return 0
	}
	close(b.stopped)
	return 1
}

func (b *busy) Specs() []catalogue.Spec {
	return []catalogue.Spec{{Name: "collet"}, {Name: "saga", Long: true}}
}

// inOrder fails the test unless the words stand in the text in their order.
func inOrder(t *testing.T, text string, words ...string) {
	t.Helper()
	rest := text
	for _, word := range words {
		_, after, found := strings.Cut(rest, word)
		if !found {
			t.Fatalf("%q is missing or too early:\n%s", word, text)
		}
		rest = after
	}
}

func TestRoomReadsOnWhileItWorks(t *testing.T) {
	many := ""
	var answers []string
	for i := range 3 * mostAhead {
		many += fmt.Sprintf("collet %d\n", i)
		answers = append(answers, fmt.Sprintf("answer to collet %d\n", i))
	}
	for _, test := range []struct {
		name, typed string
		want        []string
		stops       bool
	}{
		{"stopped", "saga\n STOP \ncollet a\n", []string{"stopped\ntry: saga\n", "answer to collet a\n"}, true},
		{"stopped past what waits", "saga\ncollet a\nstop", []string{"stopped\n", "answer to collet a\n"}, true},
		{"not stopped by another word", "saga\nstop it\n", []string{"answer to saga\n", "answer to stop it\n"}, false},
		{"quit waits its turn", "saga\nquit\ncollet a\n", []string{"answer to saga\n"}, false},
		{"the end of input is no stop", "saga\ncollet a", []string{"answer to saga\n", "answer to collet a\n"}, false},
		{"a long line", "saga\n" + strings.Repeat("x", 3*maxLine) + "\ncollet a\n",
			[]string{"answer to saga\n", "I left that line out", "answer to collet a\n"}, false},
		{"more than is read ahead", "saga\n" + many, append([]string{"answer to saga\n"}, answers...), false},
	} {
		t.Run(test.name, func(t *testing.T) {
			service := newBusy()
			if !test.stops {
				time.AfterFunc(50*time.Millisecond, func() { close(service.letGo) })
			}
			var out bytes.Buffer
			room := Room{Service: service, In: strings.NewReader(test.typed), Out: &out, Log: slog.New(slog.DiscardHandler)}
			require.NoError(t, room.Run(t.Context()))
			inOrder(t, out.String(), test.want...)
			want := len(test.want)
			if test.stops || strings.Contains(test.typed, "xxx") {
				want--
			}
			assert.Len(t, service.asked, want)
		})
	}
}

// Long work ends with the room's context.
func TestLongWorkEndsWithTheRoom(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	in, typing := io.Pipe()
	defer typing.Close()
	service := newBusy()
	var out bytes.Buffer
	ended := make(chan error, 1)
	room := Room{Service: service, In: in, Out: &out, Log: slog.New(slog.DiscardHandler)}
	go func() { ended <- room.Run(ctx) }()
	if _, err := io.WriteString(typing, "saga\ncollet a\n"); err != nil {
		t.Fatal(err)
	}
	cancel()
	select {
	case err := <-ended:
		assert.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("still open")
	}
	assert.NotContains(t, out.String(), "answer to")
}

// What is shown while a line is being typed does not stand behind the prompt.
func TestScreen(t *testing.T) {
	var out strings.Builder
	s := &screen{w: &out}
	for _, step := range []struct{ prompt, text, want string }{
		{"", "a\n", "a\n"},
		{"> ", "b\n", "\rb\n> "},
		{"", "c\n", "c\n"},
	} {
		out.Reset()
		s.prompting(step.prompt)
		if n, err := s.Write([]byte(step.text)); n != len(step.text) || err != nil || out.String() != step.want {
			t.Errorf("%+v: %d, %v, %q", step, n, err, out.String())
		}
	}
}

// What a maker typed, or pasted, can't reach the screen as a command to it.
func TestNothingOfTheInputSteersTheScreen(t *testing.T) {
	evil := "colet \x1b[2J\x1b]0;mine\x07 \u202Eabc \xff\xfe \x9b31m \u0085 \r\x00 ok"
	a := collet()
	a.Headline, a.Notes, a.Steps = evil, []string{evil}, []string{evil}
	for _, text := range []string{
		plainPage.answer(a), plainPage.working(a), plainPage.refusal(answer.Refuse(evil, "%s", evil)),
		converse(t, &stand{reply: bot.Reply{Refusal: answer.Refuse(evil, "%s", evil)}}, Room{}, evil+"\n"),
		converse(t, &stand{reply: bot.Reply{Answer: a}}, Room{Folder: "/proc/\x1b[2J"}, "x\nsave /proc/\x1b[2J\n"),
	} {
		if !utf8.ValidString(text) {
			t.Errorf("broken UTF-8: %q", text)
		}
		for _, r := range text {
			if r != '\n' && (r < ' ' || 0x7f <= r && r < 0xa0 || r == '\u202E') {
				t.Errorf("%U reaches the screen: %q", r, text)
				break
			}
		}
		assert.Regexp(t, "ok|/proc/", text, "the harmless part is gone")
	}
}

func TestLinesAreWrapped(t *testing.T) {
	a := collet()
	a.Notes = []string{strings.Repeat("a long sentence of many words that goes on ", 6)}
	a.Figures[0].Label = "rim, along the edge of the finished setting"
	for _, columns := range []int{fewestColumns, 39, plainPage.columns, 119} {
		text := page{columns}.answer(a) + page{columns}.working(a)
		for line := range strings.SplitSeq(text, "\n") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), columns, "%q", line)
		}
		assert.Contains(t, strings.Join(strings.Fields(text), " "), a.Figures[0].Label+" 22.1", "no word is broken or lost")
	}
	assert.Equal(t, plainPage, pageOf(&bytes.Buffer{}))
	try := strings.Repeat("collet oval 8x6 ", 10)
	wantLines(t, plainPage.refusal(answer.Refuse(try, "no")), "try: "+try)
}

func TestAskJSON(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b")
	var out bytes.Buffer
	service := &stand{reply: bot.Reply{Entry: 9, Answer: collet()}}
	answered, err := Ask{Line: "collet oval 8x6", JSON: true, Out: dir}.Run(t.Context(), service, &out)
	if err != nil || !answered {
		t.Fatal(answered, err)
	}
	var got struct {
		Status, Request, Headline string
		Figures                   []struct {
			ID, Label, Unit string
			Value           float64
		}
		Notes, Assumptions, Steps, Cautions []string
		Attachments                         []struct{ Name, Type, Path, Alt string }
	}
	decoder := json.NewDecoder(&out)
	require.NoError(t, decoder.Decode(&got))
	if decoder.More() {
		t.Error("more than one object")
	}
	if got.Status != "answered" || got.Request != "collet" || len(got.Figures) != 3 || len(got.Notes) != 1 || len(got.Steps) != 2 {
		t.Errorf("got %+v", got)
	}
	if f := got.Figures[0]; f.ID != "rim_length" || f.Value != 22.10345678901234 || f.Unit != "mm" {
		t.Errorf("the figure lost something: %+v", f)
	}
	if content, err := os.ReadFile(got.Attachments[1].Path); err != nil || string(content) != "PDF" || got.Attachments[1].Name != "collet-oval-8x6.pdf" {
		t.Errorf("attachment: %+v, %q, %v", got.Attachments[1], content, err)
	}
	assert.Len(t, service.delivered, 1)
}

func TestAskJSONHasNoNull(t *testing.T) {
	for _, reply := range []bot.Reply{
		{Answer: &answer.Answer{Request: "gauge"}},
		{Refusal: answer.Refuse("", "no")},
	} {
		var out bytes.Buffer
		if _, err := (Ask{Line: "x", JSON: true}).Run(t.Context(), &stand{reply: reply}, &out); err != nil {
			t.Fatal(err)
		}
		assert.NotContains(t, out.String(), "null")
	}
}

func TestAskRefusedJSON(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "none")
	var out bytes.Buffer
	service := &stand{reply: bot.Reply{Entry: 2, Refusal: answer.Refuse("collet oval 8x6", "the <size> is missing")}}
	answered, err := Ask{Line: "Collet oval", JSON: true, Out: dir}.Run(t.Context(), service, &out)
	if err != nil || answered {
		t.Fatal(answered, err)
	}
	wantLines(t, out.String(), `"status": "refused"`, `"request": "collet"`, `"problem": "the <size> is missing"`, `"try": "collet oval 8x6"`)
	if _, err := os.Stat(dir); err == nil {
		t.Error("a refusal made the folder")
	}
}

func TestAskText(t *testing.T) {
	var out bytes.Buffer
	if _, err := (Ask{Line: "collet"}).Run(t.Context(), &stand{reply: bot.Reply{Answer: collet()}}, &out); err != nil {
		t.Fatal(err)
	}
	wantLines(t, out.String(), "cut 21.5", "working: add --steps; template to print: add --out DIR")
	out.Reset()
	if _, err := (Ask{Line: "collet", Steps: true}).Run(t.Context(), &stand{reply: bot.Reply{Answer: collet()}}, &out); err != nil {
		t.Fatal(err)
	}
	wantLines(t, out.String(), "working:\n 1. draw it")
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("closed pipe") }

func TestAskFailures(t *testing.T) {
	t.Run("nothing recorded", func(t *testing.T) {
		var out bytes.Buffer
		_, err := Ask{Line: "x"}.Run(t.Context(), &stand{err: errors.New("disk full")}, &out)
		if err == nil || !strings.Contains(err.Error(), bot.CantRecord) || out.Len() > 0 {
			t.Errorf("got %v, %q", err, out.String())
		}
	})
	t.Run("not shown is not delivered", func(t *testing.T) {
		service := &stand{reply: bot.Reply{Answer: collet()}}
		if _, err := (Ask{Line: "x"}).Run(t.Context(), service, full{}); err == nil || len(service.delivered) != 0 {
			t.Errorf("got %v, delivered %v", err, service.delivered)
		}
	})
	for name, files := range map[string][]answer.Attachment{
		"a file can't be drawn":    {file("a.png", "PNG"), broken("b.pdf")},
		"a name leaves the folder": {file("a.png", "PNG"), file("../b.pdf", "PDF")},
		"a name is in the way":     {file("a.png", "PNG"), file("taken", "PDF")},
	} {
		t.Run(name, func(t *testing.T) {
			root := t.TempDir()
			dir := filepath.Join(root, "new", "out")
			if name == "a name is in the way" {
				dir = filepath.Join(root, "out")
				require.NoError(t, os.MkdirAll(filepath.Join(dir, "taken", "x"), 0o700))
			}
			a := collet()
			a.Attachments = files
			var out bytes.Buffer
			service := &stand{reply: bot.Reply{Entry: 8, Answer: a}}
			_, err := Ask{Line: "x", Out: dir}.Run(t.Context(), service, &out)
			if err == nil || !strings.Contains(err.Error(), "entry 8") || out.Len() > 0 || len(service.delivered) > 0 {
				t.Errorf("got %v, %q, delivered %v", err, out.String(), service.delivered)
			}
			left := 0
			_ = filepath.WalkDir(root, func(path string, d os.DirEntry, _ error) error {
				if !d.IsDir() || strings.Contains(path, "new") {
					left++
					t.Errorf("left behind: %s", path)
				}
				return nil
			})
		})
	}
}

// An answer that is on the screen stays one, also where it can't be marked.
func TestShownButNotMarked(t *testing.T) {
	var out, log bytes.Buffer
	service := &stand{reply: bot.Reply{Entry: 7, Answer: collet()}, forgetful: true}
	answered, err := Ask{Line: "x", Log: slog.New(slog.NewTextHandler(&log, nil))}.Run(t.Context(), service, &out)
	if !answered || err != nil || !strings.Contains(log.String(), "entry=7") {
		t.Errorf("got %v, %v, log %q", answered, err, log.String())
	}
}

func TestProgressIsBounded(t *testing.T) {
	var out bytes.Buffer
	report := progress(&out, "; stop ends it")
	for i := range 1000 {
		report(i, 1000, "nesting\x1b[2J")
	}
	if out.Len() > 0 {
		t.Errorf("quick work reports: %q", out.String())
	}
	time.Sleep(progressEvery)
	report(7, 12, "nesting\x1b[2J")
	report(8, 12, "nesting")
	if got := out.String(); got != "  7 of 12: nesting\uFFFD[2J; stop ends it\n" {
		t.Errorf("got %q", got)
	}
}

func TestComplete(t *testing.T) {
	service := &stand{words: []bot.Completion{{Text: "oval"}, {Text: "octagon"}}}
	head, words, tail := complete(t.Context(), service, "collet ö o 8x6", 10)
	if head != "collet ö " || strings.Join(words, "|") != "oval |octagon " || tail != " 8x6" {
		t.Errorf("got %q, %q, %q", head, words, tail)
	}
	for _, pos := range []int{-1, 0, 99} {
		complete(t.Context(), service, "é", pos)
	}
}
