package matrix

import (
	"context"
	"slices"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// followRooms acts on what a response says of rooms themselves: invitations,
// upgrades, people leaving, encryption turned on. What takes the server's help
// runs beside the stream and keeps the batch open.
func (a *Adapter) followRooms(ctx context.Context, res *mautrix.RespSync, b *batch) error {
	beside := func(do func(context.Context)) {
		a.inbox.hold(b)
		a.inbox.workers.Go(func() {
			do(a.inbox.stream)
			if a.inbox.stream.Err() == nil {
				a.inbox.release(b)
			}
		})
	}
	for room, invited := range res.Rooms.Invite {
		state := invited.BestState()
		beside(func(ctx context.Context) { a.considerInvitation(ctx, room, state) })
	}
	for room := range res.Rooms.Leave {
		a.forget(room)
	}
	for room, r := range res.Rooms.Join {
		someoneLeft := false
		for _, evt := range slices.Concat(r.State.Events, r.Timeline.Events) {
			if evt.StateKey == nil {
				continue
			}
			switch evt.Type {
			case event.StateEncryption:
				if err := a.store.markEncrypted(ctx, room); err != nil {
					return err
				}
			case event.StateSpaceParent, event.StateRoomName, event.StateCanonicalAlias:
				a.forget(room)
			case event.StateTombstone:
				tombstone, ok := evt.Content.Parsed.(*event.TombstoneEventContent)
				if ok && tombstone.ReplacementRoom != "" {
					sender := evt.Sender
					beside(func(ctx context.Context) { a.followUpgrade(ctx, room, tombstone.ReplacementRoom, sender) })
				}
			case event.StateMember:
				if id.UserID(*evt.StateKey) == a.cli.UserID {
					a.forget(room)
					continue
				}
				m := evt.Content.AsMember().Membership
				someoneLeft = someoneLeft || m == event.MembershipLeave || m == event.MembershipBan
			}
		}
		if someoneLeft {
			beside(func(ctx context.Context) { a.leaveIfAlone(ctx, room) })
		}
	}
	return nil
}

// considerInvitation joins the room or declines, by the rule of the
// configuration.
func (a *Adapter) considerInvitation(ctx context.Context, room id.RoomID, state []*event.Event) {
	var inviter id.UserID
	var direct, encrypted bool
	for _, evt := range state {
		switch evt.Type.Type {
		case event.StateMember.Type:
			if evt.GetStateKey() == string(a.cli.UserID) && membership(&evt.Content) == event.MembershipInvite {
				inviter = evt.Sender
				direct, _ = evt.Content.Raw["is_direct"].(bool)
			}
		case event.StateEncryption.Type:
			encrypted = true
		}
	}
	log := a.log.With("room", room, "inviter", inviter)
	switch {
	case !a.cfg.Allow.allows(inviter, room):
		log.Info("invitation declined: neither server, user nor room is allowed")
		a.leave(ctx, room, "invitations from here are not accepted")
		return
	case encrypted && a.crypto == nil:
		log.Info("invitation declined: the room is encrypted and this bot has no encryption")
		a.leave(ctx, room, "this bot runs without encryption")
		return
	}
	if direct {
		if err := a.store.markDirect(ctx, room); err != nil {
			log.Error("direct chat not noted", "err", err)
		}
	}
	if a.join(ctx, room, inviter.Homeserver()) {
		log.Info("joined")
	}
}

func (a *Adapter) join(ctx context.Context, room id.RoomID, via string) bool {
	_, err := persist(ctx, func(ctx context.Context) (*mautrix.RespJoinRoom, error) {
		return a.cli.JoinRoom(ctx, string(room), &mautrix.ReqJoinRoom{Via: []string{via}})
	})
	if err != nil && ctx.Err() == nil {
		a.log.Warn("room not joined", "room", room, "err", err)
	}
	return err == nil
}

func (a *Adapter) leave(ctx context.Context, room id.RoomID, reason string) {
	_, err := persist(ctx, func(ctx context.Context) (*mautrix.RespLeaveRoom, error) {
		return a.cli.LeaveRoom(ctx, room, &mautrix.ReqLeave{Reason: reason})
	})
	if err != nil && ctx.Err() == nil {
		a.log.Warn("room not left", "room", room, "err", err)
	}
}

// followUpgrade joins the room that replaces old, if that room agrees that it
// does, and keeps what belongs to the line of rooms.
func (a *Adapter) followUpgrade(ctx context.Context, old, replacement id.RoomID, by id.UserID) {
	log := a.log.With("room", old, "replacement", replacement)
	record, err := a.store.room(ctx, old)
	if err != nil {
		log.Error("upgraded room not looked up", "err", err)
		return
	}
	origin := record.origin
	if origin == "" {
		origin = old
	}
	if !a.join(ctx, replacement, by.Homeserver()) {
		return
	}
	create, err := persist(ctx, func(ctx context.Context) (event.CreateEventContent, error) {
		var c event.CreateEventContent
		return c, a.cli.StateEvent(ctx, replacement, event.StateCreate, "", &c)
	})
	if err != nil || create.Predecessor == nil || create.Predecessor.RoomID != old {
		if ctx.Err() == nil {
			log.Warn("replacement room does not name the old one, left", "err", err)
			a.leave(ctx, replacement, "this room is not the upgrade that it was said to be")
		}
		return
	}
	if err := a.store.markOrigin(ctx, replacement, origin, record.direct); err != nil {
		log.Error("upgraded room not noted", "err", err)
		return
	}
	a.forget(replacement)
	log.Info("followed the room's upgrade")
}

// leaveIfAlone leaves a room in which nobody else is, or is invited.
func (a *Adapter) leaveIfAlone(ctx context.Context, room id.RoomID) {
	members, err := persist(ctx, func(ctx context.Context) (*mautrix.RespMembers, error) {
		return a.cli.Members(ctx, room)
	})
	if err != nil {
		if ctx.Err() == nil {
			a.log.Warn("members not read", "room", room, "err", err)
		}
		return
	}
	for _, evt := range members.Chunk {
		m := membership(&evt.Content)
		if evt.GetStateKey() != string(a.cli.UserID) && (m == event.MembershipJoin || m == event.MembershipInvite) {
			return
		}
	}
	a.leave(ctx, room, "nobody else is here")
	a.log.Info("left a room where nobody else was", "room", room)
}
