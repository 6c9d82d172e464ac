package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"

	"guildhand/adapters/health"
)

// api is the requests that the adapter makes, on the library's session: it
// keeps the rate limits and sends again after 429 and 502.
type api struct {
	session *discordgo.Session
	appID   string
	metrics *health.Metrics
	// answers are the limits of interactions, which are apart from the bot's
	// own. There is one for each token, so they are thrown away in turn.
	answers limits
}

// limits hands out the rate limiter of the current period. A token outlives
// its period by chance only, and then loses no more than a forecast.
type limits struct {
	mu      sync.Mutex
	since   time.Time
	limiter *discordgo.RateLimiter
}

func (l *limits) bucket(key string) *discordgo.Bucket {
	l.mu.Lock()
	if l.limiter == nil || time.Since(l.since) > tokenLife {
		l.limiter, l.since = discordgo.NewRatelimiter(), time.Now()
	}
	limiter := l.limiter
	l.mu.Unlock()
	return limiter.LockBucket(key)
}

// tokenLife is how long an interaction's token is good for.
const tokenLife = 15 * time.Minute

// callError is a request that failed: what was wanted and what came back,
// without the address, which would hold a token.
type callError struct {
	call string
	// status is the HTTP status, 0 where no answer came; code is Discord's own.
	status, code int
	cause        string
	// fields are the places in our request that Discord points at.
	fields string
}

func (e *callError) Error() string {
	switch {
	case e.status == 0:
		return fmt.Sprintf("discord: %s: no answer: %s", e.call, e.cause)
	case e.fields != "":
		return fmt.Sprintf("discord: %s: status %d, code %d, at %s", e.call, e.status, e.code, e.fields)
	case e.code != 0:
		return fmt.Sprintf("discord: %s: status %d, code %d", e.call, e.status, e.code)
	}
	return fmt.Sprintf("discord: %s: status %d", e.call, e.status)
}

// Codes of Discord that we act upon.
const (
	codeUnknownInteraction = 10062
	codeAcknowledged       = 40060
	codeMissingAccess      = 50001
	codeTooLarge           = 40005
	codeThreadThere        = 160004
	codeNoPermission       = 50013
)

// status gives the HTTP status and code of a failed call, 0 where there was no
// answer at all, so that it may or may not have arrived.
func status(err error) (status, code int) {
	var e *callError
	if errors.As(err, &e) {
		return e.status, e.code
	}
	return 0, 0
}

// gone reports that the answer's place does not exist (any more), or that we
// may not go there: no use in trying again.
func gone(err error) bool {
	s, _ := status(err)
	return s == http.StatusNotFound || s == http.StatusForbidden || s == http.StatusUnauthorized
}

// refused reports that Discord understood and declined, for any reason but a
// limit: the same request would be declined again.
func refused(err error) bool {
	s, _ := status(err)
	return s >= 400 && s < 500 && s != http.StatusTooManyRequests
}

// safe turns the library's error into one that can be logged.
func safe(call string, err error) error {
	if err == nil {
		return nil
	}
	e := &callError{call: call}
	var rest *discordgo.RESTError
	var address *url.Error
	switch {
	case errors.As(err, &rest):
		e.status = rest.Response.StatusCode
		if rest.Message != nil {
			e.code = rest.Message.Code
		}
		e.fields = fieldsOf(rest.ResponseBody)
	case strings.HasPrefix(err.Error(), "Exceeded Max retries"):
		e.status = http.StatusBadGateway
	case errors.Is(err, discordgo.ErrUnauthorized):
		e.status = http.StatusUnauthorized
	case errors.As(err, &address):
		e.cause = "the connection failed"
		if address.Timeout() {
			e.cause = "no answer in time"
		}
	default:
		e.cause = "the answer could not be read"
	}
	return e
}

// fieldsOf names what Discord points at in a refusal, each place with its code:
// "data.embeds.0.title BASE_TYPE_MAX_LENGTH". Discord's sentences are left out,
// since they may repeat what was typed.
func fieldsOf(body []byte) string {
	var reply struct {
		Errors map[string]any `json:"errors"`
	}
	if json.Unmarshal(body, &reply) != nil {
		return ""
	}
	var places []string
	var walk func(path string, v any)
	walk = func(path string, v any) {
		m, _ := v.(map[string]any)
		for key, inner := range m {
			if key != "_errors" {
				walk(strings.TrimPrefix(path+"."+key, "."), inner)
				continue
			}
			list, _ := inner.([]any)
			for _, e := range list {
				if e, ok := e.(map[string]any); ok {
					places = append(places, fmt.Sprintf("%s %v", path, e["code"]))
				}
			}
		}
	}
	walk("", reply.Errors)
	slices.Sort(places)
	return clip(strings.Join(places, ", "), 500)
}

