package optimize

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/upkeep"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/weighing"
)

// fixedCautions stand on every plan.
var fixedCautions = []string{
	"This plan is for a healthy animal. A veterinarian decides for growth, pregnancy, nursing, illness, and weight loss at body condition 8 or 9.",
	"Always provide fresh water.",
}

// record fills a plan.
type record struct {
	req  Request
	p    *diet.Program
	plan *household.Plan
}

// newRecord starts a plan with everything that does not depend on the amounts.
func newRecord(req Request, p *diet.Program) *record {
	h, pet, t := req.Household, req.Pet, p.Targets
	a := diet.AnimalOf(h, pet)
	from := req.Today
	if !pet.WeightDate.IsZero() {
		from = pet.WeightDate
	}
	pp := household.PetPlan{
		Pet: pet.Name, Species: a.Species, Stage: a.Stage, Standard: a.Standard,
		WeightKg: a.WeightKg, IdealWeightKg: t.Energy.IdealKg, WeightDate: pet.WeightDate, Condition: a.Condition,
		Born: pet.Born, Sex: pet.Sex, Neutered: a.Neutered, Avoid: pet.Avoid, Breed: pet.Breed, Muscle: pet.Muscle, FedBefore: pet.FedBefore, Week: a.Week, Litter: a.Litter, EnergyGiven: a.EnergyKcal > 0, GoodUntil: pet.GoodUntil(req.Today),
		EnergyKcal: t.Energy.Kcal, EnergySlack: p.Kitchen.EnergySlack, ReferenceKcal: t.Energy.ReferenceKcal, EnergyMethod: t.Energy.Method, Losing: t.Energy.Losing,
		Meals: h.Kitchen.Meals, BaseKcalPerG: p.Items[0].Per[nutrients.Energy].Lo,
		Addons: []household.AddonAmount{}, Extras: []household.ExtraAmount{}, Nutrients: []household.NutrientLine{},
		Ratios: []household.RatioLine{}, Binding: []household.Binding{},
		ShelfDigest: req.Shared.digests.ShelfDigest(h, pet),
		Scales:      household.ScalesUsed{ScaleG: h.Kitchen.ScaleG, FineScaleG: h.Kitchen.FineScaleG},
	}
	if a.Stage == nutrients.Adult {
		pp.ScoredKg, pp.ScoredOn = pet.ScoredWeight()
	}
	pp.StageSince, pp.SteadySince = pet.StageFrom(req.Today), pet.SteadyFrom(t.Energy.Kcal, req.Today)
	pp.WeighAgainBy = upkeep.WeighAgainBy(pet, from, pp.SteadySince)
	for _, x := range pet.Extras {
		profile := x.Food.Per100g.For(a.Species)
		pp.Extras = append(pp.Extras, household.ExtraAmount{Food: x.Food.ID, Name: x.Food.Name, G: x.Grams,
			Kcal: profile[nutrients.Energy].Lo * x.Grams / 100, Digest: req.Shared.digests.Of(x.Food)})
	}
	pp.StandardDigest = a.StandardDigest()
	pp.OwnLimits, pp.Unsure = household.OwnLimitsOf(t), &household.Unsure{}
	pp.Cautions = append(append(pp.Cautions, t.Cautions...), fixedCautions...)
	return &record{req: req, p: p, plan: &household.Plan{Format: household.PlanFormat, Household: h.Name, Date: req.Today,
		Version: req.Version, Base: req.Shared.snapshot, Pet: pp}}
}

// done hands out the plan with everything that came up on the way.
func (r *record) done() *household.Plan {
	notes := append(r.p.Notes, r.plan.Pet.Notes...)
	for i := range notes {
		notes[i] = sentence(notes[i])
	}
	r.plan.Pet.Notes = notes
	return r.plan
}

// sentence begins a note with a capital and ends it with a full stop, as the cautions
// beside which it is printed are written.
func sentence(note string) string {
	if note == "" {
		return note
	}
	note = nutrients.Capital(note)
	if !strings.ContainsAny(note[len(note)-1:], ".!?") {
		note += "."
	}
	return note
}

