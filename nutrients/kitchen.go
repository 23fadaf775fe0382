package nutrients

import (
	_ "embed"
	"strconv"
	"strings"
	"sync"
)

//go:embed data/kitchen.txt
var kitchenText string

// KitchenCap is what a kitchen gives of a food in a day where the household says nothing
// else: beyond it a bowl is no longer food that anybody would put down.
type KitchenCap struct {
	// What names the kind of food: "dried herbs".
	What string
	// GramsPerKg75 is the most a day in grams, per kg^0.75 of ideal weight, both species.
	GramsPerKg75 float64
	// Instead says what to put on the shelf or into the pot in place of more.
	Instead string
	Source  Source
}

// kitchenRule is a cap with the words, groups and states that it holds for.
type kitchenRule struct {
	KitchenCap
	words, others []hazardWord
	groups        []string
}

var kitchenRules = sync.OnceValue(func() []kitchenRule {
	var all []kitchenRule
	for _, line := range strings.Split(kitchenText, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		f := strings.Split(line, " | ")
		if len(f) != 6 {
			panic("nutrients: the embedded kitchen caps are broken: " + line)
		}
		grams, err := strconv.ParseFloat(f[1], 64)
		if err != nil || grams <= 0 {
			panic("nutrients: the embedded kitchen caps are broken: " + line)
		}
		r := kitchenRule{KitchenCap: KitchenCap{What: f[2], GramsPerKg75: grams, Instead: f[3],
			Source: Source{Text: f[4], Recalled: f[5] == recalledMark && !strings.HasPrefix(f[4], "common practice")}}}
		words, others, _ := strings.Cut(f[0], " but not ")
		if others != "" {
			r.others = hazardWords(others)
		}
		for _, w := range strings.Split(words, ", ") {
			if group, ok := strings.CutPrefix(w, "@"); ok {
				r.groups = append(r.groups, group)
			} else {
				r.words = append(r.words, hazardWords(w)...)
			}
		}
		all = append(all, r)
	}
	return all
})

// knownCaps keeps what was found for a food by its id, name, group and state: plans of a
// thousand pets ask for the same shelf.
var knownCaps sync.Map

// KitchenCapOf returns the kitchen's cap of a food, not ok where there is none.
func KitchenCapOf(f *Food) (KitchenCap, bool) {
	key := f.ID + "\n" + f.Name + "\n" + f.Group + "\n" + f.State
	if known, ok := knownCaps.Load(key); ok {
		c := known.(KitchenCap)
		return c, c.GramsPerKg75 > 0
	}
	c := findKitchenCap(f)
	knownCaps.Store(key, c)
	return c, c.GramsPerKg75 > 0
}

func findKitchenCap(f *Food) KitchenCap {
	text := wordsOf(f)
	for _, r := range kitchenRules() {
		for _, g := range r.groups {
			if f.Group == g || f.State == g {
				return r.KitchenCap
			}
		}
		said := (&Hazard{others: r.others}).without(text)
		for _, w := range r.words {
			if mentionOf(said, w) == named {
				return r.KitchenCap
			}
		}
	}
	return KitchenCap{}
}
