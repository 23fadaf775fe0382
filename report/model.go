package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Card is what a daily card shows, worked out once for every renderer.
type Card struct {
	household, Pet, About string
	// animal tells the pet where letters of its name cannot be printed: "dog, 31.5 kg".
	Animal             string
	BaseName, BaseCode string
	date, WeighBy      string
	Made               string
	Banner             []string
	Base               string
	Meals              []string
	Portions           []Item
	// addons are given daily, seldom once in several days.
	Addons, Seldom []Item
	Premix, Extras []Item
	PremixRecipe   string
	Bars           []Bar
	// inside says how many of them are inside their limits.
	Inside   string
	Ratios   []string
	Storage  []string
	Own      []OwnLimit
	Cautions []string
	Notes    []string
	legend   []string
	Weights  []household.WeighIn
}

// Item is a line of the feeding list.
type Item struct{ Amount, Name, Remark string }

// Whole is the name with its remark.
func (i Item) Whole() string {
	if i.Remark == "" {
		return i.Name
	}
	return i.Name + " (" + i.Remark + ")"
}

// Heads of what is given whatever the plan says, and of what is not given daily.
const (
	ExtrasTitle = "Every day as well, counted in"
	SeldomTitle = "Not every day"
)

// AddonsTitle heads the list of add-ons.
func (c *Card) AddonsTitle() string {
	switch {
	case len(c.Addons) > 0:
		return "Add-ons, once a day, into one meal"
	case len(c.Seldom) > 0:
		return "No add-on is needed daily"
	}
	return "No add-on is needed"
}

// NewCard gathers what a card shows, or a *household.NotPrintableError.
func NewCard(p household.Paired) (*Card, error) {
	plan := p.Plan()
	pet := &plan.Pet
	if !pet.Status.Printable() {
		return nil, &household.NotPrintableError{Pet: pet.Pet, Status: pet.Status, Why: pet.Conflict}
	}
	c := &Card{household: plan.Household, Pet: pet.Pet, BaseName: p.Base().Name, BaseCode: plan.Base.Code,
		date: plan.Date.String(), WeighBy: pet.WeighAgainBy.String(), Own: ownLimits(pet), Cautions: pet.Cautions, Notes: pet.Notes}
	c.About, c.Animal = About(pet), AnimalText(pet.Species, pet.WeightKg)
	c.Made = fmt.Sprintf("Made on %s for %s kg and %s kcal a day, by %s.", plan.Date, kilos(pet.WeightKg), number.Short(pet.EnergyKcal), pet.Standard.Title())
	if pet.Status == household.Short {
		c.Banner = shortfalls(pet)
	}
	c.Base = Grams(pet.BaseG)
	c.Meals = mealLines(pet)
	shares := household.MealShares(pet.BaseG, pet.Meals, pet.Scales.ScaleG)
	for i, g := range shares {
		c.Portions = append(c.Portions, Item{Amount: Grams(g), Name: mealName(i, len(shares))})
	}
	for _, a := range pet.Addons {
		switch {
		case a.ServedAs == household.ServedPremix:
		case a.EveryDays > 1:
			c.Seldom = append(c.Seldom, Item{dose(a), a.Name, doseRemark(a)})
		default:
			c.Addons = append(c.Addons, Item{dose(a), a.Name, doseRemark(a)})
		}
	}
	if pet.Premix != nil {
		c.Addons = append([]Item{{Grams(pet.Premix.ServeG), "Premix", "recipe below"}}, c.Addons...)
		c.premixLines(pet)
	}
	for _, e := range pet.Extras {
		c.Extras = append(c.Extras, Item{Grams(e.G), e.Name, ""})
	}
	for _, n := range pet.Nutrients {
		c.Bars = append(c.Bars, NewBar(n))
	}
	for _, r := range pet.Ratios {
		c.Ratios = append(c.Ratios, ratioText(r))
	}
	c.Inside = insideText(c.Bars)
	c.Storage = storageRules
	c.legend = legend(pet)
	return c, nil
}

// AnimalText tells an animal by its kind and weight.
func AnimalText(sp nutrients.Species, kg float64) string {
	return fmt.Sprintf("%s, %s kg", sp, kilos(kg))
}

// About is the line under the name.
func About(pet *household.PetPlan) string {
	s := fmt.Sprintf("%s, %s, %s kg", pet.Species, stageWord(pet.Stage), kilos(pet.WeightKg))
	if pet.IdealWeightKg > 0 && math.Abs(pet.IdealWeightKg-pet.WeightKg) > 0.005 {
		s += fmt.Sprintf(" (ideal %s kg)", kilos(pet.IdealWeightKg))
	}
	s += fmt.Sprintf(", %s kcal a day", number.Short(pet.EnergyKcal))
	if pet.Losing {
		s += ", losing weight"
	}
	return s
}

// stageWord is a life stage said of an animal.
func stageWord(s nutrients.Stage) string {
	switch s {
	case nutrients.Growth:
		return "growing"
	case nutrients.Gestation:
		return "pregnant"
	case nutrients.Lactation:
		return "nursing"
	}
	return string(s)
}

