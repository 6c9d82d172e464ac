package knowledge

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWaysBelongToTopics(t *testing.T) {
	topics := map[string]bool{}
	for _, f := range Facts() {
		topics[f.Key] = true
	}
	for _, s := range Troubles() {
		topics["trouble: "+s.Key] = true
	}
	assert.NotEmpty(t, ways())
	for key, questions := range ways() {
		assert.True(t, topics[key], key)
		assert.NotEmpty(t, questions, key)
	}
}
