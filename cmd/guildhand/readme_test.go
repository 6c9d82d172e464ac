package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests"

	"github.com/stretchr/testify/require"
)

const (
	readmeFile    = root + "/README.md"
	readmeRequest = "collet pear 9x6 depth 4 sterling 22ga"
	readmePicture = "testdata/collet-pear-9x6.png"
)

// runAt runs a command line in a home of its own and gives what it printed.
func runAt(t *testing.T, home string, args ...string) (stdout string, status int) {
	t.Helper()
	var out, errs bytes.Buffer
	p := &Program{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errs, Environ: []string{"HOME=" + home}}
	status = p.Run(t.Context(), args)
	if errs.Len() > 0 {
		t.Logf("%v: %s", args, errs.String())
	}
	return out.String(), status
}

// compareReadme compares what stands between two marks of README.md with what
// should stand there, or puts it there with -update.
func compareReadme(t *testing.T, mark, want string) {
	t.Helper()
	content, err := os.ReadFile(readmeFile)
	require.NoError(t, err)
	begin, end := "<!-- "+mark+" -->\n", "<!-- end of "+mark+" -->"
	before, rest, found := strings.Cut(string(content), begin)
	got, after, ended := strings.Cut(rest, end)
	if !found || !ended {
		t.Fatalf("README.md lacks the marks of %s", mark)
	}
	if got == want {
		return
	}
	if !*update {
		t.Errorf("README.md is out of date: go test ./cmd/guildhand -update\ngot:\n%s\nwant:\n%s", got, want)
		return
	}
	require.NoError(t, os.WriteFile(readmeFile, []byte(before+begin+want+end+after), 0o644))
}

func TestReadmeTableIsTheCatalogue(t *testing.T) {
	compareReadme(t, "requests", catalogue.MarkdownTable(requests.All(nil)))
}

func TestReadmeAnswerIsTheProgrammes(t *testing.T) {
	text, status := runAt(t, t.TempDir(), "ask", readmeRequest)
	require.Equal(t, exitAnswered, status)
	compareReadme(t, "answer", "```console\n$ guildhand ask '"+readmeRequest+"'\n"+text+"```\n")
}

// The picture shows what the program draws today. It is compared by its points,
// not by its bytes: a compressor may change.
func TestReadmePictureIsTheProgrammes(t *testing.T) {
	dir := t.TempDir()
	if _, status := runAt(t, dir, "ask", readmeRequest, "--out", dir); status != exitAnswered {
		t.Fatalf("status %d", status)
	}
	drawn, err := os.ReadFile(filepath.Join(dir, filepath.Base(readmePicture)))
	require.NoError(t, err)
	kept, err := os.ReadFile(readmePicture)
	if *update && !bytes.Equal(kept, drawn) {
		require.NoError(t, os.WriteFile(readmePicture, drawn, 0o644))
		return
	}
	require.NoError(t, err)
	a, b := decode(t, kept), decode(t, drawn)
	if a.Bounds() != b.Bounds() {
		t.Fatalf("the picture of README.md has the size %v, the program draws %v: go test ./cmd/guildhand -update", a.Bounds(), b.Bounds())
	}
	// The last line has the date.
	const footPx = 70
	// Another processor may round an edge to the neighbouring grey.
	const grey, most = 0x4000, 0.001
	differing, all := 0, 0
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y-footPx; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			all++
			r1, _, _, _ := a.At(x, y).RGBA()
			r2, _, _, _ := b.At(x, y).RGBA()
			if math.Abs(float64(r1)-float64(r2)) > grey {
				differing++
			}
		}
	}
	if all == 0 || float64(differing) > most*float64(all) {
		t.Errorf("%d of %d points of README's picture differ from what the program draws: go test ./cmd/guildhand -update", differing, all)
	}
}

func decode(t *testing.T, content []byte) image.Image {
	t.Helper()
	picture, err := png.Decode(bytes.NewReader(content))
	require.NoError(t, err)
	return picture
}

// The commands that README.md promises are there, each on a line of its own:
// .ci/run takes the second from there.
func TestReadmeCommands(t *testing.T) {
	content, err := os.ReadFile(readmeFile)
	require.NoError(t, err)
	for _, command := range []string{"go run -tags goolm ./cmd/guildhand", "go test -tags goolm ./..."} {
		if !slices.Contains(strings.Split(string(content), "\n"), "    "+command) {
			t.Errorf("README.md lacks the line %q", command)
		}
	}
}

// Every example of the catalogue is answered on the command line, in JSON whose
// figures all have an id, a unit and a number. Where an example depends on what
// is kept for the maker, its refusal must offer a line that is answered.
func TestEveryExampleIsAnswered(t *testing.T) {
	specs := requests.All(nil)
	if len(specs) == 0 {
		t.Fatal("the catalogue is empty")
	}
	for _, spec := range specs {
		if len(spec.Examples) == 0 {
			t.Errorf("%s has no example", spec.Name)
		}
		home := t.TempDir()
		for _, example := range spec.Examples {
			t.Run(example.Line, func(t *testing.T) {
				text, status := runAt(t, home, "ask", "--json", example.Line)
				if status == exitRefused && spec.Keeps {
					var refusal struct{ Problem, Try string }
					require.NoError(t, json.Unmarshal([]byte(text), &refusal))
					t.Logf("%s; trying %s", refusal.Problem, refusal.Try)
					text, status = runAt(t, home, "ask", "--json", refusal.Try)
				}
				require.Equal(t, exitAnswered, status)
				var got struct {
					Status, Request, Line, Headline, Text string
					Figures                               []struct {
						ID, Label, Unit, Text string
						Value                 *float64
					}
				}
				require.NoError(t, json.Unmarshal([]byte(text), &got))
				if got.Status == "explained" {
					require.Equal(t, spec.Name, got.Request)
					require.NotEmpty(t, got.Text)
					return
				}
				if got.Status != "answered" || got.Request != spec.Name || got.Headline == "" || got.Line == "" {
					t.Errorf("got %+v", got)
				}
				ids := map[string]bool{}
				for _, f := range got.Figures {
					if f.ID == "" || f.Label == "" || f.Unit == "" || f.Value == nil || ids[f.ID] {
						t.Errorf("figure %+v lacks something, or its id is there twice", f)
					}
					ids[f.ID] = true
				}
			})
		}
	}
}
