package foodfile

import (
	"fmt"
	"regexp"
	"slices"

	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// kebab is the form of ids.
var kebab = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// Read reads one of the household's own foods.
func Read(d *tomldoc.Document) *nutrients.Food {
	t := d.Table()
	t.Only("id", "name", "group", "state", "per", "unit_grams", "energy", "source", "powder", "carrier", "caution",
		"fiber_apart", "compound", "figures")
	f := &nutrients.Food{Group: "other", State: "own", Own: true}
	f.ID = d.Stem()
	if id, ok := t.Text("id"); ok {
		f.ID = id
	}
	if !kebab.MatchString(f.ID) {
		t.Fault("id", "bad-id", fmt.Sprintf("%q cannot be the id of a food", diag.Clip(f.ID)), "use lower-case letters, digits and single dashes, like fish-oil-kitchen")
	}
	f.Name = f.ID
	if name, ok := t.Text("name"); ok {
		f.Name = name
	}
	if g, ok := t.Text("group"); ok {
		f.Group = g
	}
	if s, ok := t.Text("state"); ok {
		f.State = s
	}
	f.Source.Text = "label, " + d.File
	if s, ok := t.Text("source"); ok {
		f.Source.Text = s
	}
	f.Carrier = t.Yes("carrier")
	f.Powder = t.Yes("powder") || f.Carrier
	f.Cautions, _ = t.List("caution")
	readFigures(t, f)
	return f
}

// readFigures reads per, unit_grams and the table of figures.
func readFigures(t tomldoc.Table, f *nutrients.Food) {
	per := readPer(t, f)
	unitGrams, weighed := t.Positive("unit_grams", "0.61 g", quantity.Mass)
	figures, ok := t.One("figures")
	if !ok {
		if !t.Has("figures") && !t.Has("compound") {
			t.Missing("figures", "no [figures] are given", "write a line [figures] and below it what the label says, like protein = \"12 g\"")
		}
		figures = t.Empty()
	}
	profile := &f.Per100g
	scale := 100 / per
	if f.PerUnit != nil {
		profile, scale = f.PerUnit, 1
	}
	grams := 0.0
	for _, key := range figures.Keys() {
		id, ok := nutrients.ParseID(key)
		if !ok || id.Derived() {
			unknownNutrient(figures, key, ok)
			continue
		}
		var given nutrients.Figure
		x, ok := figures.Quantity(key, "12 "+string(id.Info().Unit), func(s string) (high float64, err error) {
			given, err = figure(s, id, per)
			return given.Hi, err
		})
		if !ok {
			continue
		}
		if given.Lo < 0 || x < 0 {
			figures.Fault(key, "not-positive", key+" is less than nothing", "write what the label says, or leave the line out when it is not known")
			continue
		}
		if g := gramsOf(x, id); f.PerUnit == nil && g > per*1.0001 {
			figures.Fault(key, "impossible-figure", fmt.Sprintf("%s is more than the %s g it is given for", key, quantity.Text(per)), "check the unit, and per = \"…\"")
			continue
		} else if slices.Contains(bulk, id) {
			grams += gramsOf(given.Lo, id)
		}
		profile[id] = given.Scale(scale)
	}
	if f.PerUnit == nil && grams > per*bulkSlack {
		figures.Doc.Add("impossible-figure", figures.Head(), fmt.Sprintf("water, protein, fat, carbohydrate and ash add up to %s g in %s g", quantity.Text(grams), quantity.Text(per)), "check the figures, and per = \"…\"")
	}
	readCompounds(t, profile, scale)
	// Labels in Europe print carbohydrate without the fibre, others with it.
	profile.SetDigestible(t.Yes("fiber_apart"))
	if f.PerUnit != nil && weighed {
		*f = *f.ByUnit(unitGrams)
	}
}

// bulk are the parts that add up to the weight of a food.
var bulk = []nutrients.ID{nutrients.Water, nutrients.Protein, nutrients.Fat, nutrients.Carbohydrate, nutrients.Ash}

// bulkSlack leaves room for the rounding of labels: parts that add up to more
// than this are a slip (common practice).
const bulkSlack = 1.05

// inUnit converts an amount to the nutrient's canonical unit.
func inUnit(x float64, unit string, id nutrients.ID, per float64) (float64, error) {
	want := string(id.Info().Unit)
	switch unit {
	case "":
		n := quantity.Text(x)
		return 0, diag.BadInput("no-unit", n+" has no unit", fmt.Sprintf("write \"%s %s\"", n, want))
	case "%":
		x, unit = x*per/100, "g"
	}
	got, err := nutrients.Convert(x, unit, id)
	if err != nil {
		return 0, diag.BadInput("unknown-unit", err.Error(), "write it in "+want)
	}
	return got, nil
}

// gramsOf is the weight of an amount in the nutrient's canonical unit.
func gramsOf(x float64, id nutrients.ID) float64 {
	switch id.Info().Unit {
	case nutrients.Gram:
		return x
	case nutrients.Milligram:
		return x / 1e3
	case nutrients.Microgram:
		return x / 1e6
	}
	return 0
}

// UnknownNutrient reports, at a key, a name that no nutrient has.
func UnknownNutrient(t tomldoc.Table, key, name string) {
	known := make([]string, 0, nutrients.Count)
	for id := range nutrients.Count {
		known = append(known, id.String())
	}
	hint := "nutrients are named like calcium, vitamin-d, linoleic-acid"
	if near, ok := diag.Nearest(name, known); ok {
		hint = "did you mean " + near + "?"
	}
	t.Fault(key, "unknown-nutrient", fmt.Sprintf("unknown nutrient %q", diag.Clip(name)), hint)
}

func unknownNutrient(t tomldoc.Table, key string, derived bool) {
	if derived {
		t.Doc.Add("derived-nutrient", t.KeySpan(key), key+" is computed and cannot be given", derivedHint(key))
		return
	}
	known := make([]string, 0, nutrients.Count)
	for id := range nutrients.Count {
		if !id.Derived() {
			known = append(known, id.String())
		}
	}
	hint := "nutrients are named like calcium, vitamin-d, linoleic-acid"
	if near, ok := diag.Nearest(key, known); ok {
		hint = "did you mean " + near + "?"
	}
	t.Doc.Add("unknown-nutrient", t.KeySpan(key), fmt.Sprintf("unknown nutrient %q", diag.Clip(key)), hint)
}

func derivedHint(key string) string {
	parts := map[string]string{
		"methionine-cystine": "methionine and cystine", "phenylalanine-tyrosine": "phenylalanine and tyrosine",
		"epa-dha": "epa and dha", "vitamin-a": "retinol and beta-carotene", "vitamin-k": "phylloquinone and menaquinone-4",
		"energy": "protein, fat and carbohydrate",
	}
	return "give " + parts[key] + " instead"
}

// IsID says whether a text can be the id of a food.
func IsID(s string) bool { return kebab.MatchString(s) }
