// Package requests is the table of what guildhand answers: one file a request,
// one line a request in All.
package requests

import (
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/bench"
	daybookrequest "guildhand/bot/requests/daybook"
	"guildhand/bot/requests/kit"
)

// All lists every request in the order in which help shows them. What keeps or
// reads something does so in the book; where that is nil, such requests are
// described and can't be asked. A request is made by a function named after it,
// colletRequest, so that it does not clash with the calc package of the same
// word.
func All(book *daybook.Book) []catalogue.Spec {
	specs := []catalogue.Spec{
		colletRequest(),
		collarRequest(),
		bezelRequest(),
		traceRequest(book),
		prongsRequest(),
		matchRequest(),
		tuneRequest(book),
		bandRequest(),
		resizeRequest(),
		saddleRequest(),
		tubesetRequest(),
		haloRequest(),
		jumpringRequest(),
		domeRequest(),
		gaugeRequest(),
		weighRequest(),
		meltRequest(),
		heatRequest(),
		cautionsRequest(),
		troubleRequest(),
	}
	specs = append(specs, kit.Request(specs))
	// These describe the others.
	specs = append(specs, bench.Request(specs, book), stopRequest())
	specs = append(specs, daybookrequest.Request(specs, book))
	return append(specs, helpRequest(specs))
}
