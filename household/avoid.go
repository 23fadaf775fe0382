package household

import (
	"fmt"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// Avoids says whether a pet must not get a food: a word of its avoid list is in
// the food's id, its name or its group. Where in doubt it says yes: an add-on
// that is not offered is seen, an allergy is felt.
func Avoids(p *Pet, f *nutrients.Food) bool {
	for _, part := range f.Opened() {
		if _, avoided := avoidedBy(p.Avoid, part.Food); avoided {
			return true
		}
	}
	return false
}

func avoidedBy(terms []string, f *nutrients.Food) (term string, avoided bool) {
	if len(terms) == 0 {
		return "", false
	}
	text := plainWords(f.ID + " " + f.Name + " " + f.Group)
	for _, term := range terms {
		if strings.Contains(text, plainWords(term)) {
			return term, true
		}
	}
	return "", false
}

// plainWords writes a text in lower case with single spaces between words.
func plainWords(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == '-' || r == ',' || r == '_' }), " ")
}

// readAvoid reads the avoid list; a word that no food of the catalogue has is
// probably misspelt.
func (l *loader) readAvoid(t tomldoc.Table) []string {
	words, at := t.List("avoid")
	for i, w := range words {
		known := false
		for _, f := range l.home.Catalogue.All() {
			if _, known = avoidedBy([]string{w}, f); known {
				break
			}
		}
		if !known {
			hint := "use words of food ids or groups, as in"
			if near, ok := l.home.Catalogue.Nearest(w); ok {
				hint = fmt.Sprintf("a food is named %q; %s", near, hint)
			}
			t.Doc.Add("avoid-nothing", at[i], fmt.Sprintf("no food is named %q", diag.Clip(w)), hint, "foods", "find", "WORDS")
		}
	}
	return words
}

// checkFeeding refuses a base that holds what a pet must not get.
func (l *loader) checkFeeding(t tomldoc.Table) {
	if l.home.Base == nil {
		return
	}
	for i, pt := range t.Many("pet") {
		if i >= len(l.home.Pets) {
			break
		}
		if why := l.home.NotFor(&l.home.Pets[i]); why != "" {
			pt.Fault("avoid", "avoided-base", why, "use another base, or take the ingredient out")
		}
	}
}

// foods lists every food in a batch, nested batches included.
func (b *Batch) foods() []*nutrients.Food {
	var all []*nutrients.Food
	for _, in := range b.Ingredients {
		if in.Batch != nil {
			all = append(all, in.Batch.foods()...)
		} else {
			all = append(all, in.Food)
		}
	}
	return all
}

// NotFor says why a pet must not get the base in use, "" when it may.
func (h *Household) NotFor(p *Pet) string {
	for _, f := range h.Base.foods() {
		if term, avoided := avoidedBy(p.Avoid, f); avoided {
			return fmt.Sprintf("%s avoids %q, and the base holds %s", p.Name, term, f.ID)
		}
	}
	return ""
}
