package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Vet is what a veterinarian or a nutritionist reads of one plan: the first side to judge
// it, the second with every figure.
type Vet struct {
	Name, Animal  string
	Household     string
	Code, JarCode string
	Date          household.Date
	Signalment    string
	Banner        []string
	Notices       []Notice
	Condition     int
	Muscle        string
	WeightNote    string
	Chart         *WeightChart
	Energy        []Fact
	Split         []Share
	SplitNote     string
	Composition   []Fact
	Key           []VetRow
	KeyNote       string
	Recipe        []Item
	RecipeTotal   string
	Uncertain     []string
	Own           []string
	Base          string
	Jar           string
	JarTitle      string
	Mind          []string
	// Limits are those that the household set.
	Limits      []OwnLimit
	Rows        []VetRow
	Ratios      []string
	Marks       []string
	Sources     []string
	Ingredients []Item
	Cooking     []string
	Identity    string
}

// Fact is a figure with its name.
type Fact struct {
	Name, Figure string
	// Main is set off.
	Main bool
}

// Share is a part of a whole, 0 to 1.
type Share struct {
	Name  string
	Share float64
}

// NewVet gathers what the veterinarian's page shows, or a *household.NotPrintableError.
func NewVet(p household.Paired, s Setting) (*Vet, error) {
	plan := p.Plan()
	pet := &plan.Pet
	c, err := NewCard(p, s)
	if err != nil {
		return nil, err
	}
	v := &Vet{Name: pet.Pet, Animal: c.Animal, Household: plan.Household, Code: plan.Base.Code, Date: plan.Date, Banner: c.Banner,
		Condition: pet.Condition, Muscle: muscleText(pet.Muscle), Chart: NewWeightChart(pet, c.Weights, plan.Date), Mind: append(append([]string(nil), pet.Notes...), pet.Cautions...),
		Ratios: c.Ratios, Marks: append(c.LegendMarks(), LegendKnown)}
	for _, n := range c.Notices {
		if n.Void {
			v.Notices = append(v.Notices, n)
		}
	}
	v.Signalment = vetSignalment(pet, plan.Date)
	v.WeightNote = weightNote(pet)
	if words := c.Course.Words(); len(words) > 1 {
		v.WeightNote += " " + strings.Join(words[1:], ". ") + "."
	}
	v.energy(plan)
	v.composition(pet)
	for _, n := range pet.Nutrients {
		v.Rows = append(v.Rows, v.row(pet, n))
	}
	for _, id := range keyNutrients {
		for i, n := range pet.Nutrients {
			if n.ID == id {
				v.Key = append(v.Key, v.Rows[i])
			}
		}
	}
	v.KeyNote = fmt.Sprintf("Minimums a day are for %s kcal, so that less food is not less of a nutrient; maximums for the %s kcal eaten.",
		number.Short(max(pet.EnergyKcal, pet.ReferenceKcal)), number.Short(pet.EnergyKcal))
	v.recipe(plan)
	v.uncertain(pet, c)
	v.own(pet)
	v.ingredient(plan.Base.Ingredients, "")
	v.Base = baseText(plan.Base.Ingredients)
	if c.Jar != nil {
		v.JarTitle, v.JarCode, v.Jar = c.Jar.Title, c.Jar.Code, jarText(pet)
	}
	v.Cooking = sameNotes(plan.Base.CookingNotes)
	v.Identity = "recipe " + plan.Base.RecipeDigest + ", figures " + plan.Base.FiguresDigest
	return v, nil
}

// vetSignalment says who the animal is and by which standard the plan is made.
func vetSignalment(pet *household.PetPlan, day household.Date) string {
	s := nutrients.Capital(signalment(pet, day)) + "; "
	if pet.Breed != "" {
		s += pet.Breed + "; "
	}
	s += ageText(pet.Born, day) + "; home-prepared ration, by " + pet.Standard.Title()
	if pet.Losing {
		s += "; losing weight"
	}
	return s
}

