package matrix

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"syscall"
	"testing"
	"time"

	"guildhand/adapters/conversationtest"
	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/calc/stock"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
)

// childConfig is the variable by which a test starts the bot in a process of its
// own, to be killed.
const childConfig = "GUILDHAND_TEST_BOT"

func TestMain(m *testing.M) {
	if text := os.Getenv(childConfig); text != "" {
		runChild(text)
		return
	}
	conversationtest.AtOnce(4) // the tests wait for the server most of the time
	debug.SetGCPercent(400)    // a small heap, collected all the time otherwise
	code := m.Run()
	stopShared()
	os.Exit(code)
}

// childOf is what a bot in a process of its own is told.
type childOf struct {
	Config Config
	Book   string
	// Soon makes notes on progress come early.
	Soon bool
}

func runChild(text string) {
	var c childOf
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		panic(err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGTERM)
	defer stop()
	log := slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	book, err := daybook.Open(ctx, c.Book)
	if err != nil {
		panic(err)
	}
	a, err := New(c.Config, newService(book, log, bot.Limits{}, append(requests.All(book), lingerRequest(), ponderRequest())...), log)
	if err != nil {
		panic(err)
	}
	if c.Soon {
		soon(a)
	}
	if err := a.Run(ctx); err != nil {
		panic(err)
	}
	_ = book.Close()
}

func newService(book *daybook.Book, log *slog.Logger, limits bot.Limits, specs ...catalogue.Spec) *bot.Service {
	return bot.New(bot.Options{Specs: specs, Shop: stock.DemoWorkshop(), Book: book, Log: log, Version: "test", Limits: limits, Timeout: patience})
}

// botConfig is the configuration of the tests' bot, named guildhand.
func botConfig(t *testing.T, h *homeserver) Config {
	return Config{
		Homeserver: h.proxy.url(), UserID: string(h.userID("guildhand")), Password: password,
		StorePath: filepath.Join(t.TempDir(), "matrix.db"), Encryption: encryptionBuilt,
		Allow:  Allow{Servers: []string{serverName}},
		Prefix: "!", DeviceName: "guildhand", TeacherPower: 50, FreshFor: 72 * time.Hour,
	}
}

// runningBot is a bot in this process.
type runningBot struct {
	t    *testing.T
	cfg  Config
	book string
	// more are requests beside startSpecs.
	more    []catalogue.Spec
	limits  bot.Limits
	adapter *Adapter
	stop    func()
}

// testLog writes what the bot logs into the test's log.
func testLog(t *testing.T) *slog.Logger {
	to := io.Discard
	if testing.Verbose() {
		to = t.Output()
	}
	return slog.New(slog.NewTextHandler(to, &slog.HandlerOptions{Level: slog.LevelInfo}))
}

// startBot starts the bot with the requests of the catalogue and those of the
// tests. It logs in by password.
func startBot(t *testing.T, cfg Config, change ...func(*Adapter)) *runningBot {
	t.Helper()
	b := &runningBot{t: t, cfg: cfg, book: filepath.Join(t.TempDir(), "daybook.db")}
	b.start(change...)
	t.Cleanup(func() { b.stop() })
	return b
}

// startSpecs are the requests of the catalogue and those of the tests.
func startSpecs(book *daybook.Book) []catalogue.Spec {
	return append(requests.All(book), whoRequest(), sayRequest(), draftRequest())
}

// start starts the bot, for the first time or again.
func (b *runningBot) start(change ...func(*Adapter)) {
	b.t.Helper()
	log := testLog(b.t)
	book, err := daybook.Open(context.Background(), b.book)
	if err != nil {
		b.t.Fatal(err)
	}
	a, err := New(b.cfg, newService(book, log, b.limits, append(startSpecs(book), b.more...)...), log)
	if err != nil {
		b.t.Fatal(err)
	}
	for _, c := range change {
		c(a)
	}
	b.adapter = a
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	stopped := false
	b.stop = func() {
		if stopped {
			return
		}
		stopped = true
		cancel()
		select {
		case err := <-ended:
			if err != nil {
				b.t.Errorf("the bot ended with: %v", err)
			}
		case <-time.After(60 * time.Second):
			b.t.Error("the bot does not end")
		}
		_ = book.Close()
	}
}

// waitListening waits until the session has its first position in the event
// stream: what is said before that is history to it.
func (b *runningBot) waitListening() {
	b.t.Helper()
	ctx := context.Background()
	require.EventuallyWithT(b.t, func(c *assert.CollectT) {
		// Read only: a store that two open at once for the first time is made twice.
		db, err := sql.Open("sqlite", "file:"+b.cfg.StorePath+"?mode=ro")
		require.NoError(c, err)
		defer db.Close()
		var position string
		assert.NoError(c, db.QueryRowContext(ctx, "SELECT next_batch FROM guildhand_account").Scan(&position))
		assert.NotEmpty(c, position)
	}, patience, 50*time.Millisecond, "the bot does not listen")
}

// expected computes the reply to a line as the bot would, without a room.
func expected(t *testing.T, service *bot.Service, who catalogue.Who, line string) bot.Reply {
	t.Helper()
	r, err := service.Handle(context.Background(), bot.Request{Who: who, Text: line})
	if err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	if r.Answer != nil && r.Answer.Fleeting {
		// The bot forgets it once it is sent.
		if err := service.Delivered(context.Background(), r.Entry, "sent"); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
	}
	return r
}

// childBot is the bot in a process of its own.
type childBot struct {
	t   *testing.T
	c   childOf
	cmd *exec.Cmd
	log string
}

func (b *childBot) start() {
	b.t.Helper()
	text, err := json.Marshal(b.c)
	if err != nil {
		b.t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		b.t.Fatal(err)
	}
	log, err := os.OpenFile(b.log, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		b.t.Fatal(err)
	}
	defer log.Close()
	b.cmd = exec.Command(self)
	b.cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%s", childConfig, text))
	b.cmd.Stderr = log
	if err := b.cmd.Start(); err != nil {
		b.t.Fatal(err)
	}
}

// kill ends the process as kill -9 does.
func (b *childBot) kill() {
	_ = b.cmd.Process.Kill()
	_ = b.cmd.Wait()
}

// botSession logs in to the bot's account from another client, as its owner may.
func botSession(t *testing.T, h *homeserver) *mautrix.Client {
	t.Helper()
	return session(t, h.url(), h.account("guildhand"))
}

// session logs in to an account with no more of a client than that.
func session(t *testing.T, url, account string) *mautrix.Client {
	t.Helper()
	cli, err := mautrix.NewClient(url, "", "")
	require.NoError(t, err)
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	_, err = cli.Login(ctx, &mautrix.ReqLogin{
		Type:       mautrix.AuthTypePassword,
		Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: account},
		Password:   password, StoreCredentials: true,
	})
	require.NoError(t, err)
	return cli
}
