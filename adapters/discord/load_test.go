package discord

import (
	"context"
	"fmt"
	"log/slog"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Five hundred requests at once, in a sample a hundred, from fifty channels: each is
// answered once, with its picture where it has one. The figures depend on the machine
// and on what else it does, so that the bounds are only held where they are asked for;
// no answer may be missing or double anywhere.
func TestManyAtOnce(t *testing.T) {
	if testing.Short() {
		t.Skip("skipped: long")
	}
	// Every channel asks for the ten pieces of its class, or everybody for
	// something else.
	t.Run("classes", func(t *testing.T) { manyAtOnce(t, func(i int) string { return loadLine(i / askingChannels) }) })
	t.Run("all different", func(t *testing.T) { manyAtOnce(t, loadLine) })
}

// askingChannels is how many channels ask at once.
const askingChannels = 50

func manyAtOnce(t *testing.T, line func(int) string) {
	const bound = time.Second
	many := testcount.Of(100, 500, 500)
	s := newStandIn(t)
	service, book := realService(t, requests.All, testShop())
	unhurried := defaultPace
	unhurried.window = s.window
	r := launch(t, s, service, s.config(), unhurried)
	r.wait("the connection", func() bool { return r.adapter.Ready() == nil })
	stopWatching := watchMemory()
	began, cpu := time.Now(), cpuTime()
	list := make([]*interactionState, many)
	for i := range list {
		p := slash("ask", arg{"line", line(i)})
		p.channel = fmt.Sprintf("6234567890123%05d", i%askingChannels)
		p.maker = fmt.Sprintf("7234567890123%05d", i)
		list[i] = s.send(p)
	}
	answered := func() int {
		s.mu.Lock()
		defer s.mu.Unlock()
		n := 0
		for _, e := range list {
			if e.original != nil && len(e.original.message.Embeds) > 0 {
				n++
			}
		}
		return n
	}
	require.Eventually(t, func() bool { return answered() == many }, 4*time.Minute, 5*time.Millisecond, "all answers")
	whole, used := time.Since(began), cpuTime()-cpu
	peak := stopWatching()
	require.Eventually(t, func() bool {
		left, err := book.Undelivered(t.Context(), Platform, time.Time{})
		return err == nil && len(left) == 0
	}, time.Minute, 5*time.Millisecond, "all marks")

	s.mu.Lock()
	messages := 0
	for _, c := range s.channels {
		messages += len(c)
	}
	var took []time.Duration
	pictures, deferrals := 0, 0
	for _, e := range list {
		if e.original.edits > 0 {
			deferrals++
		}
		pictures += len(e.original.files)
	}
	s.mu.Unlock()
	for _, e := range list {
		entry, err := book.ByKey(t.Context(), keyOf(e))
		require.NoError(t, err)
		took = append(took, entry.DeliveredAt.Sub(e.sentAt))
	}
	assert.Equal(t, many, messages)
	slices.Sort(took)
	p50, p99 := took[many/2], took[many*99/100]
	t.Logf("%d requests from %d channels in %s: p50 %s, p99 %s, max %s; %d pictures, %d announced first; peak heap %d MiB; %s of processor time, the stand-in's included; %d processors, %s",
		many, askingChannels, whole.Round(time.Millisecond), p50.Round(time.Millisecond), p99.Round(time.Millisecond), took[many-1].Round(time.Millisecond),
		pictures, deferrals, peak>>20, used.Round(time.Millisecond), runtime.GOMAXPROCS(0), loadAverage())
	if pictures < many/2 {
		t.Errorf("%d pictures only", pictures)
	}
	if testcount.Long() {
		if p99 >= bound {
			t.Errorf("p99 is %s, want under %s", p99, bound)
		}
		if peak >= 256<<20 {
			t.Errorf("peak is %d MiB, want under 256", peak>>20)
		}
	}
}

// Two hundred questions at once, from fifty channels and two hundred makers: by
// command and by mention in turn. None may be lost, none is private that was not
// asked to be, and 99 of 100 have their answer within a second, as the machine
// allows: the figure is reported, and a run on a quiet machine judges it.
func BenchmarkTwoHundredAtOnce(b *testing.B) {
	s := newStandIn(b)
	service, book := realService(b, requests.All, testShop())
	log := &lockedBuffer{}
	a, err := New(s.config(), Options{Service: service, Shop: testShop(), Transport: s.transport(), Log: slog.New(slog.NewTextHandler(log, nil)), pace: defaultPace})
	require.NoError(b, err)
	ctx, cancel := context.WithCancel(b.Context())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	require.Eventually(b, func() bool { return a.Ready() == nil }, time.Minute, time.Millisecond)
	for round := 0; b.Loop(); round++ {
		cpu := cpuTime()
		took := twoHundred(b, s, book, round)
		b.ReportMetric(float64((cpuTime() - cpu).Milliseconds()), "processor-ms")
		b.ReportMetric(float64(took[len(took)/2].Milliseconds()), "p50-ms")
		b.ReportMetric(float64(took[len(took)*99/100].Milliseconds()), "p99-ms")
		b.ReportMetric(float64(took[len(took)-1].Milliseconds()), "max-ms")
		if testcount.Long() {
			assert.Less(b, took[len(took)*99/100], time.Second)
		}
	}
	cancel()
	require.NoError(b, <-ended)
	require.NotContains(b, log.String(), "level=ERROR")
}

// twoHundred asks and waits for all answers, and gives how long each took, from
// the event to the mark in the daybook, shortest first.
func twoHundred(b *testing.B, s *standIn, book *daybook.Book, round int) []time.Duration {
	const many, rooms = 200, 50
	keys, asked := make([]daybook.Key, many), make([]time.Time, many)
	s.mu.Lock()
	s.channels = map[string][]*shown{}
	s.mu.Unlock()
	for i := range many {
		channel, maker := fmt.Sprintf("6234567890123%05d", i%rooms), fmt.Sprintf("72345678901%02d%05d", round%100, i)
		asked[i] = time.Now()
		message := ""
		if i%2 == 0 {
			p := slash("ask", arg{"line", loadLine(i)})
			p.channel, p.maker = channel, maker
			message = s.send(p).id
		} else {
			message = s.say(said{guild: theGuild, channel: channel, maker: maker, text: atBot + loadLine(i)})
		}
		keys[i] = daybook.Key{Platform: Platform, Channel: channel, Message: message}
	}
	require.Eventually(b, func() bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		shown := 0
		for _, list := range s.channels {
			for _, m := range list {
				if !m.loading && len(m.message.Embeds) > 0 {
					shown++
					if m.ephemeral { // the text is work, and this is asked often
						b.Errorf("made private: %s", m.text())
					}
				}
			}
		}
		return shown == many
	}, 4*time.Minute, 5*time.Millisecond, "all answers")
	require.Eventually(b, func() bool {
		left, err := book.Undelivered(b.Context(), Platform, time.Time{})
		return err == nil && len(left) == 0
	}, time.Minute, 5*time.Millisecond, "all marks")
	took := make([]time.Duration, many)
	for i, key := range keys {
		entry, err := book.ByKey(b.Context(), key)
		require.NoError(b, err)
		took[i] = entry.DeliveredAt.Sub(asked[i])
	}
	slices.Sort(took)
	return took
}

