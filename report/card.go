package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// Setting is what a document shows beside the plan.
type Setting struct {
	// Day is the first day of the calendar; the day of the plan when zero.
	Day household.Date
	// Weights is the weight log; weighings are drawn when there are two or more.
	Weights []household.WeighIn
	// Notices by pet stand across the top.
	Notices map[string][]Notice
	// Courses by pet say where a weight goes: the goal, the rate that is aimed at and what
	// is expected.
	Courses map[string]household.WeightCourse
}

// Card is what a daily card shows, worked out once for every renderer.
type Card struct {
	Household, Pet string
	// Animal tells the pet where letters of its name cannot be printed: "dog, 31.5 kg".
	Animal string
	// About says who it is, Feeding how much energy and whether it is losing weight.
	About, Feeding     string
	BaseName, BaseCode string
	Planned            household.Date
	// From and Until are the days that the calendar shows and the plan is for.
	From, Until household.Date
	WeighBy     household.Date
	Made        string
	Notices     []Notice
	// Banner says what is below its minimum, and why nothing may be shown as if it were met.
	Banner []string
	// Base is all of a day.
	Base  string
	Meals []Meal
	// Addons are given daily, Seldom once in several days.
	Addons []Item
	Seldom []Seldom
	Extras []Item
	// Jar is the premix, nil when there is none.
	Jar     *Jar
	Verdict string
	Watched []Watch
	Bars    []Bar
	Ratios  []string
	Storage []string
	// Own are the limits that the household set.
	Own      []OwnLimit
	Cautions []string
	Notes    []string
	legend   []string
	Weights  []household.WeighIn
	// Course is where the weight goes; the zero value says nothing.
	Course household.WeightCourse
}