// muscleText says the muscle condition, or leaves it to be marked.
func muscleText(score string) string {
	switch score {
	case "":
		return "normal · mild · moderate · severe loss (mark one)"
	case "normal":
		return score
	}
	return score + " loss"
}

func weightNote(pet *household.PetPlan) string {
	if pet.WeightDate.IsZero() {
		return "Weight from the household's file."
	}
	return "Weighed on " + DayText(pet.WeightDate) + ". Next weighing by " + DayText(pet.WeighAgainBy) + "."
}

// energy lists what the day's energy is made of.
func (v *Vet) energy(plan *household.Plan) {
	pet := &plan.Pet
	goal := pet.IdealWeightKg
	if goal <= 0 {
		goal = pet.WeightKg
	}
	rest := nutrients.Resting(goal)
	add := func(name, figure string, main bool) { v.Energy = append(v.Energy, Fact{name, figure, main}) }
	add(fmt.Sprintf("Resting energy, 70 × %s^0.75", kilos(goal)), fmt.Sprintf("%.0f kcal a day", rest), false)
	add("Factor (planned / resting)", fmt.Sprintf("%.2f", pet.PlannedKcal/rest), false)
	add("Planned", number.Short(pet.PlannedKcal)+" kcal a day", true)
	add("Needed", number.Short(pet.EnergyKcal)+" kcal a day", false)
	add("Reference energy of the standard", number.Short(pet.ReferenceKcal)+" kcal a day", false)
	if m := pet.Makeup; m != nil && m.WeightG > 0 {
		add(fmt.Sprintf("Ration as fed, %.0f g a day", m.WeightG), fmt.Sprintf("%.0f kcal per 100 g", 100*pet.PlannedKcal/m.WeightG), true)
	}
	add("Base alone", fmt.Sprintf("%.0f kcal per 100 g", 100*pet.BaseKcalPerG), false)
}

// composition says where the energy comes from and what else the food is made of; what is
// not known well enough says so.
func (v *Vet) composition(pet *household.PetPlan) {
	m := pet.Makeup
	if m == nil {
		v.SplitNote = "Energy by source, moisture and fibre: not recorded with this plan."
		return
	}
	if m.ProteinKcal != nil && m.FatKcal != nil && m.CarbohydrateKcal != nil {
		all := *m.ProteinKcal + *m.FatKcal + *m.CarbohydrateKcal
		for _, part := range []struct {
			name string
			kcal float64
		}{{"protein", *m.ProteinKcal}, {"fat", *m.FatKcal}, {"carbohydrate", *m.CarbohydrateKcal}} {
			v.Split = append(v.Split, Share{fmt.Sprintf("%s %.0f %%", part.name, 100*part.kcal/all), part.kcal / all})
		}
		f := nutrients.Atwater(pet.Species)
		v.SplitNote = fmt.Sprintf("Energy by %s / %s / %s kcal per g:", number.Short(f.Protein), number.Short(f.Fat), number.Short(f.Carbohydrate))
	} else {
		v.SplitNote = "Energy by source: too much of the food has no figure."
	}
	moisture, fibre := "unknown", "unknown"
	if m.WaterG != nil {
		moisture = fmt.Sprintf("%.0f %% (%.0f g a day)", 100**m.WaterG/m.WeightG, *m.WaterG)
	}
	if m.FibreG != nil {
		fibre = number.Short(*m.FibreG) + " g a day"
		if m.DryMatterG != nil {
			fibre += fmt.Sprintf(", %.0f %% of dry matter", 100**m.FibreG / *m.DryMatterG)
		}
	}
	v.Composition = []Fact{{"Moisture", moisture, false}, {"Total dietary fibre", fibre, false}}
	for _, r := range pet.Ratios {
		name := nutrients.RatioName(r.ID)
		v.Composition = append(v.Composition, Fact{nutrients.Capital(name), strings.TrimPrefix(ratioText(r), name+" "), r.State != household.StateMet})
	}
}

