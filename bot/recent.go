package bot

import (
	"context"
	"strconv"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
)

// Kept is an entry of the daybook, for a list to choose from.
type Kept struct {
	Entry    int64
	Headline string
}

// lookedThrough is how many of the latest entries are offered from.
const lookedThrough = 200

// Recent gives the latest answered entries that the asker may choose from, newest
// first: those of the channel for a teacher, and their own for anybody else. Only
// those count whose number begins with what was typed, or, where that is no
// number, whose headline has it.
func (s *Service) Recent(ctx context.Context, who catalogue.Who, typed string, most int) []Kept {
	if s.o.Book == nil {
		return nil
	}
	f := daybook.Filter{Platform: who.Platform, Guild: who.Guild, Channel: who.Channel, Status: daybook.Answered, Limit: lookedThrough}
	if !who.Teacher {
		f.Maker = who.Maker
	}
	entries, err := s.o.Book.List(ctx, f)
	if err != nil {
		s.o.Log.Warn("the latest entries could not be read", "platform", who.Platform, "error", err)
		return nil
	}
	typed = strings.ToLower(strings.TrimSpace(typed))
	_, notNumber := strconv.ParseUint(typed, 10, 64)
	var list []Kept
	for _, e := range entries {
		if len(list) == most {
			break
		}
		if strings.HasPrefix(strconv.FormatInt(e.ID, 10), typed) || notNumber != nil && strings.Contains(strings.ToLower(e.Headline), typed) {
			list = append(list, Kept{Entry: e.ID, Headline: e.Headline})
		}
	}
	return list
}
