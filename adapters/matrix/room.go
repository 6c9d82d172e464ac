package matrix

import (
	"context"
	"fmt"
	"slices"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// facts is what the adapter knows of a room beside members, power levels and
// encryption, which the library's state store keeps.
type facts struct {
	// guild is the id of the parent space, or of the room.
	guild string
	// channel is the room's id, or of the room that it is an upgrade of, so
	// that a channel's bench and daybook outlive an upgrade.
	channel string
	// named rooms are never direct chats, unless the invitation said so.
	named bool
	// direct is true where the invitation said so.
	direct bool
	// botName is the bot's display name in the room.
	botName string
	prefix  string
}

// know makes sure that the room's state has been read from the server in this
// run. Nothing of the stream is processed meanwhile, so that an older answer
// never overwrites what a later response brought.
func (a *Adapter) know(ctx context.Context, room id.RoomID) error {
	a.stateLock.Lock()
	defer a.stateLock.Unlock()
	if _, ok := a.factsOf(room); ok {
		return nil
	}
	defer a.sayIfLong("reading a room's state, and all that comes after it,", room)()
	state, err := persist(ctx, func(ctx context.Context) (mautrix.RoomStateMap, error) {
		return a.cli.State(ctx, room)
	})
	if err != nil {
		return err
	}
	if _, ok := state[event.StateEncryption][""]; ok {
		if err := a.store.markEncrypted(ctx, room); err != nil {
			return err
		}
	}
	record, err := a.store.room(ctx, room)
	if err != nil {
		return err
	}
	f := facts{channel: string(room), direct: record.direct, prefix: a.cfg.Prefix}
	if record.origin != "" {
		f.channel = string(record.origin)
	}
	for _, r := range []id.RoomID{record.origin, room} {
		if p, ok := a.cfg.Prefixes[string(r)]; ok && p != "" {
			f.prefix = p
		}
	}
	f.guild = f.channel
	if space, ok := a.parentSpace(ctx, room, state); ok {
		f.guild = string(space)
	}
	if evt, ok := state[event.StateRoomName][""]; ok && evt.Content.AsRoomName().Name != "" {
		f.named = true
	}
	if evt, ok := state[event.StateCanonicalAlias][""]; ok && evt.Content.AsCanonicalAlias().Alias != "" {
		f.named = true
	}
	if evt, ok := state[event.StateMember][string(a.cli.UserID)]; ok {
		f.botName = evt.Content.AsMember().Displayname
	}
	a.factsLock.Lock()
	defer a.factsLock.Unlock()
	a.facts[room] = f
	return nil
}

func (a *Adapter) factsOf(room id.RoomID) (facts, bool) {
	a.factsLock.Lock()
	defer a.factsLock.Unlock()
	f, ok := a.facts[room]
	return f, ok
}

// forget makes the next know read the room's state again.
func (a *Adapter) forget(room id.RoomID) {
	a.factsLock.Lock()
	defer a.factsLock.Unlock()
	delete(a.facts, room)
}

// parentSpace finds the space that the room belongs to. A room can name any
// space as its parent, so only a space counts that names the room as its child;
// the bot must be able to see that.
func (a *Adapter) parentSpace(ctx context.Context, room id.RoomID, state mautrix.RoomStateMap) (id.RoomID, bool) {
	var spaces []id.RoomID
	canonical := map[id.RoomID]bool{}
	for key, evt := range state[event.StateSpaceParent] {
		parent := evt.Content.AsSpaceParent()
		if len(parent.Via) == 0 {
			continue
		}
		spaces = append(spaces, id.RoomID(key))
		canonical[id.RoomID(key)] = parent.Canonical
	}
	slices.SortFunc(spaces, func(x, y id.RoomID) int {
		if canonical[x] != canonical[y] {
			if canonical[x] {
				return -1
			}
			return 1
		}
		return slices.Compare([]byte(x), []byte(y))
	})
	for _, space := range spaces {
		child, err := persist(ctx, func(ctx context.Context) (event.SpaceChildEventContent, error) {
			var c event.SpaceChildEventContent
			return c, a.cli.StateEvent(ctx, space, event.StateSpaceChild, string(room), &c)
		})
		if err == nil && len(child.Via) > 0 {
			return space, true
		}
	}
	return "", false
}

// isDirect reports whether the room is a direct chat with the bot: two people in
// it, and either the invitation said so or the room has no name.
func (a *Adapter) isDirect(ctx context.Context, room id.RoomID, f facts) (bool, error) {
	if f.named && !f.direct {
		return false, nil
	}
	members, err := a.cli.StateStore.GetRoomJoinedOrInvitedMembers(ctx, room)
	if err != nil {
		return false, err
	}
	return len(members) == 2, nil
}

// isTeacher reports whether the room's power levels make user a teacher.
func (a *Adapter) isTeacher(ctx context.Context, room id.RoomID, user id.UserID) (bool, error) {
	levels, err := a.cli.StateStore.GetPowerLevels(ctx, room)
	if err != nil || levels == nil {
		return false, err
	}
	return levels.GetUserLevel(user) >= a.cfg.TeacherPower, nil
}

// encryptedNow reports whether what is sent to the room must be encrypted. For
// a room that is not known to be encrypted it asks the server each time: the
// stream may be behind a change made this very moment.
func (a *Adapter) encryptedNow(ctx context.Context, room id.RoomID) (bool, error) {
	record, err := a.store.room(ctx, room)
	if err != nil {
		return false, fmt.Errorf("is the room encrypted: %w", err)
	}
	if record.encrypted {
		return true, nil
	}
	var content event.EncryptionEventContent
	err = a.cli.StateEvent(ctx, room, event.StateEncryption, "", &content)
	if notFound(err) {
		return false, nil
	}
	if err != nil {
		return false, fmt.Errorf("is the room encrypted: %w", err)
	}
	return true, a.store.markEncrypted(ctx, room)
}
