package bot

import (
	"context"

	"guildhand/bot/catalogue"
)

// Newcomer reports whether the daybook has nothing of this maker yet. Where it
// can't tell, it says no: what a newcomer is told can wait.
func (s *Service) Newcomer(ctx context.Context, who catalogue.Who) bool {
	if s.o.Book == nil || who.Maker == "" {
		return false
	}
	asked, err := s.o.Book.HasAsked(ctx, who.Platform, who.Maker)
	if err != nil {
		s.o.Log.Warn("a maker's entries could not be looked for", "platform", who.Platform, "error", err)
	}
	return err == nil && !asked
}
