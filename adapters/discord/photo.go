package discord

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"guildhand/bot/photograph"
)

// mediaHosts are where Discord keeps what people attach. Nothing is fetched from
// anywhere else, whatever a message says.
var mediaHosts = []string{"cdn.discordapp.com", "media.discordapp.net"}

// photoTime is for how long a photograph is fetched.
const photoTime = 10 * time.Second

// attached is a file of a message. Its type and size are its sender's word.
type attached struct {
	URL  string `json:"url"`
	Type string `json:"content_type"`
}

// photoSource is where photographs are fetched from.
type photoSource struct {
	client *http.Client
	hosts  []string
}

// photograph is the file that a command was given.
func (d *input) photograph() (attached, bool) {
	list := d.Options
	if len(list) == 1 && list[0].Type == typeSubcommand {
		list = list[0].Options
	}
	for _, o := range list {
		if id, isText := o.Value.(string); isText && o.Type == typeAttachment {
			f, ok := d.Resolved.Files[id]
			return f, ok
		}
	}
	return attached{}, false
}

// photographOf is the first picture of a message, "" for none.
func photographOf(files []attached) string {
	for _, f := range files {
		if strings.HasPrefix(f.Type, "image/") {
			return f.URL
		}
	}
	return ""
}

// wantsPhotograph reports whether a message with a picture asks for its tracing:
// a picture alone does.
func wantsPhotograph(text string) bool {
	return text == "" || strings.Contains(strings.ToLower(text), "trace")
}

// noRedirects fetches from where it was told and nowhere else.
var noRedirects = &http.Client{
	Timeout:       photoTime,
	CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
}

// fetch reads a photograph from one of the hosts, a little over what one
// may have at most, so that the service names the limit.
func (p photoSource) fetch(ctx context.Context, from string) ([]byte, error) {
	at, err := url.Parse(from)
	if err != nil || at.Scheme != "https" || at.User != nil || !slices.Contains(p.hosts, at.Host) {
		return nil, fmt.Errorf("discord: a photograph is not on Discord's media hosts")
	}
	ctx, cancel := context.WithTimeout(ctx, photoTime)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, from, nil)
	if err != nil {
		return nil, fmt.Errorf("discord: photograph: %w", err)
	}
	got, err := p.client.Do(req)
	if err != nil {
		return nil, fmt.Errorf("discord: photograph: %w", err)
	}
	defer got.Body.Close()
	if got.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("discord: photograph: status %d", got.StatusCode)
	}
	data, err := io.ReadAll(io.LimitReader(got.Body, photograph.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("discord: photograph: %w", err)
	}
	return data, nil
}

// withPhotograph fetches the photograph that a question brings along.
func (a *Adapter) withPhotograph(ctx context.Context, q *question, files []attached) {
	if photographOf(files) == "" || !wantsPhotograph(q.Text) {
		return
	}
	a.addPhotograph(ctx, q, files)
	if q.Text == "" {
		q.Text = "trace"
	}
}

// addPhotograph fetches the first picture of some files for a question.
func (a *Adapter) addPhotograph(ctx context.Context, q *question, files []attached) {
	from := photographOf(files)
	if from == "" {
		return
	}
	var err error
	if q.Photo, err = a.photos.fetch(ctx, from); err != nil {
		q.PhotoLost = true
		a.log.Warn("a photograph was not fetched", "error", err)
	}
}
