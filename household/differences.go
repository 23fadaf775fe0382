package household

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
)

// part is one ingredient of a snapshot with equal ones added up.
type part struct {
	share, grams float64
	of           *BaseSnapshot
	// digest is that of a food's figures; own says that it is known by them.
	digest string
	own    bool
}

// partName is how an ingredient is told from others between two snapshots: by
// its food or the file of its batch.
type partName struct{ what, method string }

func (s *BaseSnapshot) parts() map[partName]part {
	m := map[partName]part{}
	for _, in := range s.Ingredients {
		k := partName{cmp.Or(in.Food, in.Batch), in.Method}
		p := m[k]
		p.share += in.Share
		p.grams += in.Grams
		p.of, p.digest, p.own = in.Of, in.Digest, in.Own
		m[k] = p
	}
	return m
}

// differences lists what tells two recipes apart, in words: each ingredient
// with its share then and now and the grams at the size of the batch now.
func differences(was, now BaseSnapshot) []string {
	before, after := was.parts(), now.parts()
	all := maps.Clone(before)
	maps.Copy(all, after)
	keys := slices.SortedFunc(maps.Keys(all), func(a, b partName) int {
		return cmp.Or(cmp.Compare(a.what, b.what), cmp.Compare(a.method, b.method))
	})
	size := sameSize(keys, before, after, now.RawG/was.RawG)
	var out []string
	for _, k := range keys {
		a, had := before[k]
		b, has := after[k]
		grams := a.grams * size
		switch {
		case had && !has:
			if other, method, ok := sameShareOtherMethod(k, a, after, before); ok {
				out = append(out, fmt.Sprintf("%s: %s in the plan's base, %s now (%s)", k.what, methodWord(k.method), methodWord(method), percent(other.share)))
				continue
			}
			out = append(out, fmt.Sprintf("%s: %s of the raw weight in the plan's base (%s at this size), not in the base now", name(k), percent(a.share), inGrams(grams)))
		case !had && has:
			if _, _, ok := sameShareOtherMethod(k, b, before, after); ok {
				continue
			}
			out = append(out, fmt.Sprintf("%s: not in the plan's base, %s of the raw weight now (%s)", name(k), percent(b.share), inGrams(b.grams)))
		case math.Abs(b.grams-grams) > shareStep*now.RawG:
			x, y := distinct(a.share, b.share)
			out = append(out, fmt.Sprintf("%s: %s in the plan's base, %s now (%s of the raw weight then, %s now)", name(k), inGrams(grams), inGrams(b.grams), x, y))
		}
		if had && has && a.of == nil && (a.own || b.own) && a.digest != b.digest {
			out = append(out, fmt.Sprintf("%s: its figures in foods/ are others than in the plan's base", k.what))
		}
		if had && has && a.of != nil && b.of != nil && a.of.RecipeDigest != b.of.RecipeDigest {
			for _, inner := range differences(*a.of, *b.of) {
				out = append(out, fmt.Sprintf("in the batch %s: %s", k.what, inner))
			}
		}
	}
	out = append(out, yieldDifference(was, now)...)
	if was.KeepsLiquid != now.KeepsLiquid {
		out = append(out, fmt.Sprintf("liquid: %s in the plan's base, %s now", liquidWord(was), liquidWord(now)))
	}
	if len(out) == 0 {
		out = []string{"the shares differ by less than a kitchen can weigh; compare the two recipes"}
	}
	return out
}

// sameSize is by how much the batch grew between two snapshots: the ratio of
// grams that most ingredients have in common, so that one changed amount is named
// alone although it shifts the share of every other. Where no two agree it is one
// if any amount stayed as it was, else the ratio of the raw weights.
func sameSize(keys []partName, before, after map[partName]part, otherwise float64) float64 {
	var ratios []float64
	for _, k := range keys {
		if a, b := before[k], after[k]; a.grams > 0 && b.grams > 0 {
			ratios = append(ratios, b.grams/a.grams)
		}
	}
	best, most := otherwise, 1
	for _, r := range ratios {
		same := 0
		for _, q := range ratios {
			if math.Abs(q-r) <= shareStep*r {
				same++
			}
		}
		if same > most || same == most && math.Abs(r-1) <= shareStep {
			best, most = r, same
		}
	}
	return best
}

// sameShareOtherMethod finds the ingredient that is only cooked in another way.
func sameShareOtherMethod(k partName, p part, in, notIn map[partName]part) (part, string, bool) {
	for other, q := range in {
		if _, both := notIn[other]; both || other.what != k.what || other.method == k.method {
			continue
		}
		if grains(q.share, shareStep) == grains(p.share, shareStep) {
			return q, other.method, true
		}
	}
	return part{}, "", false
}

func yieldDifference(was, now BaseSnapshot) []string {
	switch {
	case was.YieldDeclared != now.YieldDeclared:
		return []string{fmt.Sprintf("yield: %s in the plan's base, %s now", yieldWord(was), yieldWord(now))}
	case was.YieldDeclared && grains(was.CookedG/was.RawG, yieldStep) != grains(now.CookedG/now.RawG, yieldStep):
		x, y := distinct(was.CookedG/was.RawG, now.CookedG/now.RawG)
		return []string{fmt.Sprintf("yield: %s of the raw weight in the plan's base, %s now", x, y)}
	}
	return nil
}

func yieldWord(s BaseSnapshot) string {
	if s.YieldDeclared {
		return "weighed as " + percent(s.CookedG/s.RawG) + " of the raw weight"
	}
	return "computed from the cooking tables"
}

func liquidWord(s BaseSnapshot) string {
	if s.KeepsLiquid {
		return "kept"
	}
	return "poured off"
}

func name(k partName) string {
	if k.method == "" {
		return k.what
	}
	return k.what + " (" + k.method + ")"
}

func methodWord(m string) string { return cmp.Or(m, "ready to eat") }

func percent(share float64) string { return strconv.FormatFloat(100*share, 'f', 1, 64) + " %" }

// distinct writes two shares with as many digits as it takes to tell them apart,
// up to the grain of the recipe.
func distinct(a, b float64) (string, string) {
	for digits := 1; ; digits++ {
		x, y := strconv.FormatFloat(100*a, 'f', digits, 64), strconv.FormatFloat(100*b, 'f', digits, 64)
		if x != y || digits >= 4 {
			return x + " %", y + " %"
		}
	}
}

// inGrams rounds to what a kitchen would weigh.
func inGrams(g float64) string {
	if math.Abs(g) < 10 {
		return strconv.FormatFloat(g, 'f', 2, 64) + " g"
	}
	return strconv.FormatFloat(g, 'f', 0, 64) + " g"
}

// DiffBases lists what tells two bases apart, in words; nothing when they are one
// recipe.
func DiffBases(was, now BaseSnapshot) []string {
	if was.RecipeDigest == now.RecipeDigest {
		return nil
	}
	return differences(was, now)
}
