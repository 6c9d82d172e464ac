// Package requests is the table of what guildhand answers: one file a request,
// one line a request in All.
package requests

import "guildhand/bot/catalogue"

// All lists every request in the order in which help shows them. A request is
// made by a function named after it, colletRequest, so that it does not clash
// with the calc package of the same word.
func All() []catalogue.Spec {
	specs := []catalogue.Spec{
		colletRequest(),
		collarRequest(),
		bezelRequest(),
		prongsRequest(),
		matchRequest(),
		tuneRequest(),
		bandRequest(),
		domeRequest(),
		gaugeRequest(),
		weighRequest(),
		meltRequest(),
		heatRequest(),
		cautionsRequest(),
	}
	specs = append(specs, kitRequest(specs))
	// These describe the others.
	specs = append(specs, benchRequest(specs), stopRequest())
	specs = append(specs, daybookRequest(specs))
	return append(specs, helpRequest(specs))
}
