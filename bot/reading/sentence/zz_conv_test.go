package sentence

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"
)

func TestConvDump(t *testing.T) {
	path := os.Getenv("CONV")
	if path == "" {
		t.Skip()
	}
	raw, _ := os.ReadFile(path)
	var all []struct {
		ID    int
		Turns []string
	}
	json.Unmarshal(raw, &all)
	for _, s := range all {
		c := Context{Addressed: true, Takes: takes}
		fmt.Println("==", s.ID)
		for _, turn := range s.Turns {
			r := Read(turn, c)
			out := []string{"UNKNOWN", "req", "ASK", "expl", "AID", "DECL", "SILENT"}[r.Outcome]
			fmt.Printf("  > %s\n      %s %s %s %s %v | %.90s\n", turn, out, r.Line(), r.Verdict, r.Topic, r.Changed, r.Ask+r.Text)
			c = c.After(r)
		}
	}
}