// do makes one request. The bucket is locked by the caller; where it took
// long, a limit was being waited for.
func (a *api) do(ctx context.Context, call, method, address string, body any, files []file, bucket func() *discordgo.Bucket, into any) error {
	var payload []byte
	contentType := "application/json"
	var err error
	switch {
	case len(files) > 0:
		list := make([]*discordgo.File, len(files))
		for i, f := range files {
			list[i] = &discordgo.File{Name: f.name, ContentType: f.mime, Reader: bytes.NewReader(f.data)}
		}
		contentType, payload, err = discordgo.MultipartBodyWithJSON(body, list)
	case body != nil:
		payload, err = json.Marshal(body)
	}
	if err != nil {
		return fmt.Errorf("discord: %s: %w", call, err)
	}
	start := time.Now()
	b := bucket()
	if waited := time.Since(start); waited > 20*time.Millisecond {
		a.metrics.Waited(false, waited)
	}
	raw, err := a.session.RequestWithLockedBucket(method, address, contentType, payload, b, 0, discordgo.WithContext(ctx))
	if err != nil {
		a.metrics.PlatformError(call)
		return safe(call, err)
	}
	if into == nil || len(raw) == 0 {
		return nil
	}
	if err := json.Unmarshal(raw, into); err != nil {
		return &callError{call: call, status: http.StatusOK, cause: "the answer could not be read"}
	}
	return nil
}

// own is the bucket of a request with the bot's own limits.
func (a *api) own(key string) func() *discordgo.Bucket {
	return func() *discordgo.Bucket { return a.session.Ratelimiter.LockBucket(key) }
}

func (a *api) ofToken(kind, token string) func() *discordgo.Bucket {
	return func() *discordgo.Bucket { return a.answers.bucket(kind + token) }
}

// sent is what is read of a message that Discord gives back.
type sent struct {
	ID     string `json:"id"`
	Flags  int    `json:"flags"`
	Embeds []struct {
		Footer footer `json:"footer"`
	} `json:"embeds"`
}

// respond gives the first answer to an interaction and, for a message, its id.
// It counts for three seconds from the event only.
func (a *api) respond(ctx context.Context, id, token string, r callback) (string, error) {
	m, ok := r.Data.(*message)
	if !ok {
		return a.respondOnce(ctx, id, token, r, nil)
	}
	return degrading(m, func(m *message) (string, error) {
		return a.respondOnce(ctx, id, token, callback{Type: r.Type, Data: m}, m.files)
	})
}

func (a *api) respondOnce(ctx context.Context, id, token string, r callback, files []file) (string, error) {
	var result struct {
		Interaction struct {
			Message string `json:"response_message_id"`
		} `json:"interaction"`
	}
	address := discordgo.EndpointInteractionResponse(id, token)
	err := a.do(ctx, "respond", http.MethodPost, address+"?with_response=true", r, files, a.ofToken("callback", token), &result)
	return result.Interaction.Message, err
}

// original reads the first answer of an interaction.
func (a *api) original(ctx context.Context, token string) (sent, error) {
	var m sent
	err := a.do(ctx, "read", http.MethodGet, discordgo.EndpointWebhookMessage(a.appID, token, "@original"), nil, nil, a.ofToken("", token), &m)
	return m, err
}

// edit replaces the first answer of an interaction, also a deferred one.
func (a *api) edit(ctx context.Context, token string, m *message) (string, error) {
	return degrading(m, func(m *message) (string, error) {
		var result sent
		edited := *m
		edited.Flags = 0
		err := a.do(ctx, "edit", http.MethodPatch, discordgo.EndpointWebhookMessage(a.appID, token, "@original"), &edited, m.files, a.ofToken("", token), &result)
		return result.ID, err
	})
}

// finish puts an answer in the place of a deferral that was hidden or not. What
// all would see there, and is for the asker alone, follows in private instead.
func (a *api) finish(ctx context.Context, token string, m *message, hidden bool) (string, error) {
	if hidden || m.Flags&flagEphemeral == 0 {
		return a.edit(ctx, token, m)
	}
	address := discordgo.EndpointWebhookMessage(a.appID, token, "@original")
	err := a.do(ctx, "take back", http.MethodDelete, address, nil, nil, a.ofToken("", token), nil)
	if s, _ := status(err); err != nil && s != http.StatusNotFound { // 404: an earlier attempt has
		return "", err
	}
	return a.follow(ctx, token, m)
}

