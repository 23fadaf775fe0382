package nutrients

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed data/cooking.txt
var cookingText string

// Cooked is a raw food as a cooking method leaves it.
type Cooked struct {
	// Kept is the profile that 100 g of the raw food keep through cooking,
	// still per 100 g of raw weight.
	Kept Profile
	// YieldShare is the cooked weight per raw weight.
	YieldShare float64
	// Notes say what was lost and from which table, for people.
	Notes  []string
	Source Source
}

// kept is one retention factor: the share that stays, with its range and origin.
type kept struct {
	share, low, high float64
	recalled         bool
}

type cookingTables struct {
	kept   map[[2]string]map[ID]kept // by food group and kind of method
	yields map[[2]string]float64     // by kind of method and food id
	fats   map[[2]string]float64     // the share of fat that stays, likewise
}

// methodKind maps the words of a kitchen to the kinds of the tables.
var methodKind = map[string]string{
	"simmered": "moist", "stewed": "moist", "boiled": "moist", "poached": "moist", "steamed": "moist",
	"pressure-cooked": "moist", "slow-cooked": "moist", "braised": "braised",
	"roasted": "roasted", "baked": "roasted", "broiled": "grilled", "grilled": "grilled", "pan-fried": "pan",
}

// Methods returns the cooking methods that Cook knows.
func Methods() []string {
	var all []string
	for m := range methodKind {
		all = append(all, m)
	}
	slices.Sort(all)
	return all
}

// cookingGroup maps the catalogue's groups to those of the retention tables.
var cookingGroup = map[string]string{
	"poultry": "poultry", "beef": "beef", "pork": "pork", "lamb": "lamb-veal-game", "veal": "lamb-veal-game",
	"game": "lamb-veal-game", "organ": "organ", "vegetable": "vegetable", "starch-root": "vegetable",
	"seaweed": "vegetable", "legume": "legume", "grain": "grain", "fish": "fish", "shellfish": "fish", "egg": "egg",
}

// kindsFor lists the kinds of method to look up for a group, best first: where a
// table is missing the one that loses more of the same sort of cooking stands in.
var kindsFor = map[string][]string{
	"moist":   {"moist", "boiled", "braised", "roasted"},
	"braised": {"braised", "moist", "boiled", "roasted"},
	"roasted": {"roasted", "grilled", "pan", "boiled"},
	"grilled": {"grilled", "roasted", "pan", "boiled"},
	"pan":     {"pan", "grilled", "roasted", "boiled"},
}

var cooking = sync.OnceValue(func() cookingTables {
	t, err := parseCooking(cookingText)
	if err != nil {
		panic("nutrients: the embedded cooking table is broken: " + err.Error())
	}
	return t
})

func parseCooking(text string) (cookingTables, error) {
	t := cookingTables{kept: map[[2]string]map[ID]kept{}, yields: map[[2]string]float64{}, fats: map[[2]string]float64{}}
	var block map[ID]kept
	for number, line := range strings.Split(text, "\n") {
		f := strings.Fields(line)
		switch {
		case len(f) == 0 || f[0][0] == '#':
		case f[0] == "kept" && len(f) == 3:
			block = map[ID]kept{}
			t.kept[[2]string{f[1], f[2]}] = block
		case (f[0] == "yield" || f[0] == "fat") && len(f) == 4:
			v, err := strconv.ParseFloat(f[3], 64)
			if err != nil {
				return t, fmt.Errorf("line %d: %w", number+1, err)
			}
			shares := t.yields
			if f[0] == "fat" {
				shares = t.fats
			}
			shares[[2]string{f[1], f[2]}] = v / 100
		case len(f) == 6 && block != nil:
			id, ok := ParseID(f[0])
			if !ok {
				return t, fmt.Errorf("line %d: unknown nutrient %s", number+1, f[0])
			}
			k := kept{recalled: f[5] == "r" || f[5] == "t"}
			var err error
			if k.share, err = strconv.ParseFloat(f[1], 64); err != nil {
				return t, fmt.Errorf("line %d: %w", number+1, err)
			}
			// A retention over one is the noise of pairs that are not the same
			// animal: cooking makes no nutrient.
			k.share = min(1, k.share/100)
			k.low, k.high = percentOr(f[2], k.share), percentOr(f[3], k.share)
			block[id] = k
		default:
			return t, fmt.Errorf("line %d is not understood", number+1)
		}
	}
	return t, nil
}

func percentOr(s string, otherwise float64) float64 {
	if v, err := strconv.ParseFloat(s, 64); err == nil {
		return min(1, v/100)
	}
	return otherwise
}

// yieldGroups holds the median yields by group and kind. It needs the groups of
// the foods, so it is worked out when first asked for.
var yieldGroups = sync.OnceValue(func() map[[2]string]float64 {
	lists := map[[2]string][]float64{}
	for key, v := range cooking().yields {
		if f, ok := Default().Food(key[1]); ok {
			g := [2]string{cookingGroup[f.Group], key[0]}
			lists[g] = append(lists[g], v)
		}
	}
	medians := map[[2]string]float64{}
	for g, list := range lists {
		slices.Sort(list)
		n := len(list)
		medians[g] = (list[(n-1)/2] + list[n/2]) / 2
	}
	return medians
})

