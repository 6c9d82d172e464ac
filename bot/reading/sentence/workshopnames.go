package sentence

import (
	"regexp"
	"slices"
	"strings"

	"guildhand/calc/stock"
)

// A block and a tube of the workshop are called by their names, which have hyphens:
// "block demo-oval", "copper-tube-10x1". Such a name is no stone's size or outline.

var (
	tubeNamed = regexp.MustCompile(`\b(?:[a-z]+-)*tube-(\d+(?:\.\d+)?x\d+(?:\.\d+)?)\b`)
	// blockBehind is a name that has a hyphen behind the word of a block.
	blockBehind = regexp.MustCompile(`\b(?:block|die|plate) ([a-z]+(?:-[a-z0-9]+)+)\b`)
	blockNames  = func() (all []string) {
		for _, b := range stock.DemoWorkshop().Blocks {
			all = append(all, b.Name)
		}
		slices.SortFunc(all, func(a, b string) int { return len(b) - len(a) })
		return all
	}()
)

// blockNamed is the block that a message names, empty for none.
func (m *message) blockNamed() string {
	typed := strings.ToLower(m.typed)
	for _, name := range blockNames {
		if strings.Contains(typed, name) {
			return name
		}
	}
	if found := blockBehind.FindStringSubmatch(typed); found != nil && !strings.HasSuffix(found[1], "-in") {
		return found[1]
	}
	return ""
}

// namedBlock counts the name of a block for the piece that is made in one.
func (m *message) namedBlock() {
	if slices.ContainsFunc(blockNames, func(name string) bool { return strings.Contains(strings.ToLower(m.typed), name) }) && !m.has("whichstone") && len(m.found) > 0 {
		m.cues["collar"] += 3
	}
}

// workshopNames takes the block and the tube by their names.
func (d *draft) workshopNames() {
	m := d.m
	if name := m.blockNamed(); name != "" && m.context.takes(d.request, "block") {
		d.say("block", name)
	}
	named := tubeNamed.FindStringSubmatch(strings.ToLower(m.typed))
	if named == nil || !m.context.takes(d.request, "tube") {
		return
	}
	for _, q := range m.found {
		if q.measure == size && !q.used && m.at(q.first-1).text == "-" && m.at(q.first-2).text == "tube" && q.typed(m) == named[1] {
			q.used = true
			d.say("tube", named[0])
			return
		}
	}
}