// loadLine gives a different request for each number, four of five with a
// picture.
func loadLine(i int) string {
	outlines := []string{"oval", "pear", "marquise", "round", "emerald", "cushion", "heart", "trillion"}
	part := float64(i) / 100
	switch i % 5 {
	case 3:
		return fmt.Sprintf("gauge %.2f mm", 0.3+part)
	case 4:
		return fmt.Sprintf("band us 7 width %.2f 1.5mm sterling", 3+part)
	}
	o := outlines[i%len(outlines)]
	size := fmt.Sprintf("%.2fx%.2f", 7+part, 5+part)
	switch o {
	case "trillion": // its sides are nearly equal
		size = fmt.Sprintf("%.2fx%.2f", 7+part, 6+part)
	case "round":
		size = fmt.Sprintf("%.2f", 5+part)
	}
	return fmt.Sprintf("collet %s %s depth %.2f sterling 22ga", o, size, 3.5+part/2)
}

// watchMemory samples memory in use until it is stopped, and gives the peak.
func watchMemory() func() uint64 {
	var peak uint64
	var wg sync.WaitGroup
	stop := make(chan struct{})
	wg.Go(func() {
		for {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			peak = max(peak, m.HeapInuse+m.StackInuse)
			select {
			case <-stop:
				return
			case <-time.After(50 * time.Millisecond):
			}
		}
	})
	return func() uint64 { close(stop); wg.Wait(); return peak }
}

func loadAverage() string {
	b, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return "load not known"
	}
	return "load " + strings.Fields(string(b))[0]
}
