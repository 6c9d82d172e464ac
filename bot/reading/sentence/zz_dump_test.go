package sentence

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"
)

func TestDump(t *testing.T) {
	path := os.Getenv("DUMP")
	if path == "" {
		t.Skip()
	}
	raw, _ := os.ReadFile(path)
	var all []struct{ Q, Expect string }
	json.Unmarshal(raw, &all)
	for i, s := range all {
		r := Read(s.Q, Context{Addressed: true, Takes: takes})
		out := []string{"UNKNOWN", "req", "ASK", "expl", "AID", "DECL", "SILENT"}[r.Outcome]
		fmt.Printf("%d [%s] %s\n    %s %s %s %s | %v | %.100s\n", i, s.Expect, s.Q, out, r.Line(), r.Verdict, r.Topic, r.Notes, r.Ask+r.Text)
	}
}
