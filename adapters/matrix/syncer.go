package matrix

import (
	"context"
	"errors"
	"time"

	"guildhand/bot/delivery"

	"github.com/cenkalti/backoff/v5"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// syncer takes the responses of the event stream. It embeds the library's, so
// that keys and room state are processed as usual, and takes the messages out
// for the inbox.
type syncer struct {
	*mautrix.DefaultSyncer
	a    *Adapter
	wait *backoff.ExponentialBackOff
	// live is set while the stream holds: what comes was said just now, and did
	// not wait for the bot.
	live bool
}

func newSyncer(a *Adapter) *syncer {
	s := &syncer{DefaultSyncer: mautrix.NewDefaultSyncer(), a: a, wait: delivery.Backoff(longestWait)}
	nothing := &mautrix.FilterPart{NotTypes: []event.Type{{Type: "*"}}}
	s.FilterJSON = &mautrix.Filter{
		Presence: nothing,
		Room: &mautrix.RoomFilter{
			Ephemeral: nothing,
			Timeline:  &mautrix.FilterPart{Limit: a.timelineLimit},
		},
	}
	return s
}

// ProcessResponse hands on what one response brings. It returns before the
// messages are handled; the inbox keeps the position when they are.
func (s *syncer) ProcessResponse(ctx context.Context, res *mautrix.RespSync, since string) error {
	s.wait.Reset()
	a := s.a
	a.connected.Store(true)
	if bringsState(res) && !a.awaitStore(ctx) && ctx.Err() != nil {
		return ctx.Err()
	}
	batch := a.inbox.begin(res.NextBatch, s.live)
	s.live = true
	if batch == nil {
		return ctx.Err()
	}
	messages := map[id.RoomID][]*event.Event{}
	for room, r := range res.Rooms.Join {
		events, err := a.unread(ctx, room, r, since)
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil:
			a.log.Warn("room's events could not be read", "room", room, "err", err)
		}
		messages[room] = onlyMessages(events)
		r.Timeline.Events = onlyState(r.Timeline.Events)
	}

	// Keys, devices and room state first: the messages need them.
	a.stateLock.Lock()
	err := s.DefaultSyncer.ProcessResponse(ctx, res, since)
	a.stateLock.Unlock()
	if err != nil {
		// A state event that breaks the library must not end the bot: the same
		// event would come again after each restart.
		a.log.Error("response of the event stream not wholly processed", "err", err)
	}
	if err := a.followRooms(ctx, res, batch); err != nil {
		return err
	}

	for room, events := range messages {
		if len(events) == 0 {
			continue
		}
		switch err := a.know(ctx, room); {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil:
			a.log.Warn("room's state could not be read, its messages are left", "room", room, "events", len(events), "err", err)
			continue
		}
		for _, evt := range events {
			evt.RoomID = room
			a.inbox.add(batch, evt)
		}
	}
	a.inbox.seal(batch)
	return nil
}

// bringsState reports whether a response has what the server gives but once and
// the store must not miss: keys, devices, and who is in a room. The stream
// stands still while the store can't take it; what people say is handed on, and
// they are told that nothing can be recorded.
func bringsState(res *mautrix.RespSync) bool {
	if len(res.ToDevice.Events)+len(res.DeviceLists.Changed)+len(res.DeviceLists.Left) > 0 ||
		len(res.Rooms.Invite)+len(res.Rooms.Leave) > 0 {
		return true
	}
	for _, r := range res.Rooms.Join {
		if len(r.State.Events)+len(onlyState(r.Timeline.Events)) > 0 {
			return true
		}
	}
	return false
}

// OnFailedSync gives the wait before the next try. Only a session that the
// server no longer knows ends the stream.
func (s *syncer) OnFailedSync(_ *mautrix.RespSync, err error) (time.Duration, error) {
	s.a.connected.Store(false)
	s.live = false
	if errors.Is(err, mautrix.MUnknownToken) {
		return 0, err
	}
	wait := s.wait.NextBackOff()
	if _, asked := judge(err); asked > wait {
		wait = asked
	}
	s.a.log.Warn("event stream broken, will try again", "wait", wait.Round(time.Millisecond), "err", err)
	return wait, nil
}

func onlyMessages(events []*event.Event) []*event.Event {
	var out []*event.Event
	for _, evt := range events {
		if evt.StateKey == nil {
			out = append(out, evt)
		}
	}
	return out
}

func onlyState(events []*event.Event) []*event.Event {
	var out []*event.Event
	for _, evt := range events {
		if evt.StateKey != nil {
			out = append(out, evt)
		}
	}
	return out
}
