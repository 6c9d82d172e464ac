package matrix

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// TestInboxKeepsOnlyWhatIsDone: a position is kept when its batch and all before
// it are done, whatever the order in which they end.
func TestInboxKeepsOnlyWhatIsDone(t *testing.T) { synctest.Test(t, testInboxKeepsOnlyWhatIsDone) }

func testInboxKeepsOnlyWhatIsDone(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var mu sync.Mutex
	var kept []string
	var order []id.EventID
	gates := map[id.EventID]chan struct{}{"$slow": make(chan struct{}), "$a1": nil, "$a2": nil, "$b1": nil}
	var in *inbox
	in = newInbox(ctx, ctx, func(_ context.Context, j *job) {
		if gate := gates[j.evt.ID]; gate != nil {
			<-gate
		}
		mu.Lock()
		order = append(order, j.evt.ID)
		mu.Unlock()
		in.release(j.batch)
	}, func(_ context.Context, token string) error {
		mu.Lock()
		defer mu.Unlock()
		kept = append(kept, token)
		return nil
	}, slog.New(slog.DiscardHandler))
	put := func(token string, events ...string) {
		b := in.begin(token, true)
		for _, e := range events {
			in.add(b, &event.Event{ID: id.EventID("$" + e), RoomID: id.RoomID("!" + e[:1])})
		}
		in.seal(b)
	}
	put("one", "slow")
	put("two", "a1", "b1")
	put("three", "a2")
	put("four")
	synctest.Wait()
	assert.Len(t, order, 3, "other rooms wait for a slow one")
	assert.Empty(t, kept, "kept before the first batch was done")
	assert.Less(t, slices.Index(order, "$a1"), slices.Index(order, "$a2"), "a room's events out of order")
	close(gates["$slow"])
	synctest.Wait()
	cancel()
	in.wait()
	require.NotEmpty(t, kept)
	assert.Equal(t, "four", kept[len(kept)-1])
}

// TestJudge: what is tried again, and for how long the server asks to wait.
func TestJudge(t *testing.T) {
	answered := func(status int, code string, extra map[string]any, header ...string) error {
		resp := &http.Response{StatusCode: status, Header: http.Header{}}
		if len(header) > 0 {
			resp.Header.Set("Retry-After", header[0])
		}
		he := mautrix.HTTPError{Response: resp}
		if code != "" {
			he.RespError = &mautrix.RespError{ErrCode: code, StatusCode: status, ExtraData: extra}
		}
		return fmt.Errorf("sending: %w", he)
	}
	for _, tc := range []struct {
		name string
		err  error
		want verdict
		wait time.Duration
	}{
		{"nothing", nil, fine, 0},
		{"no connection", mautrix.HTTPError{WrappedError: errors.New("connection refused")}, unreachable, 0},
		{"a proxy's page", answered(502, "", nil), unreachable, 0},
		{"a proxy's limit", answered(413, "", nil), refused, 0},
		{"server fault", answered(500, "M_UNKNOWN", nil), unreachable, 0},
		{"limit in the body", answered(429, "M_LIMIT_EXCEEDED", map[string]any{"retry_after_ms": 1500.0}), unreachable, 1500 * time.Millisecond},
		{"limit in the header", answered(429, "M_LIMIT_EXCEEDED", nil, "7"), unreachable, 7 * time.Second},
		{"limit without a time", answered(429, "M_LIMIT_EXCEEDED", nil), unreachable, time.Second},
		{"forbidden", answered(403, "M_FORBIDDEN", nil), refused, 0},
		{"too large", answered(413, "M_TOO_LARGE", nil), refused, 0},
		{"session unknown", answered(401, "M_UNKNOWN_TOKEN", nil), unreachable, 0},
		{"our own fault", errors.New("database is locked"), fault, 0},
		{"our own, for good", fmt.Errorf("sending: %w", errPlain), refused, 0},
	} {
		if got, wait := judge(tc.err); got != tc.want || wait != tc.wait {
			t.Errorf("%s: got %d, %s, want %d, %s", tc.name, got, wait, tc.want, tc.wait)
		}
	}
}

func TestPersist(t *testing.T) { synctest.Test(t, testPersist) }

func testPersist(t *testing.T) {
	ctx := t.Context()
	limited := mautrix.HTTPError{
		Response:  &http.Response{StatusCode: 429, Header: http.Header{}},
		RespError: &mautrix.RespError{ErrCode: "M_LIMIT_EXCEEDED", ExtraData: map[string]any{"retry_after_ms": 1200.0}},
	}
	began, tries := time.Now(), 0
	got, err := persist(ctx, func(context.Context) (string, error) {
		if tries++; tries < 3 {
			return "", limited
		}
		return "sent", nil
	})
	require.NoError(t, err)
	assert.Equal(t, "sent", got)
	assert.GreaterOrEqual(t, time.Since(began), 2400*time.Millisecond, "waits as long as the server says")
	tries = 0
	if _, err := persist(ctx, func(context.Context) (string, error) { tries++; return "", errPlain }); !errors.Is(err, errPlain) || tries != 1 {
		t.Errorf("refused: %d tries, %v", tries, err)
	}
	short, cancel := context.WithTimeout(ctx, time.Hour)
	defer cancel()
	if _, err := persist(short, func(context.Context) (string, error) {
		return "", mautrix.HTTPError{WrappedError: errors.New("connection refused")}
	}); err == nil {
		t.Error("a server that is away forever was no error")
	}
}

// TestStoreAttempts: an event that ended the process several times is given up.
func TestStoreAttempts(t *testing.T) {
	ctx := context.Background()
	s, err := openStore(ctx, t.TempDir()+"/matrix.db")
	if err != nil {
		t.Fatal(err)
	}
	defer s.close()
	for want := 1; want <= 3; want++ {
		if n, err := s.attempt(ctx, "$a"); err != nil || n != want {
			t.Errorf("attempt %d counted as %d, %v", want, n, err)
		}
	}
	if err := s.endAttempt(ctx, "$a"); err != nil {
		t.Fatal(err)
	}
	if n, _ := s.attempt(ctx, "$a"); n != 1 {
		t.Errorf("after its end an attempt counts as %d", n)
	}
	if err := s.keepSession(ctx, "@a:b", "DEV", "token"); err != nil {
		t.Fatal(err)
	}
	if err := s.keepPosition(ctx, "here"); err != nil {
		t.Fatal(err)
	}
	if err := s.SaveNextBatch(ctx, "", "there"); err != nil {
		t.Fatal(err)
	}
	if at, _ := s.LoadNextBatch(ctx, ""); at != "here" {
		t.Errorf("position %q: the library's early saving counts", at)
	}
	if err := s.keepSession(ctx, "@a:b", "DEV", "other"); err != nil {
		t.Fatal(err)
	}
	if at, _ := s.LoadNextBatch(ctx, ""); at != "here" {
		t.Errorf("position %q after a new token of the same device", at)
	}
	if err := s.keepSession(ctx, "@a:b", "NEW", "other"); err != nil {
		t.Fatal(err)
	}
	if at, _ := s.LoadNextBatch(ctx, ""); at != "" {
		t.Errorf("position %q is another device's", at)
	}
}
