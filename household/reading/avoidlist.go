package reading

import (
	"fmt"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
)

// readAvoid reads the avoid list; a word that no food of the catalogue has is
// probably misspelt.
func (l *loader) readAvoid(t tomldoc.Table) []string {
	words, at := t.List("avoid")
	for i, w := range words {
		known := false
		for _, f := range l.home.Catalogue.All() {
			if _, known = household.AvoidedBy([]string{w}, f); known {
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
