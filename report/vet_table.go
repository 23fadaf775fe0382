package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// VetRow is one nutrient on every basis; Source holds numbers of the list of sources.
type VetRow struct {
	Name, Day, Per1000, Minimum, Maximum, Minimum1000, Maximum1000, PerDry, Known, State, Source string
	Inside                                                                                       bool
}

// per1000 writes an amount in so much energy as an amount in 1000 kcal.
func per1000(x *float64, kcal float64) string {
	if x == nil || kcal <= 0 {
		return noFigure
	}
	return number.Short(*x / kcal * 1000)
}

// noFigure stands for what there is not.
const noFigure = "–"

// row writes a nutrient on every basis. The minimum counts for the standard's reference
// energy where the animal eats less, the maximum for what it eats; what is unknown is
// unknown on every basis.
func (v *Vet) row(pet *household.PetPlan, n household.NutrientLine) VetRow {
	r := VetRow{Name: n.Name + ", " + UnitText(n.Unit), Inside: n.State == household.StateMet, Day: "unknown", Per1000: noFigure, PerDry: noFigure,
		Minimum: noFigure, Maximum: noFigure, Minimum1000: per1000(n.Lower, max(pet.EnergyKcal, pet.ReferenceKcal)), Maximum1000: per1000(n.Upper, pet.EnergyKcal)}
	amount, lower, upper := against(n.Amount, n.Lower, n.Upper, n.State)
	if lower != "" {
		r.Minimum = lower
	}
	if upper != "" {
		r.Maximum = upper
	}
	b := NewBar(n)
	r.Known, r.State = b.Coverage, b.ShortState()
	if n.Amount != nil {
		r.Day, r.Per1000 = amount, per1000(n.Amount, pet.PlannedKcal)
		if m := pet.Makeup; m != nil && m.DryMatterG != nil {
			r.PerDry = number.Short(*n.Amount / *m.DryMatterG * 100)
		}
	}
	var refs []string
	for _, s := range []string{n.LowerSource, n.UpperSource} {
		if s == "" {
			continue
		}
		if ref := v.source(s); !slices.Contains(refs, ref) {
			refs = append(refs, ref)
		}
	}
	r.Source = strings.Join(refs, ", ")
	if n.Recalled {
		r.Source += "†"
	}
	return r
}

// source returns the number of a source in the list, which grows as needed.
func (v *Vet) source(s string) string {
	i := slices.Index(v.Sources, s)
	if i < 0 {
		i = len(v.Sources)
		v.Sources = append(v.Sources, s)
	}
	return strconv.Itoa(i + 1)
}

// sameNotes puts together the foods of which the same is noted: "kale-raw: boiled" and
// "carrot-raw: boiled" become "kale-raw, carrot-raw: boiled".
func sameNotes(notes []string) []string {
	var said, whose []string
	for _, n := range notes {
		food, what, ok := strings.Cut(n, ": ")
		if !ok {
			food, what = "", n
		}
		i := slices.Index(said, what)
		switch {
		case i < 0:
			said, whose = append(said, what), append(whose, food)
		case food != "":
			whose[i] += ", " + food
		}
	}
	for i := range said {
		if whose[i] != "" {
			said[i] = whose[i] + ": " + said[i]
		}
	}
	return said
}

// ingredient lists the base with the ids of its foods, nested batches within.
func (v *Vet) ingredient(list []household.IngredientSnapshot, within string) {
	for _, in := range list {
		id := in.Food
		if in.Of != nil {
			id = "batch " + in.Of.Code
		}
		remark := id
		if in.Method != "" {
			remark += ", " + in.Method
		}
		name := in.Name
		if within != "" {
			name += " in " + within
		}
		v.Ingredients = append(v.Ingredients, Item{fmt.Sprintf("%.1f %%", 100*in.Share), name, remark})
		if in.Of != nil {
			v.ingredient(in.Of.Ingredients, in.Name)
		}
	}
}

// keyNutrients are what a veterinarian looks at first.
var keyNutrients = []nutrients.ID{nutrients.Protein, nutrients.Fat, nutrients.EPADHA, nutrients.Calcium, nutrients.Phosphorus,
	nutrients.Sodium, nutrients.Zinc, nutrients.Copper, nutrients.Iodine, nutrients.VitaminD}
