package household

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// JarSpec is one [[jar]] of household.toml: a premix that several pets share.
type JarSpec struct {
	Name string
	// Pets are the names of the pets that eat from it.
	Pets []string
	// PerBase asks for the same grams of jar to a gram of base for all.
	PerBase bool
	// Days is how long one mix is to last; StepG the step of the scale that it is
	// weighed on, ScoopG the grams of a scoop, 0 for doses that are weighed.
	Days          int
	StepG, ScoopG float64
}

// Serves says whether a pet is to eat from the jar.
func (j *JarSpec) Serves(pet string) bool {
	return slices.ContainsFunc(j.Pets, func(n string) bool { return strings.EqualFold(n, pet) })
}

// Jar is a mix of powders with its recipe: what a person weighs out once. Its digest and
// code follow from what it holds, whatever its name and size.
type Jar struct {
	Code   string `json:"code"`
	Digest string `json:"digest"`
	Name   string `json:"name"`
	// Of is the name of the [[jar]] that asked for it.
	Of   string   `json:"of"`
	Pets []string `json:"pets"`
	// Days is how long the recipe lasts, MakesG the grams that it makes, StepG the step
	// of the scale that it was made for.
	Days   int       `json:"days"`
	MakesG float64   `json:"makes_g"`
	StepG  float64   `json:"step_g"`
	ScoopG float64   `json:"scoop_g,omitempty"`
	Parts  []JarPart `json:"recipe"`
	// RateG is the grams of jar to 100 g of base for all, 0 where each pet has a dose of its
	// own.
	RateG float64 `json:"rate_g_per_100g_base,omitempty"`
	// Replaces lists the powders of the shelf that its pets do not get beside it; Apart
	// names for a pet the one that it does.
	Replaces []string          `json:"replaces,omitempty"`
	Apart    map[string]string `json:"apart,omitempty"`
}

// JarPart is the weight of one powder in a jar.
type JarPart struct {
	Food string  `json:"food"`
	Name string  `json:"name"`
	G    float64 `json:"g"`
	// Digest is that of the food's figures when the jar was composed.
	Digest string `json:"digest"`
	// Own is true for a food of the household's own, which enters the jar's digest by its
	// figures: its id alone says nothing to others.
	Own bool `json:"own,omitempty"`
}

const (
	// jarForm names the canonical form of a jar's contents; a change of it changes every
	// code. jarGrain is the grain of the shares, so fine that a trace counts.
	jarForm  = "bowlwright/jar/1"
	jarGrain = 1e-6
	// JarMark begins a jar's code, so that it is never taken for that of a base.
	JarMark = "J-"
)

// Identify works out total, digest and code from the parts.
func (j *Jar) Identify() {
	j.MakesG = 0
	for _, p := range j.Parts {
		j.MakesG += p.G
	}
	j.MakesG = math.Round(j.MakesG*1e6) / 1e6
	j.Digest = jarDigest(j.Parts)
	j.Code = JarCodeOf(j.Digest)
}

// JarCodeOf is the code of a jar's digest.
func JarCodeOf(digest string) string { return JarMark + CodeOf(digest) }

// jarDigest covers each powder's share of the total; the order does not matter.
func jarDigest(parts []JarPart) string {
	total := 0.0
	for _, p := range parts {
		total += p.G
	}
	var lines []string
	for _, p := range parts {
		what := p.Food
		if p.Own {
			what += " " + p.Digest
		}
		lines = append(lines, fmt.Sprintf("%s|%d", what, grains(p.G/total, jarGrain)))
	}
	slices.Sort(lines)
	return DigestOf(jarForm + "\n" + strings.Join(lines, "\n"))
}

// Sound says whether digest and code are those of the parts.
func (j *Jar) Sound() bool {
	return len(j.Parts) > 0 && j.Digest == jarDigest(j.Parts) && j.Code == JarCodeOf(j.Digest)
}

// Serves says whether a pet eats from the jar.
func (j *Jar) Serves(pet string) bool {
	return slices.ContainsFunc(j.Pets, func(n string) bool { return strings.EqualFold(n, pet) })
}

// addon is the jar as an item on the shelf: its figures are mixed from its parts as the
// household knows them now, and a cap of a part caps the jar. It returns the parts that
// the household no longer knows.
func (j *Jar) addon(h *Household) (Addon, []string) {
	a := Addon{Pets: j.Pets, Jar: j, StepG: j.ScoopG}
	var parts []nutrients.Part
	var unknown []string
	priced := true
	least := func(most *float64, cap, share float64) {
		if cap > 0 && share > 0 && (*most == 0 || cap/share < *most) {
			*most = cap / share
		}
	}
	for _, p := range j.Parts {
		var f *nutrients.Food
		share := p.G / j.MakesG
		if i := slices.IndexFunc(h.Addons, func(x Addon) bool { return x.Food.ID == p.Food }); i >= 0 {
			x := h.Addons[i]
			f = x.Food
			least(&a.MaxG, x.MaxG, share)
			least(&a.MaxGPerKg, x.MaxGPerKg, share)
			a.PricePerG += x.PricePerG * share
			priced = priced && x.PricePerG > 0
		} else if f, _ = h.Catalogue.Food(p.Food); f == nil {
			unknown = append(unknown, p.Food)
			continue
		} else {
			priced = false
		}
		parts = append(parts, nutrients.Part{Food: f, Share: share})
	}
	if !priced {
		a.PricePerG = 0
	}
	a.Food = nutrients.Mixture(j.Code, j.Name+" "+j.Code, parts)
	return a, unknown
}

// WithJars is the household with jars on its shelf: their pets get them in place of the
// powders that they replace. A jar with a powder that the household does not know is
// left out and named.
func (h *Household) WithJars(jars []Jar) (with *Household, unusable []string) {
	out := *h
	out.Addons = slices.Clone(h.Addons)
	for i := range jars {
		a, unknown := jars[i].addon(h)
		if len(unknown) > 0 {
			unusable = append(unusable, fmt.Sprintf("%s (%s) holds %s, which this household does not know", jars[i].Name, jars[i].Code, strings.Join(unknown, ", ")))
			continue
		}
		out.Addons = append(out.Addons, a)
	}
	return &out, unusable
}

// JarOf is the jar on the shelf that a pet eats from, nil for none.
func (h *Household) JarOf(pet string) *Jar {
	for _, a := range h.Addons {
		if a.Jar != nil && a.Jar.Serves(pet) {
			return a.Jar
		}
	}
	return nil
}

// replaced says whether a pet gets its jar in place of an add-on.
func (h *Household) replaced(pet string, a Addon) bool {
	j := h.JarOf(pet)
	if j == nil || a.Jar != nil || !slices.Contains(j.Replaces, a.Food.ID) {
		return false
	}
	return j.Apart[pet] != a.Food.ID
}

// JarDose is a pet's dose of a jar in its plan.
type JarDose struct {
	Code  string  `json:"code"`
	DoseG float64 `json:"dose_g"`
	// Scoops is the dose in whole scoops, 0 where it is weighed.
	Scoops int `json:"scoops,omitempty"`
	// Mix is the jar as it was composed.
	Mix Jar `json:"mix"`
}
