// Package cautions is what can hurt somebody at the bench, and first aid.
//
// Each hazard is one literal in hazards.go: what it is, who is hurt and how,
// what to do, where that comes from and when it applies. An answer gets those
// of its own work: For chooses by job, alloy, stone and piece. First aid is in
// firstaid.go. Every text has its source, and Sources lists them all.
//
// A text tells the reader what to do. It names the danger, never says that
// something is safe, and leaves equipment and limits to the documents that
// govern them.
package cautions

import (
	"slices"

	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

// Job is a job at the bench with its own hazards.
type Job string

// Jobs, in the order in which help lists them.
const (
	Soldering Job = "soldering"
	Annealing Job = "annealing"
	Pickle    Job = "pickle"
	Press     Job = "press"
	Hammer    Job = "hammer"
	Saw       Job = "saw"
	Drill     Job = "drill"
	Files     Job = "files"
	Polishing Job = "polishing"
	Casting   Job = "casting"
	Wax       Job = "wax"
	Chemicals Job = "chemicals"
	Stones    Job = "stones"
	Setting   Job = "setting"
	Class     Job = "class"
)

// Jobs lists every job that cautions are kept for.
func Jobs() []Job {
	return []Job{Soldering, Annealing, Pickle, Press, Hammer, Saw, Drill, Files, Polishing, Casting, Wax, Chemicals, Stones, Setting, Class}
}

// Deferral ends every full list of cautions: guildhand does not replace those
// who answer for a shop's safety.
const Deferral = "The makers' instructions, the safety data sheets, your local rules and people licensed for the work come before these notes."

// Practice is the source of what the trade does and nobody publishes.
const Practice = "common practice, no source"

// Caution is one hazard.
type Caution struct {
	// Key never changes: "closed-form".
	Key string
	// Hazard is what it is, and Harm who is hurt and how.
	Hazard, Harm string
	// Short is a whole sentence of at most 90 characters that says what to do.
	Short string
	// Full is the whole note.
	Full string
	// Source of what the texts say.
	Source string
	When   When
}

// When says what work a caution belongs to. Every condition that is given must
// hold.
type When struct {
	// Jobs of which one must be done.
	Jobs []Job
	// Alloy, if not nil, must accept the metal.
	Alloy func(stock.Alloy) bool
	// Stone, if not nil, must accept the stone, which must be known.
	Stone func(stone.Gem) bool
	// Closed is set for what concerns closed hollow forms alone.
	Closed bool
	// With is a second job that must be done too.
	With Job
}

// OfThisPiece reports whether a caution depends on the metal, the stone or the
// piece, and not on jobs alone.
func (c Caution) OfThisPiece() bool {
	return c.When.Alloy != nil || c.When.Stone != nil || c.When.Closed
}

// Work is what is done, to what.
type Work struct {
	Jobs []Job
	// Alloy is the metal; the zero value is an unknown one.
	Alloy stock.Alloy
	// Stone is the stone that the piece is for; nil if it is not known.
	Stone *stone.Gem
	// Closed is set where the piece becomes a closed hollow form.
	Closed bool
}

func (c Caution) applies(w Work) bool {
	switch {
	case !slices.ContainsFunc(c.When.Jobs, func(j Job) bool { return slices.Contains(w.Jobs, j) }),
		c.When.Alloy != nil && (w.Alloy.Key == "" || !c.When.Alloy(w.Alloy)),
		c.When.Stone != nil && (w.Stone == nil || !c.When.Stone(*w.Stone)),
		c.When.Closed && !w.Closed,
		c.When.With != "" && !slices.Contains(w.Jobs, c.When.With):
		return false
	}
	return true
}

// Applicable lists every caution of a piece of work, worst first.
func Applicable(w Work) []Caution {
	var list []Caution
	for _, c := range hazards {
		if c.applies(w) {
			list = append(list, c)
		}
	}
	return list
}

// MostShown is how many cautions an answer carries.
const MostShown = 3

// For chooses the cautions that an answer carries, worst first: the worst of
// all, those that depend on this metal, stone or piece, and then the worst of
// each job that has none yet.
func For(w Work) []Caution {
	all := Applicable(w)
	chosen, covered := map[string]bool{}, map[Job]bool{}
	choose := func(accept func(Caution) bool) {
		for _, c := range all {
			if len(chosen) == MostShown || chosen[c.Key] || !accept(c) {
				continue
			}
			chosen[c.Key] = true
			for _, j := range c.When.Jobs {
				covered[j] = true
			}
		}
	}
	choose(func(Caution) bool { return len(chosen) == 0 })
	choose(Caution.OfThisPiece)
	choose(func(c Caution) bool {
		return !slices.ContainsFunc(c.When.Jobs, func(j Job) bool { return covered[j] })
	})
	choose(func(Caution) bool { return true })
	return slices.DeleteFunc(all, func(c Caution) bool { return !chosen[c.Key] })
}

// Lines are the short sentences of For, as an answer carries them.
func Lines(w Work) []string {
	var lines []string
	for _, c := range For(w) {
		lines = append(lines, c.Short)
	}
	return lines
}

// InFull are the whole notes of short sentences; what is no caution's stays as it
// is.
func InFull(short []string) []string {
	full := slices.Clone(short)
	for i, line := range full {
		if k := slices.IndexFunc(hazards, func(c Caution) bool { return c.Short == line }); k >= 0 {
			full[i] = hazards[k].Full
		}
	}
	return full
}

// Told is what the steps so far have said.
type Told struct {
	keys map[string]bool
	jobs map[Job]bool
}

// AtStep chooses what is said in a step that does a job: in the first step of the
// job the worst of its own, and all that depends on this metal, stone or piece.
// Nothing is said twice.
func AtStep(job Job, w Work, told *Told) []Caution {
	if told.keys == nil {
		told.keys, told.jobs = map[string]bool{}, map[Job]bool{}
	}
	var chosen []Caution
	for _, c := range Applicable(w) {
		if told.keys[c.Key] || !slices.Contains(c.When.Jobs, job) {
			continue
		}
		special := c.OfThisPiece() || c.When.With != ""
		if !special && told.jobs[job] {
			continue
		}
		told.keys[c.Key] = true
		told.jobs[job] = told.jobs[job] || !special
		chosen = append(chosen, c)
	}
	return chosen
}

// OfJob lists every caution of a job, worst first, whatever the metal.
func OfJob(job Job) []Caution {
	var list []Caution
	for _, c := range hazards {
		if slices.Contains(c.When.Jobs, job) {
			list = append(list, c)
		}
	}
	return list
}

// All lists every caution, worst first.
func All() []Caution { return slices.Clone(hazards) }

// ByKey finds a caution.
func ByKey(key string) (Caution, bool) {
	for _, c := range hazards {
		if c.Key == key {
			return c, true
		}
	}
	return Caution{}, false
}
