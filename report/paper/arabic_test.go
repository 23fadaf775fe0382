package paper

import (
	"testing"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// TestArabicIsJoined: words worked out by hand, in the order of writing. Salam: seen
// before, lam-alef after, meem alone. Kalb: kaf before, lam between, beh after.
func TestArabicIsJoined(t *testing.T) {
	for in, want := range map[string]string{
		"\u0633\u0644\u0627\u0645": "\ufeb3\ufefc\ufee1", "\u0643\u0644\u0628": "\ufedb\ufee0\ufe90", "\u062f\u0627\u0631": "\ufea9\ufe8d\ufead",
		"\u0628\u064e\u0628": "\ufe91\u064e\ufe90", "\u0644\u0627": "\ufefb", "\u0628 \u0628": "\ufe8f \ufe8f", "Rex \u0628": "Rex \ufe8f", "\u0628\u0640": "\ufe91\u0640",
		"\u0628\u0621\u0628": "\ufe8f\u0621\ufe8f", "Rex": "Rex",
	} {
		if got := joined(in); got != want {
			t.Errorf("%q is joined as %+q, want %+q", in, got, want)
		}
		if again := joined(want); again != want {
			t.Errorf("%+q changes to %+q when joined again", want, again)
		}
	}
}

// TestJoinedFormsAreTheirLetters: Unicode's own tables say of which letter each form is,
// and the font draws all of them.
func TestJoinedFormsAreTheirLetters(t *testing.T) {
	_, boldBytes := fontBytes()
	bold, err := sfnt.Parse(boldBytes)
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	for letter, form := range joining {
		for i := range form.forms {
			shape := form.first + rune(i)
			if got := norm.NFKC.String(string(shape)); got != string(letter) {
				t.Errorf("%U is a form of %+q, not of %U", shape, got, letter)
			}
			if glyph, err := bold.GlyphIndex(&buf, shape); err != nil || glyph == 0 || !hasGlyph(shape) {
				t.Errorf("the font lacks %U", shape)
			}
		}
	}
	for alef, ligature := range lamAlef {
		for i := range rune(2) {
			if got := norm.NFKC.String(string(ligature + i)); got != string([]rune{lam, alef}) {
				t.Errorf("%U is %+q", ligature+i, got)
			}
		}
	}
}
