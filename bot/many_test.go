package bot_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"log/slog"
	random "math/rand/v2"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/daybook/daybooktest"
	"guildhand/bot/delivery"
	"guildhand/bot/requests"
	"guildhand/calc/stock"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The many-processes test: every event reaches two processes that share one
// PostgreSQL, one of which is killed again and again. Each runs the real
// service with the real requests; only the platform is made up. It takes an id
// with each message, made from the entry, and shows a message once however
// often it is sent, as the platforms do.
const (
	manyEvents = 5000
	manyHold   = 600 * time.Millisecond
	manyWork   = 6 // events in hand at once, of each process
)

// manyEnv makes the test binary one of those processes: the database's
// address, a tab, and the event to begin with.
const manyEnv = "GUILDHAND_TEST_MANY"

func TestMain(m *testing.M) {
	address, from, child := strings.Cut(os.Getenv(manyEnv), "\t")
	if !child {
		os.Exit(m.Run())
	}
	if err := answerMany(context.Background(), address, from); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// manyText is what is asked by an event; every fifth is refused.
func manyText(event int) string {
	if event%5 == 4 {
		return fmt.Sprintf("gauge 9%04d", event)
	}
	return fmt.Sprintf("weigh disc %.2f sterling 22ga", 10+float64(event)/100)
}

// answerMany is one process. It ends when every event is answered.
func answerMany(ctx context.Context, address, from string) error {
	first, err := strconv.Atoi(from)
	if err != nil {
		return err
	}
	book, err := daybook.OpenPostgres(ctx, address, daybook.WithHold(manyHold))
	if err != nil {
		return err
	}
	defer book.Close()
	room, err := sql.Open("pgx", address)
	if err != nil {
		return err
	}
	defer room.Close()
	room.SetMaxIdleConns(manyWork)
	service := bot.New(bot.Options{
		Specs: requests.All(book), Shop: stock.DemoWorkshop(), Book: book, Version: fmt.Sprint(os.Getpid()),
		Log:    slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelError})),
		Shared: true, Timeout: time.Minute,
	})
	lookEvery, _ := service.Shared()
	outbox := delivery.New(service, manySender{room, "later"}, delivery.Options{
		Platform: "test", FreshFor: time.Hour,
		Every: lookEvery, Log: slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelError})),
	})

	events := make(chan int)
	ctx, failed := context.WithCancelCause(ctx)
	defer failed(nil)
	var workers sync.WaitGroup
	for range manyWork {
		workers.Go(func() {
			for event := range events {
				if err := answerOne(ctx, outbox, event, manySender{room, "at once"}); err != nil {
					failed(err)
					return
				}
			}
		})
	}
	answered := make(chan struct{})
	go func() {
		defer close(answered)
		for i := range manyEvents {
			select {
			case events <- (first + i) % manyEvents:
			case <-ctx.Done():
				return
			}
		}
		close(events)
		workers.Wait()
	}()
	running, stop := context.WithCancel(ctx)
	defer stop()
	go func() { _ = outbox.Run(running) }()
	for {
		select {
		case <-ctx.Done():
			return context.Cause(ctx)
		case <-answered:
			all, err := book.Undelivered(ctx, "test", time.Time{})
			if err != nil || len(all) == 0 {
				return errors.Join(err, service.Close(ctx))
			}
		default:
		}
		time.Sleep(lookEvery)
	}
}

// answerOne is what an adapter does with an event.
func answerOne(ctx context.Context, outbox *delivery.Outbox, event int, to delivery.Sender) error {
	reply, err := outbox.Answer(ctx, bot.Request{
		Who:     catalogue.Who{Platform: "test", Guild: "g", Channel: fmt.Sprint("c", event%7), Maker: "m"},
		Message: fmt.Sprint("e", event), Text: manyText(event),
	}, to)
	if err == nil && reply.Entry == 0 {
		err = reply.Refusal
	}
	fmt.Println("answered", event)
	return err
}

// manySender is the platform: a table that counts how often each answer came.
type manySender struct {
	room *sql.DB
	how  string
}