// follow sends a further message to an interaction.
func (a *api) follow(ctx context.Context, token string, m *message) (string, error) {
	return degrading(m, func(m *message) (string, error) {
		var result sent
		err := a.do(ctx, "follow", http.MethodPost, discordgo.EndpointWebhookToken(a.appID, token)+"?wait=true", m, m.files, a.ofToken("", token), &result)
		return result.ID, err
	})
}

// post sends a message to a channel. With a nonce, sending it twice within
// some minutes shows it once.
func (a *api) post(ctx context.Context, channel string, m *message) (string, error) {
	address := discordgo.EndpointChannelMessages(channel)
	return degrading(m, func(m *message) (string, error) {
		var result sent
		err := a.do(ctx, "post", http.MethodPost, address, m, m.files, a.own(address), &result)
		return result.ID, err
	})
}

// change replaces a message of the bot's own in a channel.
func (a *api) change(ctx context.Context, channel, id string, m *message) error {
	address := discordgo.EndpointChannelMessage(channel, id)
	_, err := degrading(m, func(m *message) (string, error) {
		changed := *m
		changed.Flags, changed.Nonce, changed.EnforceNonce, changed.Reference = 0, "", false, nil
		return id, a.do(ctx, "change", http.MethodPatch, address, &changed, m.files, a.own(discordgo.EndpointChannelMessage(channel, "")), nil)
	})
	return err
}

// thread opens a thread at a message of a channel, and gives its id.
func (a *api) thread(ctx context.Context, channel, message, name string) (string, error) {
	var opened channelInfo
	body := threadStart{Name: name, ArchiveMinutes: threadMinutes}
	address := discordgo.EndpointChannelMessageThread(channel, message)
	err := a.do(ctx, "open thread", http.MethodPost, address, body, nil, a.own(discordgo.EndpointChannelThreads(channel)), &opened)
	return opened.ID, err
}

// forumPost opens a post of a forum with its first message, and gives its id.
func (a *api) forumPost(ctx context.Context, forum, name string, first *message) (string, error) {
	address := discordgo.EndpointChannelThreads(forum)
	return degrading(first, func(m *message) (string, error) {
		var opened channelInfo
		posted := *m
		posted.Nonce, posted.EnforceNonce, posted.Reference = "", false, nil
		body := threadStart{Name: name, ArchiveMinutes: threadMinutes, Message: &posted}
		err := a.do(ctx, "open post", http.MethodPost, address, body, m.files, a.own(address), &opened)
		return opened.ID, err
	})
}

// typing shows in a channel that the bot is writing, for ten seconds.
func (a *api) typing(ctx context.Context, channel string) error {
	address := discordgo.EndpointChannelTyping(channel)
	return a.do(ctx, "typing", http.MethodPost, address, nil, nil, a.own(address), nil)
}

// channel reads a channel.
func (a *api) channel(ctx context.Context, id string) (*channelInfo, error) {
	var c channelInfo
	address := discordgo.EndpointChannel(id)
	err := a.do(ctx, "read channel", http.MethodGet, address, nil, nil, a.own(address), &c)
	return &c, err
}

// direct opens the direct chat with a maker.
func (a *api) direct(ctx context.Context, maker string) (string, error) {
	var channel struct {
		ID string `json:"id"`
	}
	address := discordgo.EndpointUserChannels("@me")
	body := map[string]string{"recipient_id": maker}
	err := a.do(ctx, "direct", http.MethodPost, address, body, nil, a.own(address), &channel)
	return channel.ID, err
}

func (a *api) commandsAddress(guild string) string {
	if guild != "" {
		return discordgo.EndpointApplicationGuildCommands(a.appID, guild)
	}
	return discordgo.EndpointApplicationGlobalCommands(a.appID)
}

// commands reads what is registered, for a guild or for everyone.
func (a *api) commands(ctx context.Context, guild string) ([]command, error) {
	var list []command
	address := a.commandsAddress(guild)
	err := a.do(ctx, "read commands", http.MethodGet, address+"?with_localizations=true", nil, nil, a.own(address), &list)
	return list, err
}

// overwrite registers the commands in place of all others.
func (a *api) overwrite(ctx context.Context, guild string, list []command) error {
	address := a.commandsAddress(guild)
	return a.do(ctx, "register commands", http.MethodPut, address, list, nil, a.own(address), nil)
}

// application is what is read of the application behind the token.
type application struct {
	ID           string                     `json:"id"`
	Name         string                     `json:"name"`
	Integrations map[string]json.RawMessage `json:"integration_types_config"`
	Endpoint     string                     `json:"interactions_endpoint_url"`
}

func (a *api) application(ctx context.Context) (application, error) {
	var app application
	address := discordgo.EndpointApplication("@me")
	err := a.do(ctx, "read application", http.MethodGet, address, nil, nil, a.own(address), &app)
	return app, err
}
