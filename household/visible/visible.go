// Package visible knows which characters of a name cannot be seen, and which names look
// the same though they differ. A name that hides something must not reach a card: it
// could steer a terminal, turn a line around, or pass for another animal.
package visible

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Hidden finds the first character of a text that is not seen or steers others: control
// characters but line ends and tabs, directions, and characters without width. Joiners
// are allowed where scripts and pictures are written with them. What is found is named
// as U+202E.
func Hidden(s string) (name string, found bool) {
	runes := []rune(s)
	for i, r := range runes {
		if hides(runes, i) && r != '\n' && r != '\t' && r != '\r' {
			return fmt.Sprintf("U+%04X", r), true
		}
	}
	return "", false
}

// Strip takes hidden characters out of a text of one line; line ends and tabs become
// spaces.
func Strip(s string) string {
	for {
		stripped := strip(s)
		// What stood between two letters may have hidden a joiner.
		if stripped == s {
			return s
		}
		s = stripped
	}
}

func strip(s string) string {
	runes := []rune(s)
	var b strings.Builder
	for i, r := range runes {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case !hides(runes, i):
			b.WriteRune(r)
		}
	}
	return b.String()
}

const (
	nonJoiner = '\u200c'
	joiner    = '\u200d'
)

// widthless are characters without width beside the format characters of Unicode:
// fillers of Hangul, the grapheme joiner and the separators of lines and paragraphs.
const widthless = "\u034f\u115f\u1160\u17b4\u17b5\u2028\u2029\u3164\uffa0"

func hides(runes []rune, i int) bool {
	r := runes[i]
	switch {
	case r == joiner || r == nonJoiner:
		return i == 0 || i == len(runes)-1 || !joins(runes[i-1], runes[i+1], r)
	case r == unicode.ReplacementChar:
		return false
	}
	return unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Co, r) || strings.ContainsRune(widthless, r)
}

// joined are the scripts that are written with joiners (Unicode Standard Annex 31,
// recalled).
var joined = []*unicode.RangeTable{unicode.Arabic, unicode.Syriac, unicode.Mongolian, unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati,
	unicode.Oriya, unicode.Tamil, unicode.Telugu, unicode.Kannada, unicode.Malayalam, unicode.Sinhala, unicode.Khmer}

// joins says whether a joiner between two characters does something that is seen.
func joins(before, after, r rune) bool {
	if unicode.IsOneOf(joined, before) && unicode.IsOneOf(joined, after) {
		return true
	}
	picture := func(c rune) bool { return unicode.Is(unicode.So, c) || unicode.Is(unicode.Sk, c) }
	return r == joiner && (picture(before) || unicode.Is(unicode.Variation_Selector, before)) && picture(after)
}

// lookalikes maps letters and digits to the Latin letter that they look like. The pairs
// are from the list of confusable characters of Unicode Technical Standard 39, recalled:
// those that a whole name can be made of.
var lookalikes = func() map[rune]rune {
	pairs := map[rune]rune{'I': 'l', '1': 'l', '|': 'l', '0': 'o', 'ı': 'i', 'ſ': 's', 'ɡ': 'g', 'ɑ': 'a',
		'’': '\'', '‘': '\'', '´': '\'', '`': '\'', '‐': '-', '‑': '-', '–': '-', '—': '-', '−': '-'}
	for _, of := range [][2]string{
		{"АВЕЅІЈКМНОРСТХУѴ", "ABESlJKMHOPCTXYV"}, {"асеѕіјорхуѵһԁԛԝ", "acesijopxyvhdqw"}, // Cyrillic
		{"ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABEZHlKMNOPTYX"}, {"ανορυι", "avopui"}, // Greek
	} {
		latin := []rune(of[1])
		for i, r := range []rune(of[0]) {
			pairs[r] = latin[i]
		}
	}
	return pairs
}()

// Shape is the same for two names that look the same: spaces, letters of other scripts
// that pass for Latin ones, and what joins are evened out. Upper and lower case look
// different: I passes for l, and L does not.
func Shape(name string) string {
	even := strings.Map(func(r rune) rune {
		if r == joiner || r == nonJoiner || unicode.Is(unicode.Variation_Selector, r) {
			return -1
		}
		if to, ok := lookalikes[r]; ok {
			return to
		}
		return r
	}, norm.NFKC.String(name))
	return strings.Join(strings.Fields(even), " ")
}
