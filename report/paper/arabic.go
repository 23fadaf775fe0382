package paper

import (
	"strings"
)

// joining holds for each letter of the Arabic script that changes its shape the first
// of its presentation forms: alone and after a letter, and, where there are four,
// before one and between two (Unicode, Arabic Presentation Forms A and B).
var joining = map[rune]struct {
	first rune
	forms int
}{
	'\u0622': {0xfe81, 2}, '\u0623': {0xfe83, 2}, '\u0624': {0xfe85, 2}, '\u0625': {0xfe87, 2}, '\u0626': {0xfe89, 4},
	'\u0627': {0xfe8d, 2}, '\u0628': {0xfe8f, 4}, '\u0629': {0xfe93, 2}, '\u062a': {0xfe95, 4}, '\u062b': {0xfe99, 4},
	'\u062c': {0xfe9d, 4}, '\u062d': {0xfea1, 4}, '\u062e': {0xfea5, 4}, '\u062f': {0xfea9, 2}, '\u0630': {0xfeab, 2},
	'\u0631': {0xfead, 2}, '\u0632': {0xfeaf, 2}, '\u0633': {0xfeb1, 4}, '\u0634': {0xfeb5, 4}, '\u0635': {0xfeb9, 4},
	'\u0636': {0xfebd, 4}, '\u0637': {0xfec1, 4}, '\u0638': {0xfec5, 4}, '\u0639': {0xfec9, 4}, '\u063a': {0xfecd, 4},
	'\u0641': {0xfed1, 4}, '\u0642': {0xfed5, 4}, '\u0643': {0xfed9, 4}, '\u0644': {0xfedd, 4}, '\u0645': {0xfee1, 4},
	'\u0646': {0xfee5, 4}, '\u0647': {0xfee9, 4}, '\u0648': {0xfeed, 2}, '\u0649': {0xfeef, 2}, '\u064a': {0xfef1, 4},
	'\u067e': {0xfb56, 4}, '\u0686': {0xfb7a, 4}, '\u0698': {0xfb8a, 2}, '\u06a9': {0xfb8e, 4}, '\u06af': {0xfb92, 4},
	'\u06cc': {0xfbfc, 4},
}

// lamAlef are the ligatures of lam with the alef after it; the form after a letter
// follows each.
var lamAlef = map[rune]rune{'\u0622': 0xfef5, '\u0623': 0xfef7, '\u0625': 0xfef9, '\u0627': 0xfefb}

const lam, stretch = '\u0644', '\u0640'

// joined writes Arabic letters in the shapes they take beside one another, because the
// PDF writer joins none. Vowel marks do not break a join.
func joined(s string) string {
	letters := []rune(s)
	var b strings.Builder
	reaches := false // the letter before reaches out to this one
	for i := 0; i < len(letters); i++ {
		r := letters[i]
		form, known := joining[r]
		switch {
		case vowelMark(r):
			b.WriteRune(r)
			continue
		case r == stretch:
			b.WriteRune(r)
			reaches = true
			continue
		case !known:
			b.WriteRune(r)
			reaches = false
			continue
		}
		if r == lam && i+1 < len(letters) {
			if ligature, ok := lamAlef[letters[i+1]]; ok {
				if reaches {
					ligature++
				}
				b.WriteRune(ligature)
				reaches = false
				i++
				continue
			}
		}
		shape := form.first
		if reaches {
			shape++
		}
		reachesOn := form.forms == 4 && joinsBefore(letters[i+1:])
		if reachesOn {
			shape += 2
		}
		b.WriteRune(shape)
		reaches = reachesOn
	}
	return b.String()
}

// vowelMark says whether a character is a mark over or under a letter.
func vowelMark(r rune) bool { return r >= 0x064b && r <= 0x065f || r == 0x0670 }

// joinsBefore says whether the next letter, vowel marks apart, joins the one before it.
func joinsBefore(rest []rune) bool {
	for _, r := range rest {
		if vowelMark(r) {
			continue
		}
		_, ok := joining[r]
		return ok || r == stretch
	}
	return false
}
