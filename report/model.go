package report

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// card is what a daily card shows, worked out once for every renderer.
type card struct {
	household, pet, about string
	// onPaper is the name where letters may be missing.
	onPaper            string
	baseName, baseCode string
	date, weighBy      string
	made               string
	banner             []string
	base               string
	meals              []string
	portions           []item
	// addons are given daily, seldom once in several days.
	addons, seldom []item
	premix, extras []item
	premixRecipe   string
	bars           []bar
	// inside says how many of them are inside their limits.
	inside   string
	ratios   []string
	storage  []string
	cautions []string
	notes    []string
	legend   []string
	weights  []household.WeighIn
}

// item is a line of the feeding list.
type item struct{ amount, name, remark string }

// whole is the name with its remark.
func (i item) whole() string {
	if i.remark == "" {
		return i.name
	}
	return i.name + " (" + i.remark + ")"
}

// Heads of what is given whatever the plan says, and of what is not given daily.
const (
	extrasTitle = "Every day as well, counted in"
	seldomTitle = "Not every day"
)

// addonsTitle heads the list of add-ons.
func (c *card) addonsTitle() string {
	switch {
	case len(c.addons) > 0:
		return "Add-ons, once a day, into one meal"
	case len(c.seldom) > 0:
		return "No add-on is needed daily"
	}
	return "No add-on is needed"
}

// NotPrintableError says that a plan has no amounts that may be printed.
type NotPrintableError struct {
	Pet    string
	Status household.Status
	Why    []string
}

func (e *NotPrintableError) Error() string {
	return fmt.Sprintf("no card for %s: the plan is %s: %s", e.Pet, e.Status, strings.Join(e.Why, "; "))
}

// ExitCode is that of a plan that does not meet its targets.
func (e *NotPrintableError) ExitCode() int { return diag.ExitNotMet }

// Hint says how to see what stands in the way.
func (e *NotPrintableError) Hint() diag.Hint { return diag.Command("", "explain", e.Pet) }

// newCard gathers what a card shows, or a *NotPrintableError.
func newCard(p household.Paired) (*card, error) {
	plan := p.Plan()
	pet := &plan.Pet
	if !pet.Status.Printable() {
		return nil, &NotPrintableError{pet.Pet, pet.Status, pet.Conflict}
	}
	c := &card{household: plan.Household, pet: pet.Pet, baseName: p.Base().Name, baseCode: plan.Base.Code,
		date: plan.Date.String(), weighBy: pet.WeighAgainBy.String(), cautions: pet.Cautions, notes: pet.Notes}
	c.about, c.onPaper = about(pet), paperName(pet)
	c.made = fmt.Sprintf("Made on %s for %s kg and %s kcal a day, by %s.", plan.Date, kilos(pet.WeightKg), number(pet.EnergyKcal), pet.Standard.Title())
	if pet.Status == household.Short {
		c.banner = shortfalls(pet)
	}
	c.base = grams(pet.BaseG)
	c.meals = mealLines(pet)
	meals := max(1, pet.Meals)
	for i, g := range mealShares(pet.BaseG, meals, pet.Scales.ScaleG) {
		c.portions = append(c.portions, item{amount: grams(g), name: mealName(i, meals)})
	}
	for _, a := range pet.Addons {
		switch {
		case a.ServedAs == "premix":
		case a.EveryDays > 1:
			c.seldom = append(c.seldom, item{dose(a), a.Name, doseRemark(a)})
		default:
			c.addons = append(c.addons, item{dose(a), a.Name, doseRemark(a)})
		}
	}
	if pet.Premix != nil {
		c.addons = append([]item{{grams(pet.Premix.ServeG), "Premix", "recipe below"}}, c.addons...)
		c.premixLines(pet)
	}
	for _, e := range pet.Extras {
		c.extras = append(c.extras, item{grams(e.G), e.Name, ""})
	}
	for _, n := range pet.Nutrients {
		c.bars = append(c.bars, newBar(n))
	}
	for _, r := range pet.Ratios {
		c.ratios = append(c.ratios, ratioText(r))
	}
	c.inside = insideText(c.bars)
	c.storage = storageRules
	c.legend = legend(pet)
	return c, nil
}

