package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// matchLines are one of each kind of stock.
var matchLines = []string{
	"match strip 28x6 20ga sterling no bench",
	"match strip 28x6 20ga sterling lean 20 no bench",
	"match strip 60x12 20ga sterling no bench",
	"match offcut 60x30 22ga sterling no bench",
	"match tube tube-10x1 no bench",
	"match hole 10.5x8.5 oval 20ga no bench",
	"match block demo-pear 0.8mm no bench",
}

// BenchmarkMatch answers each: go test -tags goolm -bench Match -run '^$' ./bot/requests
func BenchmarkMatch(b *testing.B) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for _, line := range matchLines {
		b.Run(line, func(b *testing.B) {
			for b.Loop() {
				call, err := requeststest.CallOf(specs, shop, line)
				require.NoError(b, err)
				_, err = call.Answer(b.Context())
				require.NoError(b, err)
			}
		})
	}
}
