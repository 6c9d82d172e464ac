package discord

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"mime"
	"mime/multipart"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/getkin/kin-openapi/routers/gorillamux"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/calc/testcount"
)

// The published description of Discord's API judges every request of the
// adapter and every reply of the stand-in. It is Discord's own file (MIT),
// which is not kept here: GUILDHAND_DISCORD_OPENAPI names it, or it lies beside
// the repository.

type published struct {
	router routers.Router
	// judged holds the shapes of calls that were found right: judging takes
	// some 20 ms, and most calls of a test are alike but for their numbers; in a sample
	// all are alike that have the same fields.
	judged sync.Map
}

var digits = regexp.MustCompile(`[0-9]+`)

// judgeOnce judges a call unless one alike was judged.
func (d *published) judgeOnce(c *call) error {
	body, files, err := c.payload()
	if err != nil {
		return fmt.Errorf("%s %s: the body can't be read: %w", c.method, c.url, err)
	}
	h := sha256.New()
	data, reply := body, c.reply
	if !testcount.Whole() {
		data, reply = shapeOf(data), shapeOf(reply)
	}
	for _, part := range [][]byte{[]byte(c.method), []byte(c.url), data, []byte(strconv.Itoa(c.status)), reply} {
		h.Write(digits.ReplaceAll(part, []byte("0")))
		h.Write([]byte{0})
	}
	for _, f := range files {
		h.Write([]byte(f.field + f.name + f.mime))
	}
	key := string(h.Sum(nil))
	if _, known := d.judged.Load(key); known {
		return judgeFiles(body, files)
	}
	if err := d.judge(c); err != nil {
		return err
	}
	d.judged.Store(key, true)
	return nil
}

// shapeOf is what is alike in JSON whose texts and numbers differ: the fields and the
// kinds of their values, those of a list once each. What is no JSON stays as it is.
func shapeOf(data []byte) []byte {
	var v any
	if json.Unmarshal(data, &v) != nil {
		return data
	}
	return []byte(shapeOfValue(v))
}

func shapeOfValue(v any) string {
	switch v := v.(type) {
	case map[string]any:
		fields := []string{}
		for _, name := range slices.Sorted(maps.Keys(v)) {
			fields = append(fields, name+":"+shapeOfValue(v[name]))
		}
		return "{" + strings.Join(fields, ",") + "}"
	case []any:
		shapes := map[string]bool{}
		for _, each := range v {
			shapes[shapeOfValue(each)] = true
		}
		return "[" + strings.Join(slices.Sorted(maps.Keys(shapes)), ",") + "]"
	}
	return fmt.Sprintf("%T", v)
}

// descriptionPath is where the description is, "" where it is not.
func descriptionPath() string {
	if path := os.Getenv("GUILDHAND_DISCORD_OPENAPI"); path != "" {
		return path
	}
	// This package is two folders below the repository's root.
	path := filepath.Join("..", "..", "..", "shared", "discord-openapi.json")
	if _, err := os.Stat(path); err != nil {
		return ""
	}
	return path
}

