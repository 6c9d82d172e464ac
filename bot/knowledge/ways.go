package knowledge

import (
	"embed"
	"fmt"
	"strings"
	"sync"
)

// asked has a topic a line: its key, a tab, and ways to ask for it with bars
// between. They are in other words than the topic's own, so that a question is
// found whatever words somebody has for it.
//
//go:embed ways/*.txt
var asked embed.FS

var ways = sync.OnceValue(func() map[string][]string {
	all := map[string][]string{}
	files, err := asked.ReadDir("ways")
	if err != nil {
		panic(fmt.Sprintf("knowledge: %v", err)) // a bug of the build
	}
	for _, f := range files {
		raw, err := asked.ReadFile("ways/" + f.Name())
		if err != nil {
			panic(fmt.Sprintf("knowledge: %v", err))
		}
		for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
			key, questions, _ := strings.Cut(line, "\t")
			for _, q := range strings.Split(questions, "|") {
				all[key] = append(all[key], strings.TrimSpace(q))
			}
		}
	}
	return all
})

// Ways are other ways to ask for a topic, by its key; that of a trouble begins with
// "trouble: ".
func Ways(key string) []string { return ways()[key] }
