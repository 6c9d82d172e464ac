//go:build unix

package requests

import (
	"context"
	"fmt"
	"os"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"testing"
	"text/tabwriter"
	"time"

	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// largeLines are requests whose working or pictures take long, beside the first
// example of each request.
var largeLines = []string{
	"collet heart 8x8 depth 4 sterling 22ga", "collet pear 9x6 depth 4 sterling 22ga units inch", "prongs marquise 10x5 depth 3.2 sterling 20ga units inch",
	"collar pear 9x6 depth 4 sterling 20ga block demo-pear", "match strip 28x6 20ga sterling", "match strip 60x12 20ga sterling", "match offcut 60x30 22ga sterling",
	"match tube tube-10x1", "match block demo-pear 0.8mm", "halo oval 8x6 with 1.3", "halo heart 9x9 with 1.2", "saddle oval 8x6 depth 4 sterling 22ga shank us 7",
	"kit 12 makers collet oval 8x6 depth 4 sterling 22ga ; 6 collet pear 9x6 depth 4 sterling 22ga",
	"kit 8 makers spare 25% sheet 100x200 collet emerald 8x6 depth 4.2 copper 0.8mm + dome 20 height 6 copper 24ga",
	"kit 10 makers each 2 half-sheet collet round 6 depth 3.7 brass 20ga ; 10 band us 7 width 4 1.2mm copper",
	"kit 12 makers tubeset round 4 sterling ; band us 7 wire 2mm sterling ; jumpring 18ga inside 5 count 20 sterling",
	"kit 24 makers collet oval 8x6 depth 4 sterling 22ga ; 12 collet pear 9x6 depth 4 sterling 22ga ; 12 prongs round 6 depth 3.7 sterling 20ga",
}

// TestTimes prints how long requests take that match GUILDHAND_TIMES, in milliseconds of both
// processors together (user and system), which other work on the machine changes
// little; the bar is 25 ms for an answer with its PNG, 20 ms for each further
// file and 60 kB for a PNG:
//
//	GUILDHAND_TIMES=. go test -tags goolm -count 1 -run 'TestTimes$' -v ./bot/requests
func TestTimes(t *testing.T) {
	wanted := os.Getenv("GUILDHAND_TIMES")
	if wanted == "" {
		t.Skip("GUILDHAND_TIMES is not set: no times are measured")
	}
	defer debug.SetGCPercent(debug.SetGCPercent(usualGC)) // as in the program
	these, err := regexp.Compile(wanted)
	require.NoError(t, err)
	const bar, further, bytes = 25, 20, mostPNGBytes / 1000
	specs, shop := All(nil), stock.DemoWorkshop()
	var lines []string
	for _, s := range specs {
		for _, e := range s.Examples {
			if a := requeststest.Answered(t, specs, shop, e.Line); a != nil && len(a.Attachments) > 0 {
				lines = append(lines, e.Line)
				break
			}
		}
	}
	var b strings.Builder
	table := tabwriter.NewWriter(&b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "answer\twith PNG\tkB\tPDF A4\tPDF Letter\tSVG\t line")
	for _, line := range slices.DeleteFunc(append(lines, largeLines...), func(line string) bool { return !these.MatchString(line) }) {
		answered := func() *answer.Answer {
			call, err := requeststest.CallOf(specs, shop, line)
			require.NoError(t, err, line)
			a, err := call.Answer(t.Context())
			require.NoError(t, err, line)
			return a
		}
		size := 0
		render := func(at answer.Attachment) {
			data, err := at.Render(context.Background())
			require.NoError(t, err, "%s: %s", line, at.Name)
			size = len(data)
		}
		picture := func() {
			a := answered()
			if i := slices.IndexFunc(a.Attachments, func(at answer.Attachment) bool { return at.Type == answer.PNG }); i >= 0 {
				render(a.Attachments[i])
			}
		}
		// slowest is the time of the slowest file of a kind, in milliseconds.
		slowest := func(a *answer.Answer, kind string) float64 {
			ms := 0.0
			for _, at := range a.Attachments {
				if at.Type == kind {
					ms = max(ms, processorMS(func() { render(at) }))
				}
			}
			return ms
		}
		cells := []string{within(processorMS(func() { answered() }), bar), within(processorMS(picture), bar), within(float64(size)/1000, bytes)}
		a := answered()
		cells = append(cells, within(slowest(a, answer.PDF), further))
		if call, err := requeststest.CallOf(specs, shop, line+" paper letter"); err == nil {
			letter, err := call.Answer(t.Context())
			require.NoError(t, err, line)
			cells = append(cells, within(slowest(letter, answer.PDF), further))
		} else {
			cells = append(cells, "-")
		}
		cells = append(cells, within(slowest(a, answer.SVG), further))
		fmt.Fprintln(table, strings.Join(cells, "\t")+"\t "+line)
	}
	require.NoError(t, table.Flush())
	t.Log("\n" + b.String())
}

// within words a figure, with a mark where it is over the bar.
func within(figure, bar float64) string {
	if figure > bar {
		return fmt.Sprintf("! %.1f", figure)
	}
	return fmt.Sprintf("%.1f", figure)
}

// processorMS is the mean time of a dozen runs, after three to warm up.
func processorMS(work func()) float64 {
	const runs = 12
	for range 3 {
		work()
	}
	before := processorTime()
	for range runs {
		work()
	}
	return (processorTime() - before).Seconds() * 1000 / runs
}

func processorTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
