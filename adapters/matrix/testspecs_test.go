package matrix

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// whoRequest answers with what the adapter says of the asker and the room.
func whoRequest() catalogue.Spec {
	return catalogue.Spec{
		Name: "whoami", Summary: "what the room says of the asker",
		Examples: []catalogue.Example{{Line: "whoami", Summary: "tells"}},
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			w := c.Who
			return &answer.Answer{
				Request:  "whoami",
				Headline: fmt.Sprintf("guild=%s channel=%s teacher=%t direct=%t", w.Guild, w.Channel, w.Teacher, w.Direct),
			}, nil
		},
	}
}

// sayRequest puts what was typed into every part of an answer.
func sayRequest() catalogue.Spec {
	return catalogue.Spec{
		Name: "repeat", Summary: "gives back what was typed",
		Options:  []catalogue.Option{{Name: "text", Summary: "what to say", Kind: catalogue.Text, Bare: true}},
		Examples: []catalogue.Example{{Line: "repeat text hello", Summary: "says hello"}},
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			text := c.Args.Word("text")
			if text == "refuse" {
				return nil, answer.Refuse("repeat text <b>bold</b> @room", "<b>no</b> @room")
			}
			return &answer.Answer{
				Headline:    text,
				Figures:     []answer.Figure{{ID: "said", Label: text, Text: text, Main: true}},
				Notes:       []string{text},
				Assumptions: []string{text},
				Steps:       []string{text},
				Cautions:    []string{text},
			}, nil
		},
	}
}

// draftRequest answers with one attachment of each kind.
func draftRequest() catalogue.Spec {
	file := func(name, mime, text string) answer.Attachment {
		return answer.Attachment{Name: name, Type: mime, Alt: "a file of the tests",
			Render: func(context.Context) ([]byte, error) { return []byte(text), nil }}
	}
	return catalogue.Spec{
		Name: "draft", Summary: "files of every kind",
		Examples: []catalogue.Example{{Line: "draft", Summary: "all files"}},
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			picture := answer.Attachment{Name: "draft.png", Type: "image/png", Alt: "a grey square",
				Render: func(context.Context) ([]byte, error) {
					var b bytes.Buffer
					err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 640, 400)))
					return b.Bytes(), err
				}}
			return &answer.Answer{
				Headline: "a draft of 25.40 mm",
				Figures:  []answer.Figure{{ID: "side", Label: "side", Value: 25.4, Unit: answer.MM, Main: true}},
				Steps:    []string{"cut it", "file it"},
				Attachments: []answer.Attachment{
					picture,
					file("draft.pdf", "application/pdf", "%PDF-1.4 a draft"),
					file("draft.svg", "image/svg+xml", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>"),
					file("draft.csv", "text/csv", "side\n25.4\n"),
				},
			}, nil
		},
	}
}

// lingerRequest takes a while, so that a killed bot has not recorded it yet.
func lingerRequest() catalogue.Spec {
	return catalogue.Spec{
		Name: "linger", Summary: "answers after a while",
		Options:  []catalogue.Option{{Name: "text", Summary: "what to say", Kind: catalogue.Text, Bare: true}},
		Examples: []catalogue.Example{{Line: "linger text one", Summary: "says one, later"}},
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			select {
			case <-time.After(150 * time.Millisecond):
			case <-ctx.Done():
				return nil, ctx.Err()
			}
			return &answer.Answer{Headline: "lingered " + c.Args.Word("text") + "."}, nil
		},
	}
}
