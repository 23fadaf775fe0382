package ask

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// NothingFound says why no food matches: a poison, a misspelt word, or words that go
// with no food together.
func NothingFound(cat *nutrients.Catalogue, words []string) error {
	typed := strings.Join(words, " ")
	asFood := &nutrients.Food{ID: strings.ToLower(strings.Join(words, "-")), Name: typed}
	for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
		if h, blocked := nutrients.Blocked(asFood, sp, ""); blocked {
			return diag.BadInput(badAnswer, fmt.Sprintf("%s harms a %s: %s", typed, sp, h.Text), "leave it out of every bowl")
		}
	}
	problem := fmt.Sprintf("no food matches %q", typed)
	words = strings.Fields(strings.ReplaceAll(typed, "-", " "))
	corrected := slices.Clone(words)
	for i, w := range words {
		if len(cat.Find(w)) > 0 {
			continue
		}
		near, ok := diag.Nearest(w, vocabulary(cat))
		if !ok {
			return diag.BadInput(badAnswer, problem, fmt.Sprintf("no food has the word %q: use others, for example", w), "foods", "find", "turkey", "thigh")
		}
		corrected[i] = near
	}
	if len(cat.Find(corrected...)) > 0 {
		return diag.BadInput(badAnswer, problem, "did you mean", append([]string{"foods", "find"}, corrected...)...)
	}
	return diag.BadInput(badAnswer, problem, "try fewer words", "foods", "find", corrected[0])
}

// NameWord is a word worth looking for.
var NameWord = regexp.MustCompile(`\p{L}{3,}`)

// vocabulary is every word of the names and groups of foods.
func vocabulary(cat *nutrients.Catalogue) []string {
	seen := map[string]bool{}
	var all []string
	for _, f := range cat.All() {
		for _, w := range NameWord.FindAllString(strings.ToLower(f.Name+" "+f.ID+" "+f.Group), -1) {
			if !seen[w] {
				seen[w] = true
				all = append(all, w)
			}
		}
	}
	return all
}
