package matrix

import (
	"context"
	"slices"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

const (
	// timelineLimit is how many events of a room one response brings.
	timelineLimit = 50
	// pageSize is how many events one page of older ones brings.
	pageSize = 100
	// mostPages bounds what is read of a room that was very busy meanwhile.
	mostPages = 200
)

// unread gives the events of a room that are to be handled, oldest first: those
// since the last position and since the bot joined. Where the response was cut
// short it reads the rest from the server; with an error it gives what it has.
func (a *Adapter) unread(ctx context.Context, room id.RoomID, r *mautrix.SyncJoinedRoom, since string) ([]*event.Event, error) {
	events := r.Timeline.Events
	if since == "" {
		// The session's first response: everything in it is history, also what
		// came after joining. Another session may have answered it.
		return nil, nil
	}
	if i := a.ownJoin(events); i >= 0 {
		return events[i+1:], nil
	}
	if !r.Timeline.Limited || r.Timeline.PrevBatch == "" {
		return events, nil
	}
	older, err := a.pageBack(ctx, room, r.Timeline.PrevBatch, since)
	return append(older, events...), err
}

// pageBack reads the events between two positions, oldest first, and stops at
// the bot's own joining and at what is too old to be answered.
func (a *Adapter) pageBack(ctx context.Context, room id.RoomID, from, until string) ([]*event.Event, error) {
	var events []*event.Event // newest first
	oldest := time.Now().Add(-a.cfg.FreshFor).UnixMilli()
	for range mostPages {
		page, err := persist(ctx, func(ctx context.Context) (*mautrix.RespMessages, error) {
			return a.cli.Messages(ctx, room, from, until, mautrix.DirectionBackward, nil, pageSize)
		})
		if err != nil {
			return nil, err
		}
		for _, evt := range page.Chunk {
			if a.isOwnJoin(evt) || evt.Timestamp < oldest {
				slices.Reverse(events)
				return events, nil
			}
			events = append(events, evt)
		}
		if len(page.Chunk) == 0 || page.End == "" || page.End == from || page.End == until {
			slices.Reverse(events)
			return events, nil
		}
		from = page.End
	}
	a.log.Warn("room had more events than are read back", "room", room, "events", len(events))
	slices.Reverse(events)
	return events, nil
}

// ownJoin gives the place of the bot's last joining, or -1.
func (a *Adapter) ownJoin(events []*event.Event) int {
	for i, evt := range slices.Backward(events) {
		if a.isOwnJoin(evt) {
			return i
		}
	}
	return -1
}

// isOwnJoin reports whether the bot enters the room with evt. A change of its
// own name or picture looks alike but for the state before.
func (a *Adapter) isOwnJoin(evt *event.Event) bool {
	if evt.Type.Type != event.StateMember.Type || evt.StateKey == nil || id.UserID(*evt.StateKey) != a.cli.UserID {
		return false
	}
	if membership(&evt.Content) != event.MembershipJoin {
		return false
	}
	return evt.Unsigned.PrevContent == nil || membership(evt.Unsigned.PrevContent) != event.MembershipJoin
}

// membership reads a member event that may not be parsed yet.
func membership(c *event.Content) event.Membership {
	m, _ := c.Raw["membership"].(string)
	return event.Membership(m)
}
