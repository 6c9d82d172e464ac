package requests

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestKitLook writes the files where GUILDHAND_LOOK points, for eyes.
func TestKitLook(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("set GUILDHAND_LOOK to a folder to look at the files")
	}
	for _, e := range kitRequest(All()).Examples {
		a, err := askLine(t, e.Line)
		if err != nil {
			t.Error(e.Line, err)
			continue
		}
		t.Log(a.Line)
		t.Log(a.Headline)
		for _, f := range a.Figures {
			t.Log(f.Main, f.ID, ":", f.Label, f.Display())
		}
		for _, l := range [][]string{a.Notes, a.Assumptions, a.Steps, a.Cautions} {
			for _, s := range l {
				t.Log("  ", s)
			}
			t.Log("--")
		}
		for _, f := range a.Attachments {
			data, err := f.Render(context.Background())
			if err != nil {
				t.Fatal(f.Name, err)
			}
			t.Log(f.Name, f.WidthPx, f.HeightPx, len(data), f.Alt)
			if err := os.WriteFile(filepath.Join(dir, f.Name), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func TestKitBigLook(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("set GUILDHAND_LOOK to a folder to look at the files")
	}
	for _, line := range []string{
		"kit 40 makers each 3 collet oval 8x6 depth 4 sterling 22ga ; 80 collet emerald 8x6 depth 4 sterling 22ga",
		"kit 60 makers each 10 collet oval 8x6 depth 4 sterling 22ga",
		"kit 60 makers each 3 collet oval 12x10 depth 6 sterling 22ga ; 100 collet heart 8x8 depth 4 sterling 22ga; 100 band us 7 0.6438mm sterling ; 100 collet round 4 sterling 22ga; 60 dome 20 height 6",
	} {
		start := time.Now()
		a, err := askLine(t, line)
		if err != nil {
			t.Error(line, err)
			continue
		}
		t.Log(time.Since(start), a.Headline, figure(t, a, "yield").Display(), figure(t, a, "sheets").Display(), a.Notes)
		for _, f := range a.Attachments {
			start := time.Now()
			data, err := f.Render(context.Background())
			if err != nil {
				t.Fatal(f.Name, err)
			}
			t.Log(f.Name, f.WidthPx, f.HeightPx, len(data), time.Since(start))
			if err := os.WriteFile(filepath.Join(dir, f.Name), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
