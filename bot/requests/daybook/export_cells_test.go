package daybookrequest

import (
	"bytes"
	"encoding/csv"
	"io"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"guildhand/bot/answer"
)

// dangerous reports whether a spreadsheet may take a cell for a formula: the
// first sign that is seen is one of those that begin one. The list is that of
// OWASP, CSV Injection, with the wide forms of the same signs.
func dangerous(cell string) bool {
	cell = strings.TrimLeftFunc(strings.Trim(cell, `"`), func(r rune) bool {
		return unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) || r == '"'
	})
	if _, err := strconv.ParseFloat(cell, 64); err == nil && !strings.HasPrefix(cell, "+") {
		return false // a number
	}
	r, _ := utf8.DecodeRuneInString(cell)
	return cell != "" && strings.ContainsRune("=+-@\t\r＝＋－＠−", r)
}

func TestDangerousKnows(t *testing.T) {
	for _, cell := range []string{`=1+1`, `+1`, `-1+2`, "@SUM(A1)", " =1", "\t=1", "\u200b=1", `"=1`, "＝1", "-2+3+cmd|' /C calc'!A0"} {
		if !dangerous(cell) {
			t.Errorf("%q passes", cell)
		}
	}
	for _, cell := range []string{"", "-0.5", "12", "collet oval 8x6", "'=1", "a=b", "22ga"} {
		if dangerous(cell) {
			t.Errorf("%q does not pass", cell)
		}
	}
}

// rows reads a file as a spreadsheet might: parted at one mark, with or
// without regard to quotation marks.
func rows(t *testing.T, data []byte, mark rune, quotes bool) [][]string {
	t.Helper()
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !quotes {
		var all [][]string
		for line := range strings.Lines(string(data)) {
			all = append(all, strings.Split(strings.TrimRight(line, "\r\n"), string(mark)))
		}
		return all
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = mark, true, -1
	all, err := r.ReadAll()
	if err != nil && err != io.EOF {
		t.Fatal(err)
	}
	return all
}

// TestCSVHasNoFormulas fills every text with what begins a formula, in every
// place and with every mark before it, and reads the file in every way.
func TestCSVHasNoFormulas(t *testing.T) {
	pieces := []string{"=", "+", "-", "@", "\t", "\r", "\n", "\r\n", " ", ";", ",", "|", `"`, "'", "cmd", "1", "-1", "0.5", "A1", "(", ")", "!", "\u00a0", "\u200b",
		"＝", "＋", "\u2212", "\x00", "\xff", "\u2028", "HYPERLINK", "collet oval", "é", "💎", "\ufeff", "\v", "\u0085"}
	const seed = 41
	r := rand.New(rand.NewPCG(seed, 1))
	text := func() string {
		var b strings.Builder
		for range r.IntN(7) {
			b.WriteString(pieces[r.IntN(len(pieces))])
		}
		return b.String()
	}
	number := func() float64 { return (r.Float64() - 0.5) * []float64{1, 1e6, 1e-6}[r.IntN(3)] }
	cells := 0
	for round := range 3000 {
		var list []exportedEntry
		for i := range 1 + r.IntN(3) {
			e := exportedEntry{
				Entry: int64(i + 1), At: time.Unix(1e9, 0).UTC(), Maker: text(), Typed: text(), Request: text(), Line: text(),
				Outline: text(), Status: text(), Headline: text(), Problem: text(), Version: text(),
				Corrections: []exportedCorrection{{Text: text()}, {Text: text()}},
			}
			for range r.IntN(4) {
				f := exportedFigure{ID: "id" + strconv.Itoa(r.IntN(3)), Value: number(), Unit: answer.MM}
				if r.IntN(3) == 0 {
					f.Text = text()
				}
				if r.IntN(5) == 0 {
					f.ID = text()
				}
				e.Figures = append(e.Figures, f)
			}
			list = append(list, e)
		}
		data, err := entriesCSV(list)
		if err != nil {
			t.Fatal(err)
		}
		for _, mark := range ",;\t|" {
			for _, quotes := range []bool{true, false} {
				for _, row := range rows(t, data, mark, quotes) {
					for _, cell := range row {
						cells++
						if dangerous(cell) {
							t.Fatalf("seed %d, round %d: parted at %q (quotes %v), a cell is %q\n%q", seed, round, mark, quotes, cell, data)
						}
					}
				}
			}
		}
		// Read as what it is, it is a table of one row an entry.
		table := rows(t, data, ',', true)
		if len(table) != len(list)+1 {
			t.Fatalf("seed %d, round %d: %d rows of %d entries", seed, round, len(table), len(list))
		}
		for i, row := range table[1:] {
			if len(row) != len(table[0]) || row[0] != strconv.Itoa(i+1) {
				t.Fatalf("row %d is %q", i, row)
			}
		}
	}
	t.Logf("%d cells", cells)
	if cells < 100_000 {
		t.Error("too few to tell")
	}
}

// Numbers stay numbers, exactly.
func TestCSVKeepsNumbers(t *testing.T) {
	values := []float64{0, -0.25, 25.399999999999999, 1e-9, -1e-7, 123456789.125, 1.0 / 3, 2e21}
	e := exportedEntry{Entry: 7, At: time.Date(2026, 11, 23, 14, 5, 0, 0, time.UTC), Maker: "723456789012345678", Typed: "-5", Status: "answered"}
	for i, v := range values {
		e.Figures = append(e.Figures, exportedFigure{ID: "f" + strconv.Itoa(i), Value: v, Unit: answer.MM})
	}
	data, err := entriesCSV([]exportedEntry{e})
	if err != nil {
		t.Fatal(err)
	}
	table := rows(t, data, ',', true)
	head, row := table[0], table[1]
	const fixed = 12
	if head[0] != "entry" || row[0] != "7" || row[1] != "2026-11-23T14:05:00Z" || row[2] != "723456789012345678" || row[5] != "-5" || head[fixed] != "f0 (mm)" {
		t.Errorf("head %q, row %q", head, row)
	}
	for i, v := range values {
		got, err := strconv.ParseFloat(row[fixed+i], 64)
		if err != nil || got != v {
			t.Errorf("%v is written %q", v, row[fixed+i])
		}
	}
}

func TestSafeCell(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"collet oval 8x6", "collet oval 8x6"},
		{"=1+1", "'=1+1"},
		{"  @x", "  '@x"},
		{"-5", "-5"},
		{"-5+3", "'-5+3"},
		{"a;=b", "a;'=b"},
		{"a, -b", "a, '-b"},
		{"a - b = c", "a - b = c"},
		{"two\nlines\t=1", "two lines =1"},
		{"kit 12 makers collet; 6 band", "kit 12 makers collet; 6 band"},
	} {
		if got := safeCell(tt.in); got != tt.want {
			t.Errorf("%q becomes %q, want %q", tt.in, got, tt.want)
		}
	}
}