// A MethodError says that a cooking method is not known.
type MethodError struct{ Method string }

func (e *MethodError) Error() string {
	return fmt.Sprintf("unknown cooking method %q", e.Method)
}

// Cook applies the published retention factors of the food's group and the
// method, for liquid and fat that are poured off. The empty method means ready to
// eat: nothing is lost. An unknown method is a *MethodError. Nutrients that the
// tables do not cover are counted as kept.
func Cook(f *Food, method string) (Cooked, error) { return cook(f, method, false) }

// CookKeepingLiquid is Cook for a batch that keeps its broth, juices and fat.
// Elements do not leave the pot, so minerals and fat are kept in full. What of a
// vitamin or of taurine is destroyed and what only dissolves is not published
// apart: the figure runs from the loss with the liquid poured off to none, and the
// low end counts toward lower limits. In liquid the weight stays as it was (weigh
// the batch: what steams off is not known).
func CookKeepingLiquid(f *Food, method string) (Cooked, error) { return cook(f, method, true) }

func cook(f *Food, method string, keepLiquid bool) (Cooked, error) {
	if method == "" {
		return Cooked{Kept: f.Per100g, YieldShare: 1}, nil
	}
	kind, ok := methodKind[method]
	if !ok {
		return Cooked{}, &MethodError{method}
	}
	c := Cooked{Kept: f.Per100g, YieldShare: 1,
		Source: Source{Text: "USDA SR28 pairs of raw and cooked foods; USDA Table of Nutrient Retention Factors, Release 6"}}
	group := cookingGroup[f.Group]
	table, used := retention(group, kind)
	if table == nil {
		c.Notes = append(c.Notes, fmt.Sprintf("%s: no published losses for this kind of food, counted as raw", method))
	} else {
		applyRetention(&c, method, used, kind, table)
	}
	c.YieldShare = yieldOf(f, group, kind)
	if keepLiquid {
		giveBackLiquid(&c, f, kind)
	} else {
		pourOffFat(&c, f, kind)
	}
	if water := f.Per100g[Water]; water.IsKnown() {
		// The solids stay, so what changes in weight is water.
		left := max(0, 100*c.YieldShare-(100-water.Lo))
		c.Kept[Water] = Known(left)
	}
	return c, nil
}

// retention finds the table for a group, and the kind of method it is of.
func retention(group, kind string) (map[ID]kept, string) {
	for _, k := range kindsFor[kind] {
		if t := cooking().kept[[2]string{group, k}]; t != nil {
			return t, k
		}
	}
	return nil, ""
}

// pouredAway and liquidKept end the note on the losses of cooking.
const (
	pouredAway = "cooking liquid discarded"
	liquidKept = "cooking liquid used: minerals stay; for what both dissolves and is destroyed by heat the low end counts"
)

func applyRetention(c *Cooked, method, used, kind string, table map[ID]kept) {
	recalled, lost := false, []string(nil)
	for id := ID(0); id < firstDerived; id++ {
		k, ok := table[id]
		if !ok || !c.Kept[id].IsKnown() {
			continue
		}
		c.Kept[id] = c.Kept[id].Scale(k.share)
		recalled = recalled || k.recalled
		if k.share < 0.7 {
			lost = append(lost, keptText(id, k))
		}
	}
	// Carotenes and retinol are lost as vitamin A is.
	if k, ok := table[VitaminARAE]; ok {
		for _, id := range []ID{Retinol, BetaCarotene, AlphaCarotene, Cryptoxanthin} {
			c.Kept[id] = c.Kept[id].Scale(k.share)
		}
	}
	note := fmt.Sprintf("%s: cooking losses deducted, %s", method, pouredAway)
	if used != kind && !(kind == "moist" && used == "boiled") {
		note += fmt.Sprintf(" (by the table for %s food)", used)
	}
	if len(lost) > 0 {
		note += "; less than 70 % remains: " + strings.Join(lost, ", ")
	}
	if recalled {
		note += " (some factors recalled)"
		c.Source.Recalled = true
	}
	c.Notes = append(c.Notes, note)
}

// yieldOf returns the cooked share of the raw weight: the food's own pair, else
// the median of its group, else one.
func yieldOf(f *Food, group, kind string) float64 {
	for _, k := range kindsFor[kind] {
		if y, ok := cooking().yields[[2]string{k, f.ID}]; ok {
			return y
		}
	}
	for _, k := range kindsFor[kind] {
		if y, ok := yieldGroups()[[2]string{group, k}]; ok {
			return y
		}
	}
	return 1
}

// keptText says what stays of a nutrient, with the published range where there is one.
func keptText(id ID, k kept) string {
	text := fmt.Sprintf("%s %.0f %%", id.Info().Name, 100*k.share)
	if k.low < k.high {
		text += fmt.Sprintf(" (%.0f to %.0f)", 100*k.low, 100*k.high)
	}
	return text
}
