package bot

import (
	"context"
	"time"

	"guildhand/bot/daybook"
	"guildhand/bot/reading/sentence"
)

// aidTopic is first aid as the latest topic of a room. It holds which, when and
// for whom, and none of the words; it lives in memory alone, because nothing of a
// hurt is written down.
type aidTopic struct {
	job   string
	asker string
	at    time.Time
	// elsewhere are makers of the room who have asked something new since.
	elsewhere map[string]bool
}

func roomOf(req Request) daybook.Room {
	return daybook.Room{Platform: req.Who.Platform, Guild: req.Who.Guild, Channel: req.Who.Channel}
}

// aidIn is the first aid that a request may go on from, and whether it was given
// to another maker.
func (s *Service) aidIn(req Request) (job string, ofAnother bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	topic, ok := s.aids[roomOf(req)]
	if !ok || topic.elsewhere[req.Who.Maker] || s.o.Clock().Sub(topic.at) > memory {
		return "", false
	}
	return topic.job, topic.asker != req.Who.Maker
}

// noteAid keeps first aid as its room's topic, and ends it for a maker who asked
// something new.
func (s *Service) noteAid(req Request, out outcome) {
	s.mu.Lock()
	defer s.mu.Unlock()
	room := roomOf(req)
	topic, ok := s.aids[room]
	switch {
	case out.silent, !out.aid && !ok:
	case out.aid:
		for other, old := range s.aids {
			if s.o.Clock().Sub(old.at) > memory {
				delete(s.aids, other)
			}
		}
		if !ok || topic.elsewhere[req.Who.Maker] {
			topic = aidTopic{asker: req.Who.Maker, elsewhere: map[string]bool{}}
		}
		topic.job, topic.at = out.parsed.Args.Word("job"), s.o.Clock()
		s.aids[room] = topic
	case topic.asker == req.Who.Maker:
		delete(s.aids, room)
	default:
		topic.elsewhere[req.Who.Maker] = true
	}
}

// hurt reads a message of somebody who is hurt, or who goes on from first aid.
func (s *Service) hurt(ctx context.Context, req Request) (sentence.Reading, bool) {
	job, ofAnother := s.aidIn(req)
	if job == "" || req.About != 0 || s.repliesToPiece(ctx, req) {
		return sentence.FirstAidFor(req.Text)
	}
	c := s.readingContext(ctx, req)
	c.Aid, c.AidOfAnother = job, ofAnother || req.Addressed == Prefixed
	read := sentence.Read(req.Text, c)
	return read, read.Outcome == sentence.FirstAid
}

// Hurt reports whether a request tells of a hurt, or goes on from first aid: its
// words are then written down nowhere.
func (s *Service) Hurt(ctx context.Context, req Request) bool {
	_, hurt := s.hurt(ctx, req)
	return hurt
}

// repliesToPiece reports whether a message replies to an answer that is kept, which
// first aid never is.
func (s *Service) repliesToPiece(ctx context.Context, req Request) bool {
	if req.ReplyTo == "" || s.o.Book == nil {
		return false
	}
	_, err := s.o.Book.ByDelivered(ctx, roomOf(req), req.ReplyTo)
	return err == nil
}