// refuse makes the plan one without amounts; the limits are still shown, with
// what the extras bring.
func (r *record) refuse(status household.Status, why ...string) {
	pp := &r.plan.Pet
	pp.Status, pp.Conflict = status, why
	pp.BaseG, pp.Addons, pp.Premix = 0, []household.AddonAmount{}, nil
	r.lines(make([]float64, len(r.p.Items)))
}

// fill puts the weighable day into the plan.
func (r *record) fill(s *diet.Solution, day *weighing.Day) {
	pp := &r.plan.Pet
	pp.BaseG = day.Grams[0]
	if pp.Certificate != nil {
		pp.Certificate.WeighableProved, pp.Certificate.WeighableGap = day.Proved, day.Gap
	}
	var given []*nutrients.Food
	for _, j := range r.p.AsOnShelf() {
		if day.Grams[j] == 0 {
			continue
		}
		x := r.p.Items[j]
		f := x.Addon.Food
		out := household.AddonAmount{Food: f.ID, Name: f.Name, G: day.Grams[j], StepG: day.Doses[j].Step,
			ServedAs: day.Doses[j].ServedAs, Kcal: x.Per[nutrients.Energy].Lo * day.Grams[j],
			Price: x.Addon.PricePerG * day.Grams[j], Digest: r.req.Shared.digests.Of(f), Group: f.Group}
		switch out.ServedAs {
		case household.ServedByUnit:
			out.Unit, out.Units = x.Addon.Unit, math.Round(day.Grams[j]*day.Doses[j].Helping()/x.Addon.UnitGrams*1000)/1000
			out.Measure = weighing.CountMeasure(out.Units, out.Unit)
		case household.ServedWeighed:
			out.Measure = weighing.KitchenMeasure(f, out.G*day.Doses[j].Helping())
		}
		if j := x.Addon.Jar; j != nil {
			r.jar(j, out.G)
			if n := r.plan.Pet.Jar.Scoops; n > 0 {
				out.Measure = weighing.CountMeasure(float64(n), "scoop")
			}
		}
		if every := day.Doses[j].Every; every > 1 {
			out.EveryDays = every
			out.Measure = strings.TrimPrefix(out.Measure+", "+weighing.EveryText(every), ", ")
			r.plan.Pet.Notes = append(r.plan.Pet.Notes, fmt.Sprintf(
				"A day's %s is too little to measure: give one helping %s. The limits hold for the average day and for the day of the helping", f.Name, weighing.EveryText(every)))
		}
		pp.Addons = append(pp.Addons, out)
		given = append(given, f)
	}
	for _, j := range r.p.AsOnShelf() {
		x := r.p.Items[j]
		if c, ok := nutrients.KitchenCapOf(x.Addon.Food); ok && day.Grams[j] > x.Kitchen*(1+diet.AmountTol) {
			o := household.OverKitchen{Food: x.Id, Name: x.Name, G: day.Grams[j], CapG: x.Kitchen, What: c.What, Instead: c.Instead}
			pp.OverKitchen, pp.Cautions = append(pp.OverKitchen, o), append(pp.Cautions, o.Caution())
		}
	}
	for _, f := range given {
		if f.Dilution != nil {
			pp.Notes = append(pp.Notes, f.Name+", once: "+strings.Join(f.Dilution.Recipe(f), " "))
		}
	}
	pp.Excess = r.p.Excess(day.Grams)
	for i, e := range pp.Excess {
		pp.Cautions = slices.Insert(pp.Cautions, i, e.Caution())
	}
	pp.Cautions = append(pp.Cautions, household.FoodCautions(r.req.Pet, r.req.Household.Base, given)...)
	r.premix(s, day)
	r.lines(day.Grams)
	pp.Status = household.Met
	var missed []string
	for _, n := range pp.Nutrients {
		if n.State == household.StateLow || n.State == household.StateUnknown && n.Lower != nil {
			missed = append(missed, nutrients.InSentence(n.Name))
		}
	}
	for _, ratio := range pp.Ratios {
		if ratio.State != household.StateMet {
			missed = append(missed, "the ratio "+ratio.ID)
		}
	}
	if len(missed) > 0 {
		pp.Status = household.Short
	}
	r.unweighable(s, day)
	*pp.Unsure = household.UnsureOf(pp, r.p.Targets)
	if text := pp.Unsure.Text(); text != "" {
		pp.Notes = append(pp.Notes, text)
	}
}

