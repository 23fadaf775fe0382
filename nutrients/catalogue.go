package nutrients

import (
	"cmp"
	"slices"
	"strings"
	"sync"
)

// Catalogue is a set of foods by id. It is read-only and safe for concurrent use.
type Catalogue struct {
	foods map[string]*Food
	order []string
}

// NewCatalogue returns a catalogue of the given foods.
func NewCatalogue(foods ...*Food) *Catalogue {
	c := &Catalogue{foods: make(map[string]*Food, len(foods)), order: make([]string, 0, len(foods))}
	for _, f := range foods {
		if _, twice := c.foods[f.ID]; !twice {
			c.order = append(c.order, f.ID)
		}
		c.foods[f.ID] = f
	}
	slices.Sort(c.order)
	return c
}

// Default returns the embedded catalogue. It is loaded once; its data are
// checked by tests, so a fault in them is a programmer's and panics.
var Default = sync.OnceValue(func() *Catalogue {
	var all []*Food
	for _, text := range []string{foodsText, supplementsText} {
		foods, err := parseFoods(text)
		if err != nil {
			panic("nutrients: the embedded catalogue is broken: " + err.Error())
		}
		all = append(all, foods...)
	}
	return NewCatalogue(all...)
})

// Food finds a food by id.
func (c *Catalogue) Food(id string) (*Food, bool) {
	f, ok := c.foods[id]
	return f, ok
}

// All returns the foods in the order of their ids.
func (c *Catalogue) All() []*Food {
	all := make([]*Food, 0, len(c.order))
	for _, id := range c.order {
		all = append(all, c.foods[id])
	}
	return all
}

// Find returns the list foods whose id, name or group contains every word, best first:
// a word that starts a part of the id counts most.
func (c *Catalogue) Find(words ...string) []*Food {
	type hit struct {
		food  *Food
		score int
	}
	var hits []hit
	for _, f := range c.All() {
		text := strings.ToLower(f.ID + " " + f.Name + " " + f.Group + " " + f.State)
		score := 0
		for _, w := range words {
			w = strings.ToLower(w)
			switch {
			case strings.HasPrefix(f.ID, w):
				score += 3
			case strings.Contains("-"+f.ID, "-"+w):
				score += 2
			case strings.Contains(text, w):
				score++
			default:
				score = -1 << 20
			}
		}
		if score > 0 {
			hits = append(hits, hit{f, score})
		}
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(b.score, a.score) })
	found := make([]*Food, len(hits))
	for i, h := range hits {
		found[i] = h.food
	}
	return found
}

// Nearest returns the known id most like the given one, if any is near: ids that
// hold all its parts first, then the fewest edits.
func (c *Catalogue) Nearest(id string) (string, bool) {
	id = strings.ToLower(strings.ReplaceAll(strings.TrimSpace(id), " ", "-"))
	if parts := strings.Split(id, "-"); id != "" {
		if found := c.Find(parts...); len(found) > 0 {
			return found[0].ID, true
		}
	}
	best, bestEdits := "", len(id)/3+1
	for _, known := range c.order {
		if e := edits(id, known); e < bestEdits {
			best, bestEdits = known, e
		}
	}
	return best, best != ""
}

// edits counts the single-letter changes between two words (Levenshtein).
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := diagonal
			if a[i-1] != b[j-1] {
				cost++
			}
			diagonal = row[j]
			row[j] = min(cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}

// With returns a catalogue in which the given foods are added, or take the
// place of foods with the same id.
func (c *Catalogue) With(foods ...*Food) *Catalogue {
	return NewCatalogue(append(c.All(), foods...)...)
}
