package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEndOfATrialThatIsOff(t *testing.T) {
	for say, told := range map[string]string{
		"trial collet 8mm round: rim is right but the base is 0.3 too small": "base was off by 0.30 mm",
		"the base came out 0.2 too wide, rim spot on":                        "base was off by 0.20 mm",
		"trial cone, base is fine, the rim is 0.3 too small":                 "rim was off by 0.30 mm",
	} {
		assert.Contains(t, Read(say, Context{Addressed: true}).Text, told, say)
	}
}
