package fdc

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// Result is what was read.
type Result struct {
	// Foods are in the order of the input; ids are unique within the result.
	Foods []*nutrients.Food
	// Skipped counts foods that were left out by kind (branded foods, say).
	Skipped map[string]int
	// Unused lists what had no place or could not be understood, most frequent first.
	Unused []Unused
}

// Unused is one kind of figure that was not taken over.
type Unused struct {
	// What names it as the source does; Reason is for people.
	What, Reason string
	Count        int
}

// collector gathers foods and what was not understood.
type collector struct {
	result Result
	ids    map[string]bool
	unused map[[2]string]int
	// rank holds, for the food being read, the rank of the number that filled a nutrient.
	rank [nutrients.Count]int
}

func newCollector() *collector {
	return &collector{ids: map[string]bool{}, unused: map[[2]string]int{}, result: Result{Skipped: map[string]int{}}}
}

func (c *collector) note(what, reason string) { c.unused[[2]string{what, reason}]++ }

// finish sorts the notes and hands the result over.
func (c *collector) finish() Result {
	for k, n := range c.unused {
		c.result.Unused = append(c.result.Unused, Unused{What: k[0], Reason: k[1], Count: n})
	}
	slices.SortFunc(c.result.Unused, func(a, b Unused) int {
		return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(a.What, b.What), cmp.Compare(a.Reason, b.Reason))
	})
	return c.result
}

// figure is one printed value of a food.
type figure struct {
	number, name, unit, derivation string
	amount                         float64
}

// set puts a figure into a profile, or notes why it cannot.
func (c *collector) set(f *nutrients.Food, x figure) {
	what := strings.TrimSpace(x.number + " " + x.name)
	t, ok := byNumber[x.number]
	if !ok {
		c.note(what, "no place for it in the table of nutrients")
		return
	}
	if math.IsNaN(x.amount) || math.IsInf(x.amount, 0) || x.amount < 0 {
		c.note(what, "not a possible amount")
		return
	}
	if x.amount == 0 && assumedMatters[t.id] {
		switch x.derivation {
		case assumedZero:
			c.note(what, "zero assumed by the source and never measured: left unknown")
			return
		case "":
			c.note(what, "zero, and the file does not say whether it was measured: left unknown")
			return
		}
	}
	v, err := nutrients.Convert(x.amount, unitName(x.unit), t.id)
	if err != nil {
		c.note(what, fmt.Sprintf("unit %q does not fit", x.unit))
		return
	}
	if !possible(v, t.id) {
		c.note(what, "more than the food weighs")
		return
	}
	if known := f.Per100g[t.id].IsKnown(); known && c.rank[t.id] <= t.rank {
		if c.rank[t.id] == t.rank && f.Per100g[t.id].Lo != v {
			c.note(what, "a second, different figure in one food")
		}
		return
	}
	f.Per100g[t.id], c.rank[t.id] = nutrients.Known(v), t.rank
}

// maxShare is how much of its own weight a food may hold of one thing: the whole,
// and 2 % for the rounding of the tables.
const maxShare = 1.02

// possible says whether 100 g can hold an amount in the nutrient's unit. It is
// false for what is not a number.
func possible(v float64, id nutrients.ID) bool {
	limit := maxShare * 100
	switch id.Info().Unit {
	case nutrients.Milligram:
		limit *= 1e3
	case nutrients.Microgram:
		limit *= 1e6
	}
	return v >= 0 && v <= limit
}

// unitName turns FoodData Central's capital units into ours.
func unitName(u string) string {
	if u == "IU" {
		return u
	}
	return strings.ToLower(u)
}

// add completes a food and appends it; key keeps ids apart when names repeat.
func (c *collector) add(f *nutrients.Food, key string) {
	f.ID = slug(f.Name)
	if f.ID == "" || c.ids[f.ID] {
		f.ID = strings.Trim(f.ID+"-"+slug(key), "-")
	}
	for base, n := f.ID, 2; f.ID == "" || c.ids[f.ID]; n++ {
		f.ID = fmt.Sprintf("%s-%d", cmp.Or(base, "food"), n)
	}
	c.ids[f.ID] = true
	// Carbohydrate is by difference and counts fibre: without the fibre it is not
	// known how much of it gives energy.
	if p := &f.Per100g; p[nutrients.Fiber].IsKnown() || p[nutrients.Carbohydrate].Hi == 0 {
		p.SetDigestible(false)
	}
	c.result.Foods = append(c.result.Foods, f)
	c.rank = [nutrients.Count]int{}
}

// maxSlug keeps ids short enough to type.
const maxSlug = 60

// slug makes an id of a name: lower-case letters and digits, hyphens between.
func slug(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= maxSlug {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}