// about is the line under the name.
func about(pet *household.PetPlan) string {
	s := fmt.Sprintf("%s, %s, %s kg", pet.Species, stageWord(pet.Stage), kilos(pet.WeightKg))
	if pet.IdealWeightKg > 0 && math.Abs(pet.IdealWeightKg-pet.WeightKg) > 0.005 {
		s += fmt.Sprintf(" (ideal %s kg)", kilos(pet.IdealWeightKg))
	}
	s += fmt.Sprintf(", %s kcal a day", number(pet.EnergyKcal))
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
			lines = append(lines, fmt.Sprintf("%s: nothing is known of it, %s %s are needed", n.Name, number(*n.Lower), unitText(n.Unit)))
			continue
		}
		if missing := *n.Lower - *n.Amount; n.State == household.StateLow && missing > 0 {
			amount, lower, _ := figuresOf(n)
			lines = append(lines, fmt.Sprintf("%s: %s of %s %s, %s missing", n.Name, amount, lower, unitText(n.Unit), missingShare(missing / *n.Lower)))
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

func (c *card) premixLines(pet *household.PetPlan) {
	m := pet.Premix
	c.premixRecipe = fmt.Sprintf("Weigh once for %d days, mix very well, keep dry and dark. Makes %s, of which %s go into each day.", m.Days, grams(m.TotalG), grams(m.ServeG))
	for _, it := range m.Items {
		remark := ""
		if it.Carrier {
			remark = "carrier"
		}
		c.premix = append(c.premix, item{grams(it.G), it.Name, remark})
	}
}

// storageRules are kitchen rules with their sources (USDA food safety rules as
// restated by extension services; freezer time for quality is recalled).
var storageRules = []string{
	"Fridge at 4 °C or below: 3 to 4 days. Freezer at -18 °C: 2 to 3 months (recalled). Thaw in the fridge.",
	"Cool in layers of 5 cm and chill within 2 hours. Throw away what stood in the bowl for 2 hours.",
}

// legendWith says how to read the bars; unknown names the look of what nobody knows.
func (c *card) legendWith(unknown string) []string {
	first := "First stroke: lower limit; second, where there is one: upper limit. " + unknown + ": part of the food whose figure nobody knows."
	return append([]string{first}, c.legend...)
}

// insideText says how many nutrients are inside their limits.
func insideText(bars []bar) string {
	inside, partly := 0, 0
	for _, b := range bars {
		if b.inside {
			inside++
		}
		if b.inside && b.state != "met" {
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

// deciding says the limits that decide a plan, and what each costs.
func deciding(pet *household.PetPlan) []string {
	var lines []string
	for _, b := range pet.Binding {
		costs := b.Costs
		if of, ok := strings.CutSuffix(costs, " per ug"); ok {
			costs = of + " per " + unitText("ug")
		}
		lines = append(lines, limitWords(pet, b.Limit)+": "+costs)
	}
	return lines
}

// limitWords says a limit of the program, "calcium lower", with its figure: "at least
// 191 mg of calcium".
func limitWords(pet *household.PetPlan, limit string) string {
	id, side, _ := strings.Cut(limit, " ")
	figure := func(lower, upper *float64) (string, bool) {
		switch {
		case side == "lower" && lower != nil:
			return "at least " + number(*lower), true
		case side == "upper" && upper != nil:
			return "at most " + number(*upper), true
		}
		return "", false
	}
	for _, n := range pet.Nutrients {
		if words, ok := figure(n.Lower, n.Upper); ok && n.ID.String() == id {
			return words + " " + unitText(n.Unit) + " of " + nutrients.InSentence(n.Name)
		}
	}
	for _, r := range pet.Ratios {
		if words, ok := figure(r.Lower, r.Upper); ok && r.ID == id {
			return nutrients.RatioName(r.ID) + " " + words
		}
	}
	return limit
}
