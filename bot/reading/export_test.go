package reading

// For the tests that read the whole table of requests, which this package
// can't import.
var (
	CheckOutcome = checkOutcomeIn
	Mutate       = mutate
)