// premix lists what is mixed once for several days.
func (r *record) premix(s *diet.Solution, day *weighing.Day) {
	k := r.p.Kitchen
	fine := weighing.Finest(k)
	mix := &household.Premix{Days: k.PremixDays}
	for _, j := range r.p.AsOnShelf() {
		d := day.Doses[j]
		if d.ServedAs != household.ServedPremix || day.Grams[j] == 0 {
			continue
		}
		f := r.p.Items[j].Addon.Food
		g := weighing.Clean(day.Steps[j] * fine)
		mix.Items = append(mix.Items, household.PremixItem{Food: f.ID, Name: f.Name, G: g, Carrier: f.Carrier && s.X[j] <= diet.ShadowTol})
		mix.TotalG += g
	}
	if len(mix.Items) == 0 {
		return
	}
	mix.TotalG = weighing.Clean(mix.TotalG)
	r.identify(mix)
	mix.ServeG = weighing.Clean(day.Serving * fine)
	r.plan.Pet.Premix = mix
	if days := r.req.Household.Kitchen.PremixDays; days > mix.Days {
		r.plan.Pet.Notes = append(r.plan.Pet.Notes, fmt.Sprintf(
			"The premix is for %d days, not for %d: in growth, pregnancy and nursing a plan is out of date after that", mix.Days, days))
	}
}

// identify gives a pet's own premix the digest and code of what it holds, as a shared jar
// has them.
func (r *record) identify(mix *household.Premix) {
	var j household.Jar
	for k, item := range mix.Items {
		i := slices.IndexFunc(r.p.Items, func(x diet.Item) bool { return x.Addon != nil && x.Addon.Food.ID == item.Food })
		part := jarPart(r.p.Items[i].Addon.Food, item.G, r.req.Shared.digests)
		mix.Items[k].Digest, mix.Items[k].Own = part.Digest, part.Own
		j.Parts = append(j.Parts, part)
	}
	j.Identify()
	mix.Code, mix.Digest = j.Code, j.Digest
}

// jarPart is grams of a food in a mix.
func jarPart(f *nutrients.Food, g float64, digests household.FoodDigests) household.JarPart {
	return household.JarPart{Food: f.ID, Name: f.Name, G: g, Digest: digests.Of(f), Own: f.State == "own"}
}

// jar records the dose of a shared jar.
func (r *record) jar(j *household.Jar, g float64) {
	dose := &household.JarDose{Code: j.Code, DoseG: g, Mix: *j}
	if j.ScoopG > 0 {
		dose.Scoops = int(math.Round(g / j.ScoopG))
	}
	r.plan.Pet.Jar = dose
}

// dayParts is the food of a day, as a whole and by where it comes from.
type dayParts struct{ all, base, addons, extras nutrients.Mix }

// add puts grams of a food with the profile per 100 g into one of the parts.
func (d *dayParts) add(part *nutrients.Mix, g float64, per100g *nutrients.Profile) {
	if g > 0 {
		d.all.Add(g, per100g)
		part.Add(g, per100g)
	}
}

// lines recomputes every nutrient and ratio from the amounts.
func (r *record) lines(grams []float64) {
	var day dayParts
	day.add(&day.base, grams[0], &r.req.Shared.composition)
	for j := 1; j < len(grams); j++ {
		day.add(&day.addons, grams[j], &r.p.Items[j].Addon.Food.Per100g)
	}
	for _, x := range r.req.Pet.Extras {
		day.add(&day.extras, x.Grams, &x.Food.Per100g)
	}
	judge(&r.plan.Pet, r.p.Targets, &day)
}

