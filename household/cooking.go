package household

import (
	"fmt"
	"math"

	"bowlwright/household/diag"
	"bowlwright/household/quantity"
)

// CookingFormat names the record format of a cooking.
const CookingFormat = "bowlwright/cooking-record/1"

// yieldTolerance is the share by which the weight of a cooked batch may differ
// from the expected one before portions are worked out anew: less is the scatter
// of a kitchen scale and what sticks to the pot (common practice).
const yieldTolerance = 0.02

// Cooking is what came out of the pot on one day.
type Cooking struct {
	Format string       `json:"format"`
	Date   Date         `json:"date"`
	Base   BaseSnapshot `json:"base"`
	// RawG is the weight of the ingredients that went in, CookedG what the scale
	// said afterwards, ExpectedG what the recipe expects of RawG.
	RawG      float64 `json:"raw_g"`
	CookedG   float64 `json:"cooked_g"`
	ExpectedG float64 `json:"expected_g"`
	Note      string  `json:"note,omitempty"`
}

// NewCooking is what came out when rawG of ingredients (0 for the amounts as
// declared) gave cookedG. A weight that no pot gives is a *diag.InputError.
func NewCooking(base *Batch, date Date, rawG, cookedG float64, note string) (*Cooking, error) {
	s := base.Snapshot()
	if rawG <= 0 {
		rawG = s.RawG
	}
	if share := cookedG / rawG; !(share >= minYieldShare && share <= maxYieldShare) {
		return nil, diag.BadInput("absurd-yield", fmt.Sprintf("%s kg cooked from %s kg of ingredients cannot be", quantity.Text(cookedG/1000), quantity.Text(rawG/1000)), "weigh the cooked batch without the pot, and check the unit")
	}
	return &Cooking{Format: CookingFormat, Date: date, Base: s, RawG: rawG, CookedG: cookedG,
		ExpectedG: s.CookedG * rawG / s.RawG, Note: note}, nil
}

// Examine holds the numbers of a recorded cooking against each other: the base against
// its digest, and what was expected against the recipe. What does not hold is an
// *UnsoundError.
func (c *Cooking) Examine() error {
	s := &c.Base
	digest, ok := s.digestOfRecipe()
	switch share := c.CookedG / c.RawG; {
	case !ok || digest != s.RecipeDigest || codeOf(digest) != s.Code:
		return &UnsoundError{What: "the cooking of " + s.Name, Why: "its recipe is not that of its code " + s.Code}
	case !(share >= minYieldShare && share <= maxYieldShare):
		return &UnsoundError{What: "the cooking of " + s.Name, Why: fmt.Sprintf("%g g cooked from %g g of ingredients", c.CookedG, c.RawG)}
	case !same(c.ExpectedG, s.CookedG*c.RawG/s.RawG, 0):
		return &UnsoundError{What: "the cooking of " + s.Name, Why: fmt.Sprintf("the recipe does not expect %g g", c.ExpectedG)}
	}
	return nil
}

// Factor is by how much every portion grows for this cooking: the nutrients of
// the batch are spread over more or less weight than expected. It is one within
// the tolerance.
func (c *Cooking) Factor() float64 {
	f := c.CookedG / c.ExpectedG
	if math.Abs(f-1) <= yieldTolerance {
		return 1
	}
	return f
}

// PortionG returns the daily grams of base of a plan for this cooking, on the
// scale step of the plan. A plan for another base is refused with a *MixUpError.
func (c *Cooking) PortionG(p Paired) (float64, error) {
	if p.plan.Base.RecipeDigest != c.Base.RecipeDigest && !p.base.IsRecorded(c.Base) {
		return 0, &MixUpError{Pet: p.plan.Pet.Pet, PlanBase: p.plan.Base, Now: c.Base, Differences: differences(p.plan.Base, c.Base)}
	}
	g := p.plan.Pet.BaseG * c.Factor()
	if step := p.plan.Pet.Scales.ScaleG; step > 0 && c.Factor() != 1 {
		g = math.Round(g/step) * step
	}
	return g, nil
}

// ForPot returns the plan with the grams of base that this pot asks for, and a note
// that says so, where the pot came out heavier or lighter than expected: the same
// food weighs more or less, so the day holds the same. Within the tolerance, and
// for a plan without amounts, it is the plan itself. A plan for another base is
// refused with a *MixUpError.
func (c *Cooking) ForPot(p Paired) (Paired, error) {
	g, err := c.PortionG(p)
	if err != nil || c.Factor() == 1 || !p.plan.Pet.Status.Printable() {
		return p, err
	}
	plan := *p.plan
	plan.Pet.Notes = append([]string{fmt.Sprintf(
		"For the pot of %s, which weighed %s g and not %s g: %s g of base a day, not %s g. Another pot needs its own card.",
		c.Date, quantity.Text(math.Round(c.CookedG)), quantity.Text(math.Round(c.ExpectedG)), quantity.Text(g), quantity.Text(plan.Pet.BaseG))}, plan.Pet.Notes...)
	plan.Pet.BaseKcalPerG *= plan.Pet.BaseG / g
	plan.Pet.Makeup = plan.Pet.Makeup.withWater(g - plan.Pet.BaseG)
	plan.Pet.BaseG = g
	return Paired{plan: &plan, base: p.base, mix: p.mix, own: p.own}, nil
}