func (s manySender) Send(ctx context.Context, reply bot.Reply) (delivery.Sent, error) {
	text := ""
	switch {
	case reply.Answer != nil:
		text = reply.Answer.Headline
	case reply.Refusal != nil:
		text = reply.Refusal.Problem
	}
	_, err := s.room.ExecContext(ctx, `INSERT INTO shown (nonce, message, text, how, sendings) VALUES ($1, $2, $3, $4, 1)
		ON CONFLICT (nonce) DO UPDATE SET sendings = shown.sendings + 1`, reply.Entry, reply.Message, text, s.how)
	return delivery.Sent{Message: fmt.Sprint("sent-", reply.Entry), Way: s.how}, err
}

// startMany starts a process.
func startMany(t *testing.T, address string, from int) daybooktest.Child {
	t.Helper()
	return daybooktest.StartChild(t, fmt.Sprintf("%s=%s\t%d", manyEnv, address, from))
}

func TestTwoProcessesAnswerEachEventOnce(t *testing.T) {
	address := daybooktest.NewSchema(t, "two processes on one PostgreSQL are not tested")
	book, err := daybook.OpenPostgres(t.Context(), address)
	require.NoError(t, err)
	defer book.Close()
	db, err := sql.Open("pgx", address)
	require.NoError(t, err)
	defer db.Close()
	_, err = db.ExecContext(t.Context(), `CREATE TABLE shown (nonce BIGINT PRIMARY KEY, message TEXT NOT NULL, text TEXT NOT NULL, how TEXT NOT NULL, sendings BIGINT NOT NULL)`)
	require.NoError(t, err)

	const seed = 5001
	dice := random.New(random.NewPCG(seed, 0))
	kills := daybooktest.KillUntilDone(t,
		func() daybooktest.Child { return startMany(t, address, 0) },
		func() daybooktest.Child { return startMany(t, address, dice.IntN(manyEvents)) },
		func() int { return 1 + dice.IntN(manyEvents/20) })

	count := func(query string) (n int) {
		t.Helper()
		require.NoError(t, db.QueryRowContext(t.Context(), query).Scan(&n))
		return n
	}
	for _, c := range []struct {
		what, query string
		want        int
	}{
		{"events recorded", `SELECT COUNT(DISTINCT message) FROM entries`, manyEvents},
		{"entries", `SELECT COUNT(*) FROM entries`, manyEvents},
		{"events with an answer in the room", `SELECT COUNT(DISTINCT message) FROM shown`, manyEvents},
		{"answers in the room", `SELECT COUNT(*) FROM shown`, manyEvents},
		{"answers as recorded", `SELECT COUNT(*) FROM shown s JOIN entries e ON e.id = s.nonce
			WHERE e.message = s.message AND s.text <> '' AND s.text = CASE e.status WHEN 'answered' THEN e.headline ELSE e.problem END`, manyEvents},
		{"refusals", `SELECT COUNT(*) FROM entries WHERE status = 'refused'`, manyEvents / 5},
		{"faults", `SELECT COUNT(*) FROM entries WHERE status = 'failed'`, 0},
		{"undelivered", `SELECT COUNT(*) FROM entries WHERE delivered_at IS NULL`, 0},
		{"claims left", `SELECT COUNT(*) FROM claims`, 0},
	} {
		assert.Equal(t, c.want, count(c.query))
	}
	// A second sending happens only where a process died between sending and
	// marking.
	again := count(`SELECT COALESCE(SUM(sendings - 1), 0) FROM shown`)
	if again > kills*manyWork {
		t.Errorf("%d sendings too many for %d kills", again, kills)
	}
	processes := count(`SELECT COUNT(DISTINCT version) FROM entries`)
	if kills < 5 || processes < 5 {
		t.Errorf("%d kills and %d processes that answered are too few to tell anything", kills, processes)
	}
	later := count(`SELECT COUNT(*) FROM shown WHERE how = 'later'`)
	if later+again == 0 { // what died before it marked its sending is sent once more
		t.Error("no answer of a dead process was taken over")
	}
	t.Logf("%d kills, %d processes answered, %d answers taken over, %d sent twice and shown once", kills, processes, later, again)
}