// judge holds the food of a day against the limits and fills in every nutrient and
// ratio, the energy and the makeup.
func judge(pp *household.PetPlan, targets nutrients.Targets, day *dayParts) {
	sp := pp.Species
	total, fromBase, fromAddons, fromExtras := totals(&day.all, sp), totals(&day.base, sp), totals(&day.addons, sp), totals(&day.extras, sp)
	pp.PlannedKcal = total[nutrients.Energy].Lo
	pp.Makeup = household.MakeupOf(sp, day.all.Grams(), func(id nutrients.ID) nutrients.Figure { return total[id] })
	for _, l := range targets.Limits {
		f := total[l.Nutrient]
		info := l.Nutrient.Info()
		line := household.NutrientLine{ID: l.Nutrient, Name: info.Name, Unit: string(info.Unit), Lower: l.Lower, Upper: l.Upper, Aim: l.Aim,
			Coverage: f.Coverage, UpperChecked: l.Upper == nil || f.Coverage >= 1-diet.AmountTol,
			From:        household.Contribution{Base: fromBase[l.Nutrient].Lo, Addons: fromAddons[l.Nutrient].Lo, Extras: fromExtras[l.Nutrient].Lo},
			LowerSource: l.LowerSource.Text, UpperSource: l.UpperSource.Text, Recalled: l.LowerSource.Recalled || l.UpperSource.Recalled}
		line.NoHarm = l.NoHarm
		if lower, grows := targets.Risen(l.Nutrient, func(id nutrients.ID) float64 { return total[id].Hi }); grows {
			line.LowerBase, line.Lower = l.Lower, &lower
			if line.Aim != nil && *line.Aim < lower {
				line.Aim = &lower
			}
		}
		if f.IsKnown() {
			lo := f.Lo
			line.Amount = &lo
			if hi := f.Hi; hi != lo {
				line.High = &hi
			}
		}
		line.State = stateOf(f, line.Lower, l.Upper)
		pp.Nutrients = append(pp.Nutrients, line)
		if s := line.BeyondNoHarm(); s != "" {
			pp.Cautions = append(pp.Cautions, s)
		}
	}
	for _, ratio := range targets.Ratios {
		pp.Ratios = append(pp.Ratios, ratioLine(ratio, &total))
	}
}

// totals is what a mix holds in all, as the species uses it.
func totals(m *nutrients.Mix, sp nutrients.Species) nutrients.Profile {
	sum := m.Per100g(100)
	return sum.For(sp)
}

func stateOf(f nutrients.Figure, lower, upper *float64) household.State {
	switch {
	case upper != nil && f.Hi > *upper*(1+diet.LimitTol):
		return household.StateHigh
	case !f.IsKnown():
		return household.StateUnknown
	case lower != nil && f.Lo < *lower*(1-diet.LimitTol):
		return household.StateLow
	}
	return household.StateMet
}

// ratioLine judges a ratio by its unfavourable ends and shows the quotient of the
// low ends, which there is not when the denominator is known to be nothing. A ratio
// of which one side is unknown is missed, as a lower limit is.
func ratioLine(r nutrients.Ratio, total *nutrients.Profile) household.RatioLine {
	out := household.RatioLine{ID: r.Key, Lower: r.Lower, Upper: r.Upper, Source: r.Source.Text, State: household.StateMet}
	num, den := nutrients.Figure{Coverage: 1}, nutrients.Figure{Coverage: 1}
	add := func(to *nutrients.Figure, ids []nutrients.ID) {
		known := 0.0
		for _, id := range ids {
			to.Lo += total[id].Lo
			to.Hi += total[id].Hi
			known = max(known, total[id].Coverage)
		}
		to.Coverage = known
	}
	add(&num, r.Numerator)
	add(&den, r.Denominator)
	if !num.IsKnown() || !den.IsKnown() {
		out.State = household.StateUnknown
		return out
	}
	if den.Lo > 0 {
		q := num.Lo / den.Lo
		out.Amount = &q
	}
	if r.Lower != nil && num.Lo < *r.Lower*den.Hi*(1-diet.LimitTol) {
		out.State = household.StateLow
	}
	if r.Upper != nil && num.Hi > *r.Upper*den.Lo*(1+diet.LimitTol) {
		out.State = household.StateHigh
	}
	return out
}
