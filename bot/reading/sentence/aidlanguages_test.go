package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Whoever is hurt may ask in their own tongue.
func TestFirstAidInOtherLanguages(t *testing.T) {
	for typed, want := range map[string]string{
		"Hilfe, mir ist Säure ins Auge gespritzt":                  "eyes",
		"je me suis brûlé la main":                                 "burn",
		"me corté el dedo y sangra":                                "cut",
		"queimei o dedo na chama":                                  "burn",
		"entrou ácido no meu olho":                                 "eyes",
		"cortei a mão com a serra, sangrando muito":                "cut",
		"inalei vapor do decapante e estou tossindo":               "fumes",
		"meu filho engoliu uma bolinha de prata":                   "swallowed",
		"mi sono bruciata la mano con il cannello":                 "burn",
		"mi è schizzato acido in un occhio":                        "eyes",
		"ho tagliato un dito con il seghetto":                      "cut",
		"ho inalato i fumi della saldatura":                        "fumes",
		"ik heb mijn vinger verbrand aan de soldeerbrander":        "burn",
		"er is zuur in mijn oog gespat":                            "eyes",
		"mijn kind heeft een steentje ingeslikt":                   "swallowed",
		"in mijn vinger gesneden met de zaag en het bloedt nog al": "cut",
	} {
		r, hurt := FirstAidFor(typed)
		assert.True(t, hurt, typed)
		assert.Equal(t, want, r.Topic, typed)
	}
}