var loadDescription = sync.OnceValues(func() (*published, error) {
	path := descriptionPath()
	if path == "" {
		return nil, nil
	}
	doc, err := openapi3.NewLoader().LoadFromFile(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	doc.Servers = openapi3.Servers{{URL: "/api/v9"}, {URL: "/api/v10"}}
	closed := 0
	for name, ref := range doc.Components.Schemas {
		s := ref.Value
		if name == "Error" {
			continue // a part of others, by allOf
		}
		if s.Type.Is("object") && len(s.Properties) > 0 && len(s.AllOf)+len(s.AnyOf)+len(s.OneOf) == 0 &&
			s.AdditionalProperties.Has == nil && s.AdditionalProperties.Schema == nil {
			no := false
			s.AdditionalProperties.Has = &no
			closed++
		}
	}
	if closed < 100 {
		return nil, fmt.Errorf("%s: only %d schemas could be closed, which is not the file that we know", path, closed)
	}
	router, err := gorillamux.NewRouter(doc)
	if err != nil {
		return nil, err
	}
	return &published{router: router}, nil
})

// wantDescription skips, plainly, where the description is not there.
func wantDescription(t *testing.T) *published {
	t.Helper()
	d, err := loadDescription()
	require.NoError(t, err)
	if d == nil {
		t.Skip("skipped: Discord's description is not here; set GUILDHAND_DISCORD_OPENAPI to openapi.json of Discord's repository of API descriptions")
	}
	return d
}

// call is one request and its reply as they were on the wire.
type call struct {
	method, url string
	header      http.Header
	body        []byte
	status      int
	replyHeader http.Header
	reply       []byte
}

// payload is the JSON of a request's body, out of multipart where it is in it,
// and its files.
func (c *call) payload() (data []byte, files []*filePart, err error) {
	kind, params, err := mime.ParseMediaType(c.header.Get("Content-Type"))
	if len(c.body) == 0 {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	if kind != "multipart/form-data" {
		return c.body, nil, nil
	}
	r := multipart.NewReader(bytes.NewReader(c.body), params["boundary"])
	for {
		p, err := r.NextPart()
		if errors.Is(err, io.EOF) {
			return data, files, nil
		}
		if err != nil {
			return nil, nil, err
		}
		content, err := io.ReadAll(p)
		if err != nil {
			return nil, nil, err
		}
		if p.FormName() == "payload_json" {
			data = content
			continue
		}
		files = append(files, &filePart{field: p.FormName(), name: p.FileName(), mime: p.Header.Get("Content-Type"), data: content})
	}
}

type filePart struct {
	field, name, mime string
	data              []byte
}

var filesField = regexp.MustCompile(`^files\[([0-9])\]$`)

// judge validates the request, and the reply too.
func (d *published) judge(c *call) error {
	data, files, err := c.payload()
	if err != nil {
		return fmt.Errorf("%s %s: the body can't be read: %w", c.method, c.url, err)
	}
	req, err := http.NewRequest(c.method, "http://discord.test"+c.url, bytes.NewReader(data))
	if err != nil {
		return err
	}
	if data != nil {
		req.Header.Set("Content-Type", "application/json")
	}
	route, params, err := d.router.FindRoute(req)
	if err != nil {
		return fmt.Errorf("%s %s: not in the description: %w", c.method, c.url, err)
	}
	input := &openapi3filter.RequestValidationInput{
		Request: req, PathParams: params, Route: route,
		Options: &openapi3filter.Options{AuthenticationFunc: openapi3filter.NoopAuthenticationFunc},
	}
	// A refused request is not ours to judge twice: its reply is.
	if c.status < 400 || c.status == http.StatusTooManyRequests {
		if err := openapi3filter.ValidateRequest(context.Background(), input); err != nil {
			return fmt.Errorf("%s %s: request: %w\n%s", c.method, c.url, err, data)
		}
		if err := judgeFiles(data, files); err != nil {
			return fmt.Errorf("%s %s: %w", c.method, c.url, err)
		}
	}
	err = openapi3filter.ValidateResponse(context.Background(), &openapi3filter.ResponseValidationInput{
		RequestValidationInput: input, Status: c.status, Header: c.replyHeader, Body: io.NopCloser(bytes.NewReader(c.reply)),
		Options: &openapi3filter.Options{IncludeResponseStatus: true},
	})
	if err != nil {
		return fmt.Errorf("%s %s: reply %d: %w\n%s", c.method, c.url, c.status, err, c.reply)
	}
	return nil
}

// judgeFiles checks the parts of a multipart body, each with its entry in
// attachments.
func judgeFiles(data []byte, files []*filePart) error {
	if len(files) == 0 {
		return nil
	}
	var body struct {
		Attachments []attachment `json:"attachments"`
		Data        struct {
			Attachments []attachment `json:"attachments"`
		} `json:"data"`
	}
	if err := json.Unmarshal(data, &body); err != nil {
		return err
	}
	list := append(body.Attachments, body.Data.Attachments...)
	if len(list) != len(files) {
		return fmt.Errorf("%d files and %d attachments", len(files), len(list))
	}
	for n, f := range files {
		m := filesField.FindStringSubmatch(f.field)
		if m == nil || m[1] != list[n].ID || list[n].Filename != f.name {
			return fmt.Errorf("part %q is file %q, and attachment %d has id %q and file %q", f.field, f.name, n, list[n].ID, list[n].Filename)
		}
		if list[n].Description == "" {
			return fmt.Errorf("file %q has no alternative text", f.name)
		}
		if f.mime == answer.PNG && !bytes.HasPrefix(f.data, []byte("\x89PNG\r\n\x1a\n")) {
			return fmt.Errorf("file %q is no PNG", f.name)
		}
	}
	return nil
}

// A judge that lets everything pass is worth nothing: plant one mistake each.
func TestDescriptionRefuses(t *testing.T) {
	d := wantDescription(t)
	const id = "123456789012345678"
	good := func() *call {
		return &call{
			method: "POST", url: "/api/v9/channels/" + id + "/messages",
			header: http.Header{"Content-Type": {"application/json"}},
			body:   []byte(`{"content":"hello","allowed_mentions":{"parse":[]}}`),
			status: 200, replyHeader: http.Header{"Content-Type": {"application/json"}},
			reply: mustJSON(newMessageBody(id, id, &message{Content: "hello"})),
		}
	}
	require.NoError(t, d.judge(good()))
	tests := []struct {
		name  string
		spoil func(*call)
		want  string
	}{
		{"unknown path", func(c *call) { c.url = "/api/v9/channel/" + id }, "not in the description"},
		{"unknown key", func(c *call) { c.body = []byte(`{"contents":"hello"}`) }, "request"},
		{"title too long", func(c *call) { c.body = mustJSON(message{Embeds: []embed{{Title: strings.Repeat("x", 257)}}}) }, "request"},
		{"alternative text too long", func(c *call) {
			c.body = mustJSON(message{Attachments: []attachment{{ID: "0", Description: strings.Repeat("x", 1025)}}})
		}, "request"},
		{"custom id too long", func(c *call) {
			c.body = mustJSON(message{Components: []component{row(button("x", strings.Repeat("x", 101)))}})
		}, "request"},
		{"wrong type", func(c *call) { c.body = []byte(`{"content":7}`) }, "request"},
		{"reply without author", func(c *call) { c.reply = bytes.Replace(c.reply, []byte(`"author"`), []byte(`"nobody"`), 1) }, "reply"},
		{"reply of no known form", func(c *call) { c.reply = []byte(`{}`) }, "reply"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := good()
			test.spoil(c)
			if err := d.judge(c); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want a refusal with %q", err, test.want)
			}
		})
	}
}

func mustJSON(v any) []byte {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return b
}
