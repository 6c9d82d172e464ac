package kit

import "guildhand/bot/catalogue"

// Specs is the whole table of requests, which this package can't import: the
// external tests set it.
var Specs func() []catalogue.Spec
