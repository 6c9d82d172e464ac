package sentence

// beginnings are how the words of a message begin, by their first two letters. Hundreds
// of words are looked for in each message, and most are ruled out by this alone.
type beginnings [(beginningsOfWords + 63) / 64]uint64

const (
	// otherLetter stands for what is no letter from a to z, and for none.
	otherLetter       = 26
	beginningsOfWords = (otherLetter + 1) * (otherLetter + 1)
)

func (b *beginnings) add(word string) {
	if word != "" {
		n := beginning(word)
		b[n/64] |= 1 << (n % 64)
	}
}

// has reports whether a word may be there; an empty one always is.
func (b *beginnings) has(word string) bool {
	if word == "" {
		return true
	}
	return b.hasNumber(beginning(word))
}

// meets reports whether a word of one may be a word of the other.
func (b *beginnings) meets(other *beginnings) bool {
	for i, bits := range b {
		if bits&other[i] != 0 {
			return true
		}
	}
	return false
}

func (b *beginnings) hasNumber(n int) bool { return b[n/64]&(1<<(n%64)) != 0 }

// beginning numbers the first two letters of a word. A word and its stem have the same:
// y counts as i in the second place, since the stem of "dying" is "die".
func beginning(word string) int {
	first, second := otherLetter, otherLetter
	if word != "" {
		first = letterNumber(word[0])
	}
	if len(word) > 1 && word[1] != ' ' {
		second = letterNumber(word[1])
	}
	if second == 'y'-'a' {
		second = 'i' - 'a'
	}
	return first*(otherLetter+1) + second
}

func letterNumber(b byte) int {
	if b < 'a' || b > 'z' {
		return otherLetter
	}
	return int(b - 'a')
}