// recipe lists a day in grams.
func (v *Vet) recipe(plan *household.Plan) {
	pet := &plan.Pet
	add := func(g float64, name, remark string) { v.Recipe = append(v.Recipe, Item{Grams(g), name, remark}) }
	add(pet.BaseG, "Base "+plan.Base.Code, "")
	total := pet.BaseG
	if m := pet.Premix; m != nil {
		add(m.ServeG, strings.TrimSpace(JarTitle+" "+m.Code), "")
	}
	for _, a := range pet.Addons {
		total += a.G
		if a.ServedAs == household.ServedPremix {
			continue
		}
		remark := ""
		if a.EveryDays > 1 {
			remark = Grams(a.G*float64(a.EveryDays)) + " " + rhythm(a)
		}
		add(a.G, a.Name, remark)
	}
	for _, e := range pet.Extras {
		total += e.G
		add(e.G, e.Name, "treat")
	}
	align(v.Recipe)
	v.RecipeTotal = number.Decimals(total, 1) + " g as fed"
}

// uncertain says what the plan rests on that is not certain.
func (v *Vet) uncertain(pet *household.PetPlan, c *Card) {
	for _, w := range c.Watched {
		if !w.Failed && w.Bar.LittleKnown {
			v.Uncertain = append(v.Uncertain, nutrients.Capital(w.Name)+": "+w.Reason+".")
		}
	}
	var recalled []string
	for _, b := range pet.Binding {
		for _, n := range pet.Nutrients {
			if n.Recalled && (b.Limit == nutrients.MinimumOf(n.ID) || b.Limit == nutrients.MaximumOf(n.ID)) {
				recalled = append(recalled, nutrients.InSentence(n.Name))
			}
		}
	}
	if len(recalled) > 0 {
		v.Uncertain = append(v.Uncertain, "Limits quoted from memory that decide: "+strings.Join(recalled, ", ")+".")
	}
	unchecked := 0
	for _, n := range pet.Nutrients {
		if n.Upper != nil && !n.UpperChecked {
			unchecked++
		}
	}
	if unchecked > 0 {
		v.Uncertain = append(v.Uncertain, plural(unchecked, "maximum")+" not fully checked: side 2.")
	}
	if len(v.Uncertain) == 0 {
		v.Uncertain = []string{"Nothing that decides."}
	}
}

// own says what the household has set.
func (v *Vet) own(pet *household.PetPlan) {
	v.Limits = ownLimits(pet)
	if len(pet.Avoid) > 0 {
		v.Own = append(v.Own, "Avoids: "+strings.Join(pet.Avoid, ", ")+".")
	}
	var treats []string
	for _, e := range pet.Extras {
		treats = append(treats, Grams(e.G)+" "+e.Name)
	}
	if len(treats) > 0 {
		v.Own = append(v.Own, "Treats, counted: "+strings.Join(treats, ", ")+".")
	} else {
		v.Own = append(v.Own, "Treats: none counted.")
	}
	if pet.FedBefore != "" {
		v.Own = append(v.Own, "Fed before: "+strings.TrimSuffix(pet.FedBefore, ".")+".")
	}
	if pet.EnergyGiven {
		v.Own = append(v.Own, "Energy given by the household.")
	}
}

// baseText lists the ingredients of a base by raw weight in one paragraph.
func baseText(list []household.IngredientSnapshot) string {
	var parts []string
	for _, in := range list {
		parts = append(parts, in.Name+" "+number.Decimals(100*in.Share, 1))
	}
	return strings.Join(parts, "; ") + "."
}

// jarText lists the powders of a premix or a jar by weight in one paragraph.
func jarText(pet *household.PetPlan) string {
	var parts []string
	add := func(name string, g, total float64) {
		parts = append(parts, name+" "+number.Decimals(math.Round(1e4*g/total)/100, 2))
	}
	switch {
	case pet.Jar != nil:
		for _, x := range pet.Jar.Mix.Parts {
			add(x.Name, x.G, pet.Jar.Mix.MakesG)
		}
	case pet.Premix != nil:
		for _, x := range pet.Premix.Items {
			add(x.Name, x.G, pet.Premix.TotalG)
		}
	}
	return strings.Join(parts, "; ") + "."
}
