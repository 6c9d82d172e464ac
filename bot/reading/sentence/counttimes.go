package sentence

import (
	"regexp"
	"strconv"
	"strings"
)

// An x behind a whole number counts things that have one size: "6 x 3mm rounds", "12 x 5mm
// jump rings", "10 x 2mm stones in tubes".
var (
	timesThing = regexp.MustCompile(`(?i)(^|[\s(,:;])(\d{1,3}) ?x ?(\d+(?:[.,]\d+)?(?: ?mm)?) ((?:(?:copper|silver|sterling|brass|bronze|gold) )?(?:rounds\b|round (?:stones?|czs?|cabs?|cabochons?|bezels?|collets?|tube settings?)\b|jump ?rings\b|balls\b|beads\b|discs\b|disks\b|studs\b))`)
	timesStone = regexp.MustCompile(`(?i)(^|[\s(,:;])(\d{1,3}) x (\d+(?:[.,]\d+)?) ?mm (stones|cz|czs|cabs|diamonds|sapphires|rubies|garnets|spinels|topaz|peridots)\b`)
)

// longestStone is how many times its width a small stone is long at most.
const longestStone = 2.5

// timesWrittenOut is a message without an x that counts.
func timesWrittenOut(message string) string {
	if !strings.Contains(message, "x") {
		return message
	}
	message = timesThing.ReplaceAllString(message, "$1$2 $3 $4")
	if longerThanWide.MatchString(message) {
		return message
	}
	return timesStone.ReplaceAllStringFunc(message, func(said string) string {
		part := timesStone.FindStringSubmatch(said)
		count, err := strconv.ParseFloat(part[2], 64)
		size, err2 := strconv.ParseFloat(strings.Replace(part[3], ",", ".", 1), 64)
		if err != nil || err2 != nil || count < longestStone*size {
			return said
		}
		return part[1] + part[2] + " " + part[3] + " mm " + part[4]
	})
}
