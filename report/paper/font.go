package paper

import (
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/bidi"
	"golang.org/x/text/unicode/norm"

	"bowlwright/report"
)

// missingGlyph stands for a character that the font cannot draw.
const missingGlyph = '□'

var regularFont = sync.OnceValue(func() *sfnt.Font {
	f, err := sfnt.Parse(dejavusans.TTF)
	if err != nil {
		panic("report: the embedded font is broken: " + err.Error())
	}
	return f
})

// fontBytes are the two faces that the paper uses.
func fontBytes() (regular, bold []byte) { return dejavusans.TTF, dejavusansbold.TTF }

// glyphs remembers of each character of the basic plane whether the font draws it, since
// a page is measured many times before it is drawn.
var glyphs [1 << 16]atomic.Uint32

const (
	glyphUnasked = iota
	glyphThere
	glyphMissing
)

// hasGlyph says whether the embedded font can draw the character.
func hasGlyph(r rune) bool {
	if r < 0 || int(r) >= len(glyphs) {
		return false
	}
	known := glyphs[r].Load()
	if known == glyphUnasked {
		var buf sfnt.Buffer
		known = glyphMissing
		if index, err := regularFont().GlyphIndex(&buf, r); err == nil && index != 0 {
			known = glyphThere
		}
		glyphs[r].Store(known)
	}
	return known == glyphThere
}

// paperText makes a text safe for the page: composed characters, no controls, and
// a visible box for what the font cannot draw. The PDF writer breaks on characters
// beyond the basic plane, so those become boxes too.
func paperText(s string) string {
	var b strings.Builder
	for _, r := range joined(norm.NFC.String(report.Clean(s))) {
		switch {
		case shapeless(r):
		case r > 0xffff || !hasGlyph(r):
			b.WriteRune(missingGlyph)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// lostLetters says whether the font lacks a letter of the text: what is printed of it
// could then be another's name.
func lostLetters(s string) bool {
	for _, r := range norm.NFC.String(report.Clean(s)) {
		if unicode.IsLetter(r) && (r > 0xffff || !hasGlyph(r)) {
			return true
		}
	}
	return false
}

// NotOnPaper are the characters of some texts that the embedded font lacks, each
// once, in their order: paper shows a box for them.
func NotOnPaper(texts ...string) []string {
	var lost []string
	for _, text := range texts {
		for _, r := range norm.NFC.String(report.Clean(text)) {
			if s := string(r); !shapeless(r) && (r > 0xffff || !hasGlyph(r)) && !slices.Contains(lost, s) {
				lost = append(lost, s)
			}
		}
	}
	return lost
}

// shapeless are joiners, marks of direction and variation selectors.
func shapeless(r rune) bool { return r >= 0x200b && r <= 0x200f || r >= 0xfe00 && r <= 0xfe0f }

// paperName is the name of a pet on paper. Where the font lacks letters of it, it says
// beside it which animal it is, so that two such cards are not taken for each other.
func paperName(name, animal string) string {
	if lostLetters(name) {
		return name + " (" + animal + ")"
	}
	return name
}

// asSeen reverses each run of letters that is written from right to left, because the
// PDF writer places characters one after the other. A run reaches from its first letter
// to its last, spaces between them included: a name stands isolated in a line from left
// to right, so that no figure or colon beside it changes places.
func asSeen(s string) string {
	letters := []rune(s)
	var b strings.Builder
	for i := 0; i < len(letters); {
		if !rightToLeft(letters[i]) {
			b.WriteRune(letters[i])
			i++
			continue
		}
		end := i + 1
		for k := end; k < len(letters) && (rightToLeft(letters[k]) || joinsRun(letters[k])); k++ {
			if !unicode.IsSpace(letters[k]) && letters[k] != '-' {
				end = k + 1
			}
		}
		b.WriteString(bidi.ReverseString(string(letters[i:end])))
		i = end
	}
	return b.String()
}

func rightToLeft(r rune) bool {
	p, _ := bidi.LookupRune(r)
	return p.Class() == bidi.R || p.Class() == bidi.AL
}

// joinsRun says whether a character may stand inside a run from right to left: a space, a
// hyphen, or a mark over a letter.
func joinsRun(r rune) bool {
	p, _ := bidi.LookupRune(r)
	return unicode.IsSpace(r) || r == '-' || p.Class() == bidi.NSM
}
