package visible

import "testing"

func TestHidden(t *testing.T) {
	for name, want := range map[string]string{
		"Marlow": "", "Žofka the 2nd": "", "犬": "", "猫 🐾": "", "O'Lane": "", "two\nlines": "", "a\ttab": "",
		"می\u200cشی": "", "black 🐈\u200d⬛": "", "❤\ufe0f": "", "क्\u200dष": "",
		"Mar\x1b[31mlow": "U+001B", "Mar\u202elow": "U+202E", "Mar\u2066low": "U+2066", "Mar\u200blow": "U+200B", "Mar\u200dlow": "U+200D",
		"Marlow\u200d": "U+200D", "\u200cMarlow": "U+200C", "Mar\u00adlow": "U+00AD", "Mar\ufefflow": "U+FEFF", "Mar\u2060low": "U+2060", "Mar\u3164low": "U+3164",
		"Mar\x7flow": "U+007F", "Mar\u009blow": "U+009B", "a\u2028b": "U+2028", "Mar\U000e0041low": "U+E0041",
	} {
		got, found := Hidden(name)
		if got != want || found != (want != "") {
			t.Errorf("%q: %q, %t, want %q", name, got, found, want)
		}
		clean := Strip(name)
		if again, still := Hidden(clean); still {
			t.Errorf("%q: %s is left in %q", name, again, clean)
		}
		if want == "" && name != "two\nlines" && name != "a\ttab" && clean != name {
			t.Errorf("%q became %q", name, clean)
		}
	}
}

func TestShape(t *testing.T) {
	for _, same := range [][2]string{{"Marlow", "Mаrlow"}, {"Pip", "Рір"}, {"Milo", "Mil0"}, {"Ida", "lda"}, {"Tom  Cat", "Tom\u00a0Cat"}, {"O'Lane", "O’Lane"},
		{"Ａnna", "Anna"}, {"می\u200cشی", "میشی"}, {"Zoé", "Zoe\u0301"}} {
		if a, b := Shape(same[0]), Shape(same[1]); a != b {
			t.Errorf("%q and %q: %q and %q", same[0], same[1], a, b)
		}
	}
	for _, other := range [][2]string{{"Zoé", "Zoe"}, {"Pip", "Pop"}, {"犬", "猫"}, {"Anna", "Ana"}, {"Ian", "Lan"}} {
		if Shape(other[0]) == Shape(other[1]) {
			t.Errorf("%q and %q look the same", other[0], other[1])
		}
	}
}

func FuzzStrip(f *testing.F) {
	f.Add("Mar\u200blow")
	f.Fuzz(func(t *testing.T, s string) {
		if name, found := Hidden(Strip(s)); found {
			t.Errorf("%q: %s is left", s, name)
		}
	})
}
