package requests

import (
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

// making collects the steps of a piece and the jobs that they do. From the jobs,
// the metal, the stone and the piece follow the cautions: each in the first step
// where the harm would happen, the worst of them on the answer.
type making struct {
	alloy  stock.Alloy
	gem    *stone.Gem
	closed bool
	steps  []makingStep
}

type makingStep struct {
	text string
	jobs []cautions.Job
}

// makingOf begins a piece of an alloy, with the stone of the call's option gem
// where there is one.
func makingOf(c *catalogue.Call, alloy stock.Alloy) *making {
	m := &making{alloy: alloy}
	for _, option := range []string{"gem", "stone"} {
		if gem, ok := stone.GemByKey(c.Word(option)); ok {
			m.gem = &gem
		}
	}
	return m
}

// add adds a step in which nobody is hurt.
func (m *making) add(format string, args ...any) { m.do(nil, format, args...) }

// do adds a step that does jobs.
func (m *making) do(jobs []cautions.Job, format string, args ...any) {
	m.steps = append(m.steps, makingStep{fmt.Sprintf(format, args...), jobs})
}

// work is what all steps do together.
func (m *making) work() cautions.Work {
	w := cautions.Work{Alloy: m.alloy, Stone: m.gem, Closed: m.closed}
	for _, s := range m.steps {
		for _, j := range s.jobs {
			if !slices.Contains(w.Jobs, j) {
				w.Jobs = append(w.Jobs, j)
			}
		}
	}
	return w
}

// finish puts steps, jobs and cautions into the answer.
func (m *making) finish(a *answer.Answer) {
	w := m.work()
	a.Cautions = cautions.Lines(w)
	a.Jobs = nil
	for _, j := range w.Jobs {
		a.Jobs = append(a.Jobs, string(j))
	}
	var told cautions.Told
	for _, s := range m.steps {
		text := s.text
		for _, j := range s.jobs {
			for _, c := range cautions.AtStep(j, w, &told) {
				text = strings.TrimSuffix(text, ".") + ". " + c.Short
			}
		}
		a.Steps = append(a.Steps, text)
	}
}

// cautionOf is the short sentence of a caution, for the step that it belongs to.
func cautionOf(key string) string {
	c, _ := cautions.ByKey(key)
	return c.Short
}

// does makes an answer's cautions of jobs alone, where the steps do not say when
// they are done.
func does(a *answer.Answer, c *catalogue.Call, alloy stock.Alloy, jobs ...cautions.Job) {
	m := makingOf(c, alloy)
	w := cautions.Work{Jobs: jobs, Alloy: alloy, Stone: m.gem}
	a.Cautions = cautions.Lines(w)
	a.Jobs = nil
	for _, j := range jobs {
		a.Jobs = append(a.Jobs, string(j))
	}
}
