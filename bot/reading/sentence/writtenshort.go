package sentence

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Drawing offices, price lists and dictation write words in their own way: "8 w x 2.0 thk",
// "fine Ag", "18Y", "a hello of one millers". They are written out before anything else is
// read; figures and their places stay as they are.

// short is one such way to write.
type short struct {
	// marks are those of which one stands in every message that is written so; the others
	// are passed over by them.
	marks   []string
	written *regexp.Regexp
	out     string
}

// shortWays are such ways to write. Small letters and capitals differ: Ag is silver, and a
// small t before a decimal is a thickness and no ring size.
var shortWays = []short{
	{[]string{" w"}, regexp.MustCompile(`(\d) ?w ?x ?(\d[\d.,]*) ?(?:thk|thick|t)\b\.?`), "$1 wide x $2 thick"},
	{[]string{"hk"}, regexp.MustCompile(`(\d(?: ?mm)?) ?[Tt]hk\b`), "$1 thick"},
	{[]string{"hk"}, regexp.MustCompile(`\b[Tt]hk\b`), "thickness"},
	{[]string{"lg"}, regexp.MustCompile(`(\d(?: ?mm)?) ?lg\b`), "$1 long"},
	{[]string{"lg"}, regexp.MustCompile(`\b([Ss]trip|[Tt]ube|[Cc]ut|[Bb]lank|[Dd]ev\.?|[Tt]otal|[Cc]hain|[Bb]ar|[Ww]ire|[Tt]he|[Cc]orrected|[Ss]tate) lg\b`), "$1 length"},
	{[]string{"ht"}, regexp.MustCompile(`(\d(?: ?mm)?) ?ht\b`), "$1 high"},
	{[]string{"ht"}, regexp.MustCompile(`\bht\.? ?(\d)`), "height $1"},
	{[]string{" ht"}, regexp.MustCompile(`(&|\b(?:finished|total|overall|vert\.?|the|strip|and)) ht\b`), "$1 height"},
	{[]string{",t", ", t", ";t", "; t", ":t", ": t", "(t", "( t"}, regexp.MustCompile(`([,;:(] ?)t ?=? ?(\d?[.,]\d)`), "${1}thickness $2"},
	{[]string{"Ag"}, regexp.MustCompile(`\b([Ff]ine )?Ag\b`), "${1}silver"},
	{[]string{"Cu"}, regexp.MustCompile(`\bCu\b`), "copper"},
	{[]string{"Y"}, regexp.MustCompile(`\b(9|10|14|18|22)Y\b`), "${1}ct yellow gold"},
	{[]string{"R"}, regexp.MustCompile(`\b(9|10|14|18)R\b`), "${1}ct rose gold"},
	{[]string{"W"}, regexp.MustCompile(`\b(9|10|14|18)W\b`), "${1}ct white gold"},
	{[]string{"yellow", "white", "rose"}, regexp.MustCompile(`(^|[^d] )(14|18|fourteen|eighteen) (yellow|white|rose)(?: gold)?( (?:left|point|one|two|at|and|for|in|how|wire|sheet|tube|\d)|[,.;?!]|$)`), "$1$2 carat $3 gold$4"},
	{[]string{"eqd"}, regexp.MustCompile(`\b[Rr]eqd\b`), "required"},
	{[]string{"prawn"}, regexp.MustCompile(`(\d|\b(?:two|three|four|five|six|eight)) prawns?\b`), "$1 prong"},
	{[]string{"hello"}, regexp.MustCompile(`\b(the|a|my|this) hello\b`), "$1 halo"},
	{[]string{"ello"}, regexp.MustCompile(`^[Hh]ello (round|around|of) (an?|my|the)\b`), "halo $1 $2"},
	{[]string{"gouge"}, regexp.MustCompile(`(\d|teen|ty|\b(?:two|four|six|eight|ten|twelve)) gouge\b`), "$1 gauge"},
	{[]string{"prata", "plata"}, regexp.MustCompile(`\b(in|of|much) (?:prata|plata)\b`), "$1 silver"},
	{[]string{"ouro"}, regexp.MustCompile(`\b(in|of|much) ouro\b`), "$1 gold"},
	{[]string{" lat"}, regexp.MustCompile(`\b(in|of|much) (?:latão|latao|latón|laton)\b`), "$1 brass"},
	{[]string{"cobre"}, regexp.MustCompile(`\b(in|of|much) cobre\b`), "$1 copper"},
	{[]string{"lat"}, regexp.MustCompile(`^(?:latão|latao|latón|laton) (\d)`), "brass $1"},
	{[]string{"prata"}, regexp.MustCompile(`^prata (\d)`), "silver $1"},
	{[]string{"altura"}, regexp.MustCompile(`\baltura (?:de )?(\d)`), "height $1"},
	{[]string{" D"}, regexp.MustCompile(`(\d(?: ?mm)?) D([.,;]|$| (?:band|ring|shank|wire|section|profile|sterling|silver|gold|in)\b)`), "$1 half-round$2"},
	{[]string{"wht"}, regexp.MustCompile(`\b[Ww]ht\b`), "white"},
	{[]string{"oper"}, regexp.MustCompile(`\b[Cc]oper\b`), "copper"},
	{[]string{"pall"}, regexp.MustCompile(`(?:w/|\bwith) ?pall\b\.?`), "palladium"},
	{[]string{"sq"}, regexp.MustCompile(`\bsq\.? (wire|copper|silver|sterling|brass|bronze|gold|bar|rod|stock|section)\b`), "square $1"},
	{[]string{"me own"}, regexp.MustCompile(`\bme own\b`), "my own"},
	{[]string{"hand "}, regexp.MustCompile(`\bhand (?:measures|measured|is) (\d \d/\d) (round|around)\b`), "hand measures $1 inches $2"},
	{[]string{"inch"}, regexp.MustCompile(`(\binch(?:es)? (?:long|wide|across|by|x)[a-z ]{0,5} (?:\d+ )?\d/\d+) (wide|long|across|high|tall)\b`), "$1 inches $2"},
	{[]string{"a kneel"}, regexp.MustCompile(`\b(to|must|should i) a kneel\b`), "$1 anneal"},
}