// Meal is a row of the table of meals, or several equal ones.
type Meal struct {
	Name, Amount string
	// Count is how many meals stand in the row.
	Count int
	// Addons says that the add-ons go into this meal.
	Addons bool
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

// Seldom is an add-on that is not given daily.
type Seldom struct {
	Item
	// Rhythm is how often: "once a week".
	Rhythm string
	// Days are those of the calendar, Dates the same in words.
	Days  []household.Date
	Dates string
}

// Jar is what a premix is and how it is dosed.
type Jar struct {
	// Code is that of the jar, "" for a premix that has none.
	Title, Code, Dose string
	// MixedOn and GoodUntil are zero while it is not known to be mixed.
	MixedOn, GoodUntil household.Date
	// Shared says that other pets eat from it too.
	Shared bool
	// Days is for how many days it is mixed, Total what is mixed for them.
	Days    int
	Total   string
	Recipe  string
	Powders []Item
}

// Heads of what is given whatever the plan says, and of what is not given daily.
const (
	ExtrasTitle = "Also given every day (already counted)"
	SeldomTitle = "Not every day"
	JarTitle    = "Premix"
	NoteTitle   = "Please note"
	StoreTitle  = "Storage"
	ShortTitle  = "NOT EVERY MINIMUM IS REACHED"
	WatchTitle  = "To watch"
	NoAmounts   = "No amounts are shown, because none of them would be safe."
)

// AddonsTitle heads the list of add-ons and says which meal they go into.
func (c *Card) AddonsTitle() string {
	switch {
	case len(c.Addons) == 0 && len(c.Seldom) == 0:
		return "No add-on is needed"
	case len(c.Meals) == 1 && c.Meals[0].Count == 1:
		return "Add-ons: in the bowl"
	case c.Meals[0].Name == morning:
		return "Add-ons: in the morning bowl"
	}
	return "Add-ons: in the first bowl of the day"
}

// With says what goes into a meal beside the base.
func (c *Card) With(m Meal) string {
	switch {
	case !m.Addons:
		return "base only"
	case len(c.Addons)+len(c.Seldom) == 0:
		return "no add-on"
	}
	return "+ all add-ons below"
}

// WeighText says until when to weigh the pet, by the name that is shown.
func (c *Card) WeighText(name string) string { return "Weigh " + name + " by " + ShortDay(c.WeighBy) }

// Validity says for which days the card is good, and on what condition.
func (c *Card) Validity() (label, days string) {
	span := SpanText(c.From, c.Until)
	switch {
	case Void(c.Notices):
		return "Do not use", "out of date"
	case len(c.Notices) > 0:
		return "Valid", "see above"
	case c.WeighBy.Before(c.From):
		return "Valid once " + c.Pet + " is weighed (due since " + ShortDay(c.WeighBy) + ")", span
	case c.WeighBy.Before(c.Until):
		return "Valid, if " + c.Pet + " is weighed by " + ShortDay(c.WeighBy), span
	}
	return "Valid", span
}

// BaseTotal says the base of a day.
func (c *Card) BaseTotal() string { return c.Base + " a day in total" }

// NewCard gathers what a card shows, or a *household.NotPrintableError.
func NewCard(p household.Paired, s Setting) (*Card, error) {
	plan := p.Plan()
	pet := &plan.Pet
	if !pet.Status.Printable() {
		return nil, &household.NotPrintableError{Pet: pet.Pet, Status: pet.Status, Why: pet.Conflict}
	}
	c := &Card{Household: plan.Household, Pet: pet.Pet, BaseName: p.Base().Name, BaseCode: plan.Base.Code, Planned: plan.Date, From: plan.Date,
		WeighBy: pet.WeighAgainBy, Own: ownLimits(pet), Cautions: pet.Cautions, Notes: pet.Notes, Notices: s.Notices[pet.Pet], Weights: WeightsOf(pet.Pet, s.Weights), Course: s.Courses[pet.Pet]}
	if plan.Date.Before(s.Day) {
		c.From = s.Day
	}
	c.Until = c.From.AddDays(CalendarDays - 1)
	if !pet.GoodUntil.IsZero() && pet.GoodUntil.Before(c.Until) {
		c.Until = pet.GoodUntil
	}
	c.About, c.Feeding, c.Animal = signalment(pet, plan.Date), feedingText(pet), AnimalText(pet.Species, pet.WeightKg)
	c.Made = fmt.Sprintf("Plan of %s for %s kg and %s kcal a day, by %s.", DayText(plan.Date), kilos(pet.WeightKg), number.Short(pet.EnergyKcal), pet.Standard.Title())
	if pet.Status == household.Short {
		c.Banner = shortfalls(pet)
	}
	c.Base = Grams(pet.BaseG)
	c.Meals = mealsOf(pet)
	c.addons(pet)
	c.jar(p)
	for _, n := range pet.Nutrients {
		c.Bars = append(c.Bars, NewBar(n))
	}
	for _, r := range pet.Ratios {
		c.Ratios = append(c.Ratios, ratioText(r))
	}
	c.Verdict, c.Watched = verdict(pet), watched(pet, c.Bars)
	c.Storage = storageRules
	c.legend = legend(pet)
	return c, nil
}

// addons fills the lists of what is given beside the base.
func (c *Card) addons(pet *household.PetPlan) {
	if m := pet.Premix; m != nil {
		c.Addons = append(c.Addons, Item{Grams(m.ServeG), JarTitle, ""})
	}
	for _, a := range pet.Addons {
		switch {
		case a.ServedAs == household.ServedPremix:
		case a.EveryDays > 1:
			days := every(a.EveryDays, c.Planned, c.From)
			c.Seldom = append(c.Seldom, Seldom{Item{dose(a), a.Name, doseRemark(a)}, rhythm(a), days, daysText(days)})
		default:
			c.Addons = append(c.Addons, Item{dose(a), a.Name, doseRemark(a)})
		}
	}
	for _, e := range pet.Extras {
		c.Extras = append(c.Extras, Item{Grams(e.G), e.Name, ""})
	}
	align(c.Addons)
}

// jar says what the premix or the shared jar is, and when it was mixed. From a shared jar
// that is not mixed yet nothing can be fed, and the card says so.
func (c *Card) jar(p household.Paired) {
	pet := &p.Plan().Pet
	switch {
	case pet.Jar != nil:
		c.Jar = sharedJar(pet.Jar)
	case pet.Premix != nil:
		c.Jar = newJar(pet.Premix)
	default:
		return
	}
	if m := p.Mix(); m != nil {
		c.Jar.MixedOn, c.Jar.GoodUntil = m.Date, m.UseBy
	} else if pet.Jar != nil && !Void(c.Notices) {
		c.Notices = append(slices.Clone(c.Notices), Notice{Title: NotMixedTitle, Reasons: []string{nutrients.Capital(c.Jar.Title) + " " + c.Jar.Code + " is not mixed yet: see the mixing sheet."},
			Advice: "When it is mixed, record it, and print this card again."})
	}
}

// sharedJar says what a jar of several pets is.
func sharedJar(d *household.JarDose) *Jar {
	j := &Jar{Title: nutrients.Capital(d.Mix.Name), Code: d.Code, Dose: Grams(d.DoseG), Days: d.Mix.Days, Total: Grams(d.Mix.MakesG), Shared: true}
	if d.Scoops > 0 {
		j.Dose = plural(d.Scoops, "scoop") + " (" + j.Dose + ")"
	}
	j.Recipe = fmt.Sprintf("The recipe makes %s for %d days: see the mixing sheet.", j.Total, j.Days)
	return j
}

// newJar says what a premix of one pet is.
func newJar(m *household.Premix) *Jar {
	j := &Jar{Title: JarTitle, Code: m.Code, Dose: Grams(m.ServeG), Days: m.Days, Total: Grams(m.TotalG)}
	j.Recipe = fmt.Sprintf("Weigh out enough for %d days, mix very well, keep dry and dark. Makes %s; use %s a day.", m.Days, j.Total, j.Dose)
	for _, it := range m.Items {
		remark := ""
		if it.Carrier {
			remark = "carrier"
		}
		j.Powders = append(j.Powders, Item{Grams(it.G), it.Name, remark})
	}
	align(j.Powders)
	return j
}

// AnimalText tells an animal by its kind and weight.
func AnimalText(sp nutrients.Species, kg float64) string {
	return fmt.Sprintf("%s, %s kg", sp, kilos(kg))
}

// poundKg is the international pound.
const poundKg = 0.45359237

// weightText writes a weight in both units that scales for animals show.
func weightText(kg float64) string {
	return fmt.Sprintf("%s kg (%s lb)", kilos(kg), number.Digits(kg/poundKg, shownPounds))
}

// shownPounds are the digits of a weight in pounds.
const shownPounds = 3

// signalment says who an animal is: species, stage, age, weight and goal.
func signalment(pet *household.PetPlan, day household.Date) string {
	parts := []string{string(pet.Species)}
	if pet.Sex != "" {
		parts = append(parts, string(pet.Sex))
	}
	if pet.Neutered {
		parts = append(parts, neuteredWord(pet.Sex))
	}
	parts = append(parts, stageWord(pet.Stage))
	if age := age(pet.Born, day); age != "" {
		parts = append(parts, age)
	}
	parts = append(parts, weightText(pet.WeightKg))
	if goal(pet) {
		parts = append(parts, "goal "+kilos(pet.IdealWeightKg)+" kg")
	}
	return strings.Join(parts, ", ")
}

// neuteredWord is how a neutered animal is called.
func neuteredWord(s household.Sex) string {
	if s == household.Female {
		return "spayed"
	}
	return "neutered"
}

// goal says whether the ideal weight is another than the present one.
func goal(pet *household.PetPlan) bool {
	return pet.IdealWeightKg > 0 && math.Abs(pet.IdealWeightKg-pet.WeightKg) > 0.005
}

// feedingText says the energy of a day.
func feedingText(pet *household.PetPlan) string {
	s := number.Short(pet.EnergyKcal) + " kcal a day"
	if pet.Losing {
		s = "losing weight, " + s
	}
	return s
}

// About is who an animal is and how it is fed, in one line.
func About(pet *household.PetPlan, day household.Date) string {
	return signalment(pet, day) + ", " + feedingText(pet)
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
			lines = append(lines, fmt.Sprintf("%s: no figure is known, and at least %s %s are needed", n.Name, number.Short(*n.Lower), UnitText(n.Unit)))
			continue
		}
		if missing := *n.Lower - *n.Amount; n.State == household.StateLow && missing > 0 {
			amount, lower, _ := against(n.Amount, n.Lower, n.Upper, n.State)
			lines = append(lines, fmt.Sprintf("%s: %s of %s %s, %s below minimum", n.Name, amount, lower, UnitText(n.Unit), missingShare(missing / *n.Lower)))
		}
	}
	for _, r := range pet.Ratios {
		if r.State != household.StateMet {
			lines = append(lines, ratioText(r))
		}
	}
	if len(lines) == 0 {
		// Whatever the record misses, a short plan is never shown as if it were met.
		lines = append(lines, "the plan is recorded as below a minimum")
	}
	return lines
}

// NoteLines are what to mind: the limits that the household set, notes of the plan,
// cautions, kitchen rules.
func (c *Card) NoteLines() []string {
	var own []string
	for _, o := range c.Own {
		own = append(own, o.Text)
	}
	return slices.Concat(own, c.Notes, c.Cautions, c.Storage)
}

// Now says what to do with a card that is out of date, by the name that is shown.
func (c *Card) Now(name string) []string {
	steps := []string{"Update the plan of " + name + ", print the new card, and put this one away."}
	if c.Jar != nil {
		steps = append(steps, "Keep the premix: the new plan says whether it fits, and the dose.")
	}
	return steps
}