// shortfalls says what is missed and by how much.
func shortfalls(pet *household.PetPlan) []string {
	var lines []string
	for _, n := range pet.Nutrients {
		if n.Lower == nil {
			continue
		}
		if n.Amount == nil {
			lines = append(lines, fmt.Sprintf("%s: nothing is known of it, %s %s are needed", n.Name, number.Short(*n.Lower), UnitText(n.Unit)))
			continue
		}
		if missing := *n.Lower - *n.Amount; n.State == household.StateLow && missing > 0 {
			amount, lower, _ := figuresOf(n)
			lines = append(lines, fmt.Sprintf("%s: %s of %s %s, %s missing", n.Name, amount, lower, UnitText(n.Unit), missingShare(missing / *n.Lower)))
		}
	}
	for _, r := range pet.Ratios {
		if r.State != household.StateMet {
			lines = append(lines, ratioText(r))
		}
	}
	if len(lines) == 0 {
		// Whatever the record misses, a short plan is never shown as if it were met.
		lines = append(lines, "the plan is recorded as short")
	}
	return lines
}

// missingShare writes a share in per cent, rounded up so that nothing is made less
// than it is.
func missingShare(share float64) string {
	if share < 0.01 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", math.Ceil(100*share))
}

func (c *Card) premixLines(pet *household.PetPlan) {
	m := pet.Premix
	c.PremixRecipe = fmt.Sprintf("Weigh once for %d days, mix very well, keep dry and dark. Makes %s, of which %s go into each day.", m.Days, Grams(m.TotalG), Grams(m.ServeG))
	for _, it := range m.Items {
		remark := ""
		if it.Carrier {
			remark = "carrier"
		}
		c.Premix = append(c.Premix, Item{Grams(it.G), it.Name, remark})
	}
}

// storageRules are kitchen rules with their sources (USDA food safety rules as
// restated by extension services; freezer time for quality is recalled).
var storageRules = []string{
	"Fridge at 4 °C or below: 3 to 4 days. Freezer at -18 °C: 2 to 3 months (recalled). Thaw in the fridge.",
	"Cool in layers of 5 cm and chill within 2 hours. Throw away what stood in the bowl for 2 hours.",
}

// LegendWith says how to read the bars; unknown names the look of what nobody knows.
func (c *Card) LegendWith(unknown string) []string {
	first := "First stroke: lower limit; second, where there is one: upper limit. " + unknown + ": part of the food whose figure nobody knows."
	return append([]string{first}, c.legend...)
}

// insideText says how many nutrients are inside their limits.
func insideText(bars []Bar) string {
	inside, partly := 0, 0
	for _, b := range bars {
		if b.Inside {
			inside++
		}
		if b.Inside && b.State != "met" {
			partly++
		}
	}
	s := fmt.Sprintf("All %d nutrients are inside their limits", len(bars))
	if inside < len(bars) {
		s = fmt.Sprintf("%d of %d nutrients are inside their limits", inside, len(bars))
	}
	if partly > 0 {
		s += fmt.Sprintf("; %d upper limit", partly)
		if partly > 1 {
			s += "s"
		}
		s += " not fully checked (met*)"
	}
	return s + "."
}

func legend(pet *household.PetPlan) []string {
	var l []string
	partly, recalled := false, false
	for _, n := range pet.Nutrients {
		partly = partly || (n.State == household.StateMet && !n.UpperChecked)
		recalled = recalled || n.Recalled
	}
	if partly {
		l = append(l, "met*: the upper limit is not fully checked, because the figure is unknown for part of the food.")
	}
	if recalled {
		l = append(l, "† limit recalled, not read in a copy of the standard.")
	}
	return l
}

// ratioText says a ratio and its limits, and in words when it misses one.
func ratioText(r household.RatioLine) string {
	amount, lower, upper := against(r.Amount, r.Lower, r.Upper, r.State)
	state := ""
	switch r.State {
	case household.StateMet:
		if r.Amount != nil {
			amount = fmt.Sprintf("%.2f", *r.Amount)
		}
	case household.StateLow:
		state = " LOW"
	case household.StateHigh:
		state = " HIGH"
	default:
		state = " UNKNOWN"
	}
	if amount == "" {
		amount = "unknown"
	}
	return fmt.Sprintf("%s %s%s (%s)", nutrients.RatioName(r.ID), amount, state, rangeWords(lower, upper))
}

// rangeWords says the limits in words; "" stands for one that there is not.
func rangeWords(lower, upper string) string {
	switch {
	case lower != "" && upper != "":
		return lower + " to " + upper
	case lower != "":
		return "at least " + lower
	case upper != "":
		return "at most " + upper
	}
	return "no limit"
}

// Deciding says the limits that decide a plan, and what each costs.
func Deciding(pet *household.PetPlan) []string {
	var lines []string
	for _, b := range pet.Binding {
		costs := b.Costs
		if of, ok := strings.CutSuffix(costs, " per ug"); ok {
			costs = of + " per " + UnitText("ug")
		}
		lines = append(lines, limitWords(pet, b.Limit)+": "+costs)
	}
	return lines
}

// limitWords says a limit of the program with its figure: "at least 191 mg of calcium".
func limitWords(pet *household.PetPlan, limit nutrients.LimitID) string {
	figure := func(lower, upper *float64) (string, bool) {
		switch {
		case limit.Side == nutrients.Minimum && lower != nil:
			return "at least " + number.Short(*lower), true
		case limit.Side == nutrients.Maximum && upper != nil:
			return "at most " + number.Short(*upper), true
		}
		return "", false
	}
	for _, n := range pet.Nutrients {
		if words, ok := figure(n.Lower, n.Upper); ok && limit.Kind == nutrients.OfNutrient && n.ID == limit.Nutrient {
			return words + " " + UnitText(n.Unit) + " of " + nutrients.InSentence(n.Name)
		}
	}
	for _, r := range pet.Ratios {
		if words, ok := figure(r.Lower, r.Upper); ok && limit.Kind == nutrients.OfRatio && r.ID == limit.Name {
			return nutrients.RatioName(r.ID) + " " + words
		}
	}
	return limit.String()
}
