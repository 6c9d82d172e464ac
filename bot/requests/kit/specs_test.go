package kit_test

import (
	"guildhand/bot/catalogue"
	"guildhand/bot/requests"
	"guildhand/bot/requests/kit"
)

func init() {
	kit.Specs = func() []catalogue.Spec { return requests.All(nil) }
}
