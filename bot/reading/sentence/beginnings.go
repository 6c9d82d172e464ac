package sentence

// beginnings are how the words of a message begin, by their first three letters. Hundreds
// of words are looked for in each message, and most are ruled out by this alone.
type beginnings [(beginningsOfWords + 63) / 64]uint64

const (
	// otherLetter stands for what is no letter from a to z, and for none.
	otherLetter = 26
	letterKinds = otherLetter + 1
	// beginningsOfWords is a prime: those that share a number are strewn.
	beginningsOfWords = 1021
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

// beginning numbers the first three letters of a word. A word and its stem have the same:
// y counts as i in the second place, since the stem of "dying" is "die". In the third place
// what endings begin with counts as none, since the stem of "being" is "be", and so does
// every letter behind a vowel, since that of "added" is "ad".
func beginning(word string) int {
	first, second, third := otherLetter, otherLetter, otherLetter
	if word != "" {
		first = letterNumber(word[0])
	}
	if len(word) > 1 && word[1] != ' ' {
		second = letterNumber(word[1])
		if len(word) > 2 && first != otherLetter && !vowel(word[0]) && !beginsEnding(word[2]) {
			third = letterNumber(word[2])
		}
	}
	if second == 'y'-'a' {
		second = 'i' - 'a'
	}
	return ((first*letterKinds+second)*letterKinds + third) % beginningsOfWords
}

func vowel(b byte) bool { return b == 'a' || b == 'e' || b == 'i' || b == 'o' || b == 'u' }

func beginsEnding(b byte) bool { return b == 'e' || b == 'i' || b == 's' || b == 'y' }

func letterNumber(b byte) int {
	if b < 'a' || b > 'z' {
		return otherLetter
	}
	return int(b - 'a')
}
