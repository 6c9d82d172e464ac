package matrix

import (
	"context"
	"errors"
	"net/http"
	"time"

	"guildhand/bot/delivery"

	"github.com/cenkalti/backoff/v5"
	"maunium.net/go/mautrix"
)

const (
	// longestWait keeps the bot quick to notice that the server is back.
	longestWait = 30 * time.Second
	// faultTries is how often to try again after an error that doesn't tell
	// whether that helps.
	faultTries = 5
)

// persist does what is asked of the server until it succeeds, the server says
// that it never will, or ctx ends. Rate limits are waited out as the server
// says.
func persist[T any](ctx context.Context, do func(context.Context) (T, error)) (T, error) {
	faults := 0
	return backoff.Retry(ctx, func() (T, error) {
		v, err := do(ctx)
		switch verdict, wait := judge(err); verdict {
		case fine:
			return v, nil
		case refused:
			return v, backoff.Permanent(err)
		case fault:
			if faults++; faults >= faultTries {
				return v, backoff.Permanent(err)
			}
		case unreachable:
			if wait > 0 {
				return v, errors.Join(err, &backoff.RetryAfterError{Duration: wait})
			}
		}
		return v, err
	}, backoff.WithBackOff(delivery.Backoff(longestWait)), backoff.WithMaxElapsedTime(0))
}

// verdict tells what an error of the server means for trying again.
type verdict int

const (
	fine        verdict = iota
	refused             // the server understood and says no
	unreachable         // it could not be asked, or is too busy
	fault               // not the server's: try a few times
)

// errNever marks an error after which trying again does not help.
type errNever struct{ error }

func (e errNever) Unwrap() error { return e.error }

// errWaits marks an error that waiting helps.
type errWaits struct{ error }

func (e errWaits) Unwrap() error { return e.error }

// judge sorts an error; wait is how long the server asks to wait.
func judge(err error) (v verdict, wait time.Duration) {
	if err == nil {
		return fine, 0
	}
	var never errNever
	if errors.As(err, &never) {
		return refused, 0
	}
	var waits errWaits
	if errors.As(err, &waits) {
		return unreachable, 0
	}
	var he mautrix.HTTPError
	if !errors.As(err, &he) {
		return fault, 0
	}
	if he.Response == nil {
		return unreachable, 0
	}
	if he.RespError == nil {
		// Half an answer, or a proxy's page in place of one. A proxy that finds
		// a picture too large stays with that.
		if he.Response.StatusCode == http.StatusRequestEntityTooLarge {
			return refused, 0
		}
		return unreachable, 0
	}
	if wait, ok := limitOf(err); ok {
		return unreachable, wait
	}
	switch code := he.Response.StatusCode; {
	case code == http.StatusUnauthorized, code == http.StatusRequestTimeout, code >= 500:
		// After 401 the stream logs in again or ends the adapter.
		return unreachable, 0
	}
	return refused, 0
}

// limitOf gives how long a server asks to wait that finds the bot too fast.
func limitOf(err error) (wait time.Duration, ok bool) {
	var he mautrix.HTTPError
	if !errors.As(err, &he) || he.Response == nil || he.RespError == nil {
		return 0, false
	}
	if he.Response.StatusCode != http.StatusTooManyRequests && he.RespError.ErrCode != mautrix.MLimitExceeded.ErrCode {
		return 0, false
	}
	return limitWait(he), true
}

// limitWait reads how long the server asks to wait: retry_after_ms of the body,
// or the Retry-After header in seconds.
func limitWait(he mautrix.HTTPError) time.Duration {
	if ms, ok := he.RespError.ExtraData["retry_after_ms"].(float64); ok && ms > 0 {
		return time.Duration(ms) * time.Millisecond
	}
	if d, err := time.ParseDuration(he.Response.Header.Get("Retry-After") + "s"); err == nil && d > 0 {
		return d
	}
	return time.Second
}

// notFound reports whether the server says that there is no such thing.
func notFound(err error) bool { return errors.Is(err, mautrix.MNotFound) }
