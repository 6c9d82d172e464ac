package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	requirement = regexp.MustCompile(`(?m)^(?:require )?\s*(\S+) v\S+$`)
	reason      = regexp.MustCompile("(?m)^- `(\\S+)`: \\S.{9,}$")
)

func firstGroups(pattern *regexp.Regexp, text string) []string {
	var found []string
	for _, match := range pattern.FindAllStringSubmatch(text, -1) {
		found = append(found, match[1])
	}
	return found
}

// DEVELOPERS.md gives a reason, on one line, for each direct dependency of
// go.mod and for no other module. Indirect ones end in a comment, so requirement
// does not match them.
func TestEveryDependencyHasAReason(t *testing.T) {
	module, err := os.ReadFile(root + "/go.mod")
	require.NoError(t, err)
	guide, err := os.ReadFile(root + "/DEVELOPERS.md")
	require.NoError(t, err)
	_, list, found := strings.Cut(string(guide), "<!-- dependencies -->\n")
	list, _, ended := strings.Cut(list, "<!-- end of dependencies -->")
	require.True(t, found && ended, "DEVELOPERS.md lacks the marks of the list")

	direct := firstGroups(requirement, string(module))
	require.Contains(t, direct, "github.com/stretchr/testify", "go.mod is not understood")
	assert.ElementsMatch(t, direct, firstGroups(reason, list))
}

func TestRequirementsAndReasons(t *testing.T) {
	module := "module guildhand\n\ngo 1.26.0\n\nrequire one.org/a v1.0.0\n\nrequire (\n\ttwo.org/b/v2 v2.1.0\n\tthree.org/c v1.0.0 // indirect\n)\n"
	assert.Equal(t, []string{"one.org/a", "two.org/b/v2"}, firstGroups(requirement, module))
	list := "- `one.org/a`: does what we need\n- `two.org/b`:\n- `three.org/c`: it\n"
	assert.Equal(t, []string{"one.org/a"}, firstGroups(reason, list), "a line without a reason does not count")
}
