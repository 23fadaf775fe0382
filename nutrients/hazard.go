package nutrients

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

//go:embed data/hazards.txt
var hazardsText string

// Hazard is a food that harms, or a caution about one.
type Hazard struct {
	// Food is the published wording; Blocked ones are refused, others warned. A Minor
	// warning is no reason to leave a food out of what is proposed.
	Food           string
	Blocked, Minor bool
	// Text says in one or two sentences what happens and at which dose.
	Text   string
	Source Source

	words []hazardWord
	// others are phrases that hold a word and name something else.
	others  []hazardWord
	species []Species
	// rawOnly harms only raw food, cookedOnly only food that is not raw.
	rawOnly, cookedOnly bool
}

// hazardWord is a word that names a hazard: a dash and the word, and whether it may
// go on with any ending.
type hazardWord struct {
	stem string
	open bool
}

var hazards = sync.OnceValue(func() []Hazard {
	var all []Hazard
	for _, line := range strings.Split(hazardsText, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		f := strings.Split(line, " | ")
		if len(f) != 6 {
			panic("nutrients: the embedded hazards are broken: " + line)
		}
		words, raw := strings.CutPrefix(f[0], "raw: ")
		words, cooked := strings.CutPrefix(words, "cooked: ")
		words, others, _ := strings.Cut(words, " but not ")
		h := Hazard{Food: strings.ReplaceAll(words, "*", ""), Blocked: f[2] == "block", Minor: f[2] == "note", Text: f[3],
			rawOnly: raw, cookedOnly: cooked,
			Source: Source{Text: f[4], Recalled: f[5] == recalledMark}}
		h.words = hazardWords(words)
		if others != "" {
			h.others = hazardWords(others)
		}
		for _, sp := range strings.Split(f[1], ", ") {
			h.species = append(h.species, Species(sp))
		}
		all = append(all, h)
	}
	return all
})

func hazardWords(list string) []hazardWord {
	var words []hazardWord
	for _, w := range strings.Split(list, ", ") {
		stem, open := strings.CutSuffix(w, "*")
		words = append(words, hazardWord{"-" + stem, open})
	}
	return words
}

// without blots out the phrases that name something else.
func (h *Hazard) without(text string) string {
	for _, o := range h.others {
		end := "-"
		if o.open {
			end = ""
		}
		for strings.Contains(text, o.stem+end) {
			text = strings.ReplaceAll(text, o.stem+end, "-·"+end)
		}
	}
	return text
}

// wordsOf writes a food's id and name as dash-separated words between dashes.
func wordsOf(f *Food) string {
	clean := func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127:
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}
	text := "-" + strings.Map(clean, f.ID) + "-" + strings.Map(clean, f.Name) + "-"
	for strings.Contains(text, "--") {
		text = strings.ReplaceAll(text, "--", "-")
	}
	return text
}

// mention is how the words of a food speak of a hazard.
type mention int

const (
	notNamed mention = iota
	mayHold          // "may contain onion"
	named
)

// mentionOf says whether the words of a food name a hazard, and not its absence
// ("no onion", "xylitol free").
func mentionOf(text string, word hazardWord) mention {
	found := notNamed
	for rest := text; ; {
		i := strings.Index(rest, word.stem)
		if i < 0 {
			return found
		}
		before, after := rest[:i], rest[i+len(word.stem):]
		rest = after
		end := strings.IndexByte(after, '-')
		if end < 0 || end > 0 && !word.open {
			continue
		}
		switch {
		case strings.HasPrefix(after[end:], "-free-"), strings.HasSuffix(before, "-no"), strings.HasSuffix(before, "-without"):
		case strings.HasSuffix(before, "-may-contain"):
			found = max(found, mayHold)
		default:
			return named
		}
	}
}

// Hazards returns what is known of a food, by its id and name, for a species as
// it is fed: without a cooking method.
func Hazards(f *Food, sp Species) []Hazard { return HazardsCooked(f, sp, "") }

// Blocked returns the first hazard for which a food, cooked by a method or as it is
// where there is none, must not be fed to a species; not ok where it may be.
func Blocked(f *Food, sp Species, method string) (h Hazard, ok bool) {
	for _, h := range HazardsCooked(f, sp, method) {
		if h.Blocked {
			return h, true
		}
	}
	return Hazard{}, false
}

// HazardsCooked is Hazards for a food that is cooked by a method: what harms only
// raw is then left out. A food whose state is not raw counts as cooked.
func HazardsCooked(f *Food, sp Species, method string) []Hazard {
	text := wordsOf(f)
	raw := method == "" && (f.State == "raw" || strings.Contains(text, "-raw-") || strings.Contains(text, "-uncooked-"))
	var found []Hazard
	for _, h := range hazards() {
		if h.rawOnly && !raw || h.cookedOnly && raw || !slices.Contains(h.species, sp) {
			continue
		}
		worst := notNamed
		said := h.without(text)
		for _, w := range h.words {
			worst = max(worst, mentionOf(said, w))
		}
		switch worst {
		case named:
			found = append(found, h)
		case mayHold:
			// The household knows its own batch: it is told, not refused.
			h.Blocked = false
			h.Text = "Make sure it contains none. " + h.Text
			found = append(found, h)
		}
	}
	return found
}
