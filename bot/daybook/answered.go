package daybook

import "context"

// ByDelivered finds the entry whose answer has this platform's id in a room, the
// latest where there are several. It looks through the room's latest entries
// alone: what is replied to is mostly near. ErrNotFound if none has it.
func (b *Book) ByDelivered(ctx context.Context, room Room, delivered string) (Entry, error) {
	if delivered == "" {
		return Entry{}, ErrNotFound
	}
	entries, err := b.List(ctx, Filter{Platform: room.Platform, Guild: room.Guild, Channel: room.Channel, Limit: lookedBack})
	if err != nil {
		return Entry{}, err
	}
	for _, e := range entries {
		if e.Delivered == delivered {
			return e, nil
		}
	}
	return Entry{}, ErrNotFound
}

// lookedBack is how many entries of a room ByDelivered looks through.
const lookedBack = 500