// writtenOut is a message with its shorthand written out.
func writtenOut(message string) string {
	for i := range shortWays {
		s := &shortWays[i]
		if slices.ContainsFunc(s.marks, func(mark string) bool { return strings.Contains(message, mark) }) {
			message = s.written.ReplaceAllString(message, s.out)
		}
	}
	return timesWrittenOut(figuresForWords(sidesBesideSlash(message)))
}

// Phones write 4 for "for" and 2 for "too": "cone blank 4 8mm stone", "is 1mm 2 thick 4 a
// bezel". A figure is left alone wherever it may count or measure something.
var (
	fourThing = regexp.MustCompile(`(?i)([a-z]) 4 (an?|the|my|me|him|her|it|this|that|mum|mom|dad)\b`)
	fourStone = regexp.MustCompile(`(?i)\b(blank|strip|bezel|length|wire|tube|setting|cone|collet|collar|template|disc|sheet|seat|bur|cut) 4 (\d+(?:[.,]\d+)?(?: ?mm)? (?:stone|cab|round|oval|pear|marquise|ring)\b|size )`)
	fourMany  = regexp.MustCompile(`(?i)\b(blank|strip|length|wire|tube|sheet|silver|metal|much|long) 4 (\d+ (?:jump rings|rings|links|people|students|stones|discs|bezels|collets))\b`)
	tooMuch   = regexp.MustCompile(`(?i)^(is|are) (\d*[.,]?\d+ ?(?:mm|ga|g|gauge)?) 2 (thick|thin|big|small|hot|soft|hard|long|short|wide)\b`)
)

// notForWord stand before a 4 that is a size or a count.
var notForWord = regexp.MustCompile(`(?i)\b(?:size|sizes|us|uk|no|number|entry|about|only|just|are|is|to|of|by|x|and|or|have|got|need|want|depth|height|dome|width|thickness|wall|lean|angle|claws|prongs|gap|id|od|diameter|count) 4 `)

func figuresForWords(message string) string {
	if strings.Contains(message, " 4 ") {
		if !notForWord.MatchString(message) {
			message = fourThing.ReplaceAllString(message, "$1 for $2")
		}
		message = fourStone.ReplaceAllString(message, "$1 for $2")
		message = fourMany.ReplaceAllString(message, "$1 for $2")
	}
	if strings.Contains(message, " 2 ") {
		message = tooMuch.ReplaceAllString(message, "$1 $2 too $3")
	}
	return message
}

var (
	longerThanWide = regexp.MustCompile(`(?i)\b(?:ovals?|pears?|teardrops?|drops?|marquises?|navettes?|emerald[ -]?cuts?|baguettes?|octagons?|rectang\w*|cushions?)\b`)
	slashedPair    = regexp.MustCompile(`(^|[\s(,:;])(\d{1,2}(?:[.,]\d+)?)/(\d{1,2}(?:[.,]\d+)?)( ?(?:mm\b|ga?\b|gauge|in\.|inch|["”″%/]|ct\b|k\b|carat|gold|filled|steel|silver)|\d|$)?`)
)

// sidesBesideSlash writes a stone's two sides, "9/7 pear" or "9/7 mm", with an x. A fraction
// of an inch has the smaller figure on top, or its unit behind it.
func sidesBesideSlash(message string) string {
	if !strings.Contains(message, "/") {
		return message
	}
	sided := longerThanWide.MatchString(message)
	return slashedPair.ReplaceAllStringFunc(message, func(pair string) string {
		part := slashedPair.FindStringSubmatch(pair)
		long, err := strconv.ParseFloat(strings.Replace(part[2], ",", ".", 1), 64)
		wide, err2 := strconv.ParseFloat(strings.Replace(part[3], ",", ".", 1), 64)
		unit := strings.TrimSpace(part[4])
		if err != nil || err2 != nil || wide < 2 || long <= wide || long > 3.5*wide || unit != "mm" && (unit != "" || !sided) {
			return pair
		}
		return part[1] + part[2] + "x" + part[3] + part[4]
	})
}
