package sentence

// A maker often tells of a piece in several messages: "cone for an oval, please",
// "9 by 7", "silver, 0.9". What was said before a piece was whole is read together
// with what comes next, where that alone says too little.

// longestSaid bounds what is kept of a piece's story, in bytes.
const longestSaid = 160

// Joined is what a maker has said of one piece: what was said before, and a message
// that goes on from it. A message that is a question by itself begins anew.
func Joined(said, typed string) string {
	if said == "" || !newMessage(typed).addsToStory() {
		return typed
	}
	return joined(said, typed)
}

func joined(said, typed string) string {
	if len(said)+len(typed) > longestSaid {
		return typed
	}
	return said + ", " + typed
}

// fewWords is how many words a message has at most that adds to a piece's story.
const fewWords = 12

// addsToStory reports whether a message can be a part of what was begun before: it is
// short, brings something, and asks no question of its own.
func (m *message) addsToStory() bool {
	if m.words() > fewWords || m.has("thanks", "greeting") || m.startsWith("why", "what", "whats", "how", "where", "who", "when", "is", "are", "can", "could", "do", "does", "should", "would", "will", "which") {
		return false
	}
	if m.says("how", "what", "whats", "why", "which") || m.cues["daybook"] > 0 {
		return false
	}
	return len(m.found)+len(m.alloys)+len(m.senses) > 0
}

// together reads what was said before and this message as one, where that is better
// than what the message alone came to.
func (m *message) together(alone Reading) (Reading, bool) {
	if m.context.Said == "" || !m.mayBeBetterTogether(alone) || !m.addsToStory() {
		return Reading{}, false
	}
	story := joined(m.context.Said, m.typed)
	if story == m.typed {
		return Reading{}, false
	}
	anew := Context{Addressed: m.context.Addressed, Takes: m.context.Takes, ofPiece: true}
	anew.memory = m.memory.ofStory(story)
	both := m.undoubted(Read(story, anew))
	bare := alone.Outcome == Unknown || alone.Outcome == Request && alone.Request == "gauge"
	if both.Request == "" && bare && m.context.Last == nil {
		both = jobOf(story, anew) // what was asked in words goes on as a piece
	}
	if both.Request == "" || both.Outcome != Request && both.Outcome != Question || newMessage(m.context.Said).cues["daybook"] > 0 || both.Request == "help" || both.Request == "gauge" || both.Request == "daybook" || both.Request == "bench" || both.Request == "stop" {
		return Reading{}, false
	}
	if !m.betterTogether(alone, both) {
		return Reading{}, false
	}
	anew.memory = m.memory
	if fresh := Read(m.typed, anew); fresh.Request == both.Request && len(fresh.Options) >= len(both.Options) {
		return Reading{}, false // what was said before adds nothing
	}
	return both, true
}

// undoubted is a piece that was doubted as it was read of a whole story, where what was said
// last can hardly mean anything else.
func (m *message) undoubted(r Reading) Reading {
	piece, ok := m.pieceInTalk()
	sure := Reading{Outcome: Request, Request: r.Request, Options: r.Options, Notes: r.Notes}
	if ok && r.Doubted && m.plainlySaid(piece, sure) {
		return sure
	}
	return r
}

// mayBeBetterTogether reports whether any joined reading can be better than that of the
// message alone, before one is read.
func (m *message) mayBeBetterTogether(alone Reading) bool {
	switch alone.Outcome {
	case Unknown, Question:
		return true
	case Request:
		return m.context.Asked != nil || m.context.Last == nil || alone.Request == "gauge"
	}
	return false
}

// betterTogether reports whether the joined reading is to be taken.
func (m *message) betterTogether(alone, both Reading) bool {
	asked := m.context.Asked
	if asked != nil && asked.Request == both.Request && !holdsAll(both.Options, asked.Options) {
		return false // what was clear is not read anew
	}
	switch alone.Outcome {
	case Unknown:
		return asked != nil || both.Outcome == Question || len(both.Options) > 2
	case Question:
		return both.Outcome == Request || both.Unplaced == "" && len(both.Options) > len(alone.Options)
	case Request:
		if both.Outcome != Request {
			return alone.Request == "gauge" && asked == nil && len(both.Options) > 1
		}
		if asked == nil || asked.Request == "" {
			ofOne := both.Request == alone.Request && len(both.Options) > len(alone.Options) && holdsAll(both.Options, alone.Options)
			return m.context.Last == nil && (ofOne || asked == nil && alone.Request == "gauge" && both.Request != "gauge")
		}
		if both.Request != asked.Request {
			return false
		}
		return alone.Request != asked.Request || len(both.Options) > len(alone.Options) && holdsAll(both.Options, alone.Options)
	}
	return false
}

// holdsAll reports whether one set of options has all of another, with their values.
func holdsAll(all, some map[string]string) bool {
	for name, v := range some {
		if all[name] != v {
			return false
		}
	}
	return true
}

// jobOf is the request that a story works out, whatever it may ask to know.
func jobOf(story string, c Context) Reading {
	m := newMessage(story)
	m.context = c
	m.bindRoles()
	if r, ok := m.namedJob(); ok && (r.Outcome == Request || r.Outcome == Question) && len(r.Options) > 0 {
		return r
	}
	return Reading{}
}
