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

// Vet is what a veterinarian or a nutritionist reads of one plan.
type Vet struct {
	Name, Animal string
	Household    string
	Code         string
	Date         household.Date
	Facts        []string
	Banner       []string
	Metabolic    string
	Rows         []vetRow
	Ratios       []string
	Sources      []string
	Ingredients  []Item
	Given        []Item
	Deciding     []string
	Mind         []string
	Cooking      []string
	Digests      []string
}

// vetRow is one nutrient on every basis; source holds numbers of the list of
// sources.
type vetRow struct {
	Name, Day, Per1000, PerMetabolic, PerDry, Lower, Upper, Known, State, Source string
	Inside                                                                       bool
}

func NewVet(p household.Paired) (*Vet, error) {
	plan := p.Plan()
	pet := &plan.Pet
	if !pet.Status.Printable() {
		return nil, &household.NotPrintableError{Pet: pet.Pet, Status: pet.Status, Why: pet.Conflict}
	}
	v := &Vet{Name: pet.Pet, Animal: AnimalText(pet.Species, pet.WeightKg), Household: plan.Household, Code: plan.Base.Code, Date: plan.Date,
		Mind: append(append([]string(nil), pet.Notes...), pet.Cautions...)}
	if pet.Status == household.Short {
		v.Banner = shortfalls(pet)
	}
	v.Facts = append(vetFacts(pet, plan.Date), waterText(pet.Makeup))
	v.Metabolic = "per kg^0.75"
	if pet.Species == nutrients.Cat {
		v.Metabolic = "per kg^0.67"
	}
	v.nutrients(plan)
	for _, r := range pet.Ratios {
		v.Ratios = append(v.Ratios, ratioText(r))
	}
	v.ingredient(plan.Base.Ingredients, "")
	v.amounts(pet)
	v.Deciding = Deciding(pet)
	v.Cooking = sameNotes(plan.Base.CookingNotes)
	v.Digests = []string{"recipe " + InGroups(plan.Base.RecipeDigest), "figures " + InGroups(plan.Base.FiguresDigest)}
	return v, nil
}

func vetFacts(pet *household.PetPlan, day household.Date) []string {
	facts := []string{About(pet, day) + ", standard " + pet.Standard.Title(), ageText(pet.Born, day)}
	weighed := "weight from the household's file"
	if !pet.WeightDate.IsZero() {
		weighed = "weighed on " + pet.WeightDate.String()
	}
	if pet.Condition > 0 {
		weighed += fmt.Sprintf(", body condition %d of 9", pet.Condition)
	}
	facts = append(facts, weighed+", weigh again by "+pet.WeighAgainBy.String())
	return append(facts, fmt.Sprintf("energy %s kcal a day (%s); planned %s kcal; reference energy of the standard %s kcal",
		number.Short(pet.EnergyKcal), pet.EnergyMethod, number.Short(pet.PlannedKcal), number.Short(pet.ReferenceKcal)))
}

// Ages are said in weeks up to the one, then in months up to the other, then in years:
// as exactly as an age is asked for.
const (
	weeksUntil  = 26
	monthsUntil = 24
)

// age says how old an animal is on a day, "" where that is not known.
func age(born, day household.Date) string {
	if born.IsZero() || day.Before(born) {
		return ""
	}
	b, d := born.Time(), day.Time()
	months := 12*(d.Year()-b.Year()) + int(d.Month()) - int(b.Month())
	if d.Day() < b.Day() {
		months--
	}
	switch weeks := day.DaysSince(born) / 7; {
	case weeks < weeksUntil:
		return plural(weeks, "week")
	case months < monthsUntil:
		return plural(months, "month")
	}
	return plural(months/12, "year")
}

// ageText says when an animal was born and how old it was on a day.
func ageText(born, day household.Date) string {
	if born.IsZero() {
		return "age not given"
	}
	return "born " + DayText(born) + ", " + age(born, day) + " old"
}

// waterText says how much water the food of a day brings, where it is known.
func waterText(m *household.Makeup) string {
	switch {
	case m == nil:
		return "water in the food not recorded"
	case m.WaterG == nil:
		return "water in the food unknown, because too much of it has no figure"
	}
	return fmt.Sprintf("water in the food about %.0f g a day, %.0f %% of it", *m.WaterG, 100**m.WaterG/m.WeightG)
}

// nutrients fills the table; an amount that is unknown is unknown on every basis.
func (v *Vet) nutrients(plan *household.Plan) {
	pet := &plan.Pet
	weight := pet.IdealWeightKg
	if weight <= 0 {
		weight = pet.WeightKg
	}
	metabolicKg := nutrients.MetabolicKg(pet.Species, weight)
	for _, n := range pet.Nutrients {
		r := vetRow{Name: n.Name + ", " + UnitText(n.Unit), Inside: n.State == household.StateMet, State: string(n.State),
			Day: "unknown", Per1000: "–", PerMetabolic: "–", PerDry: "–", Lower: "–", Upper: "–"}
		amount, lower, upper := against(n.Amount, n.Lower, n.Upper, n.State)
		if lower != "" {
			r.Lower = lower
		}
		if upper != "" {
			r.Upper = upper
		}
		r.Known = NewBar(n).Coverage
		if n.Amount != nil {
			r.Day = amount
			if pet.PlannedKcal > 0 {
				r.Per1000 = number.Short(*n.Amount / pet.PlannedKcal * 1000)
			}
			r.PerMetabolic = number.Short(*n.Amount / metabolicKg)
			if m := pet.Makeup; m != nil && m.DryMatterG != nil {
				r.PerDry = number.Short(*n.Amount / *m.DryMatterG * 100)
			}
		}
		switch {
		case n.State != household.StateMet:
			r.State = strings.ToUpper(r.State)
		case !n.UpperChecked:
			r.State = "met*"
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
		v.Rows = append(v.Rows, r)
	}
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

// source returns the number of a source in the list, which grows as needed.
func (v *Vet) source(s string) string {
	i := slices.Index(v.Sources, s)
	if i < 0 {
		i = len(v.Sources)
		v.Sources = append(v.Sources, s)
	}
	return strconv.Itoa(i + 1)
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

// amounts lists what is given in a day with the ids of the foods.
func (v *Vet) amounts(pet *household.PetPlan) {
	v.Given = append(v.Given, Item{Grams(pet.BaseG), "Base", fmt.Sprintf("%.2f kcal per g", pet.BaseKcalPerG)})
	for _, a := range pet.Addons {
		remark := a.Food
		if s := purpose(pet, a); s != "" {
			remark += "; " + s
		}
		if a.EveryDays > 1 {
			remark += fmt.Sprintf("; on average, as %s every %d days", Grams(a.G*float64(a.EveryDays)), a.EveryDays)
		}
		v.Given = append(v.Given, Item{Grams(a.G), a.Name, remark})
	}
	for _, e := range pet.Extras {
		v.Given = append(v.Given, Item{Grams(e.G), e.Name, e.Food + ", always given"})
	}
}

// digestGroup is how many signs of a digest stand together.
const digestGroup = 16

// InGroups writes a digest so that eyes can compare it and lines can break in it.
func InGroups(digest string) string {
	kind, signs, found := strings.Cut(digest, ":")
	if !found {
		kind, signs = "", digest
	}
	groups := []string{kind}
	for group := range slices.Chunk([]byte(signs), digestGroup) {
		groups = append(groups, string(group))
	}
	return strings.TrimSpace(strings.Join(groups, " "))
}
