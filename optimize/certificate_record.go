package optimize

import (
	"fmt"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// recordedTol is how far, relative to a limit, a sum over the recorded program may be
// from the same sum in the plan: both were rounded, in another order.
const recordedTol = 1e-8

// recorded holds the program of a certificate against the plan beside it. A program
// with limits of its own would prove another least add-on.
type recorded struct {
	plan *household.PetPlan
	prog *household.Program
	x    []float64 // the plan's grams for the columns of the program
	rows map[nutrients.LimitID]*household.ProgramRow
	err  error
}

func newRecorded(plan *household.Plan) *recorded {
	r := &recorded{plan: &plan.Pet, prog: plan.Pet.Certificate.Program, rows: map[nutrients.LimitID]*household.ProgramRow{}}
	r.x = make([]float64, len(r.prog.Columns))
	given := map[string]float64{}
	for _, a := range r.plan.Addons {
		given[a.Food] += a.G
	}
	caps := map[string]float64{}
	for j, c := range r.prog.Columns {
		if j == 0 {
			r.x[0] = r.plan.BaseG
			r.within(c.Food, r.x[0], orInf(c.Cap, 1))
			continue
		}
		// Of a food that stands twice on the shelf the first column stands for both.
		if _, again := caps[c.Food]; !again {
			r.x[j] = given[c.Food]
		}
		caps[c.Food] += orInf(c.Cap, 1)
	}
	for food, g := range given {
		r.within(food, g, caps[food])
	}
	for i := range r.prog.Rows {
		row := &r.prog.Rows[i]
		if r.rows[row.Limit] != nil {
			r.fail("the recorded program has two rows for %s", row.Limit)
		}
		r.rows[row.Limit] = row
	}
	return r
}

func (r *recorded) fail(format string, args ...any) {
	if r.err == nil {
		r.err = &CertificateError{fmt.Sprintf(format, args...)}
	}
}

// within says that the program allows what the plan gives.
func (r *recorded) within(food string, g, most float64) {
	if g > most*(1+recordedTol) {
		r.fail("the recorded program allows at most %.6g g of %s, and the plan gives %.6g g", most, food, g)
	}
}

// agrees compares each limit of the plan with its row, and finds rows that the plan
// does not know.
func (r *recorded) agrees() error {
	pp := r.plan
	addons, extras := 0.0, 0.0
	for _, a := range pp.Addons {
		addons += a.Kcal
	}
	for _, x := range pp.Extras {
		extras += x.Kcal
	}
	if row := r.take(nutrients.EnergyOfDay); row != nil {
		left := pp.EnergyKcal - extras
		slack := pp.EnergySlack * pp.EnergyKcal
		r.same(row, "lower end", orInf(row.Lower, -1), left-slack, pp.EnergyKcal)
		r.same(row, "upper end", orInf(row.Upper, 1), left+slack, pp.EnergyKcal)
		r.same(row, "sum", r.sum(row), pp.BaseG*pp.BaseKcalPerG+addons, pp.EnergyKcal)
	}
	if row := r.take(nutrients.EnergyOfAddons); row != nil {
		r.same(row, "sum", r.sum(row), addons, pp.EnergyKcal)
	}
	if pp.Jar != nil && pp.Jar.Mix.RateG > 0 {
		if row := r.take(nutrients.OneRate); row != nil {
			r.same(row, "sum", r.sum(row), pp.Jar.DoseG-pp.Jar.Mix.RateG/100*pp.BaseG, pp.Jar.DoseG)
		}
	}
	for i := range pp.Nutrients {
		r.nutrient(&pp.Nutrients[i])
	}
	for _, ratio := range pp.Ratios {
		if ratio.Lower != nil {
			r.take(nutrients.RatioLimit(ratio.ID, nutrients.Minimum))
		}
		if ratio.Upper != nil {
			r.take(nutrients.RatioLimit(ratio.ID, nutrients.Maximum))
		}
	}
	if row := r.take(nutrients.AllMissed); row != nil {
		for j, a := range row.A.Row() {
			want := 0.0
			if strings.HasPrefix(r.prog.Columns[j].Food, shortOf) {
				want = 1
			}
			r.same(row, "count of "+r.prog.Columns[j].Food, a, want, 1)
		}
	}
	for name := range r.rows {
		r.fail("the recorded program has a limit that the plan does not have: %s", name)
	}
	return r.err
}

// nutrient compares the limits of a nutrient, what is left of them for base and
// add-ons, and what those bring.
func (r *recorded) nutrient(n *household.NutrientLine) {
	if n.Lower != nil && *n.Lower > 0 {
		lower := *n.Lower
		if n.LowerBase != nil {
			lower = *n.LowerBase
		}
		if row := r.take(nutrients.MinimumOf(n.ID)); row != nil {
			r.same(row, "limit", orInf(row.Lower, -1), lower-n.From.Extras, lower)
			r.same(row, "sum", r.sum(row), n.From.Base+n.From.Addons, lower)
		}
	}
	r.beside(n)
	if n.Upper != nil {
		if row := r.take(nutrients.MaximumOf(n.ID)); row != nil {
			high := 0.0
			if n.Amount != nil {
				high = *n.Amount
			}
			if n.High != nil {
				high = *n.High
			}
			// What the extras bring at most is not in the record; the room left is.
			r.same(row, "room", orInf(row.Upper, 1)-r.sum(row), *n.Upper-high, *n.Upper)
		}
	}
	// The row of the concentrates is there only where they could bring too much.
	if times, _ := nutrients.MostFromConcentrates(n.ID); r.rows[nutrients.MostConcentrated(n.ID)] != nil && n.Upper == nil && n.Lower != nil {
		row := r.take(nutrients.MostConcentrated(n.ID))
		least := *n.Lower
		if n.LowerBase != nil {
			least = *n.LowerBase
		}
		r.same(row, "limit", orInf(row.Upper, 1), times*least, least)
	}
}

// beside compares the rows of a nutrient that stand beside its minimum and maximum. What
// the minimum grows with and what the extras bring at most are not in the record; what
// is left to the row is.
func (r *recorded) beside(n *household.NutrientLine) {
	high := 0.0
	if n.Amount != nil {
		high = *n.Amount
	}
	if n.High != nil {
		high = *n.High
	}
	if n.NoHarm != nil {
		if row := r.take(nutrients.MostUnharmed(n.ID)); row != nil && orInf(row.Upper, 1)-r.sum(row) < (*n.NoHarm-high)-recordedTol**n.NoHarm {
			r.fail("the recorded program allows less of %s than the amount without harm", n.ID)
		}
	}
	if n.LowerBase == nil {
		return
	}
	if row := r.take(nutrients.RisenMinimum(n.ID)); row != nil && *n.Lower > *n.LowerBase && n.Amount != nil {
		r.same(row, "room", r.sum(row)-orInf(row.Lower, -1), *n.Amount-*n.Lower, *n.Lower)
	}
}

// take returns a row that must be there, once.
func (r *recorded) take(name nutrients.LimitID) *household.ProgramRow {
	row := r.rows[name]
	if row == nil {
		r.fail("the recorded program has no row for %s", name)
	}
	delete(r.rows, name)
	return row
}

// sum is what the plan's amounts add up to in a row.
func (r *recorded) sum(row *household.ProgramRow) float64 {
	sum := 0.0
	for _, t := range row.A.Terms {
		sum += t.Value * r.x[t.Column]
	}
	return sum
}

func (r *recorded) same(row *household.ProgramRow, what string, got, want, size float64) {
	if !nearly(got, want, size) {
		r.fail("%s of %s in the recorded program is %.9g, by the plan it is %.9g", what, row.Limit, got, want)
	}
}

// programOfHousehold compares the recorded program with the one that the household
// has now: caps, the share of the add-ons and the sums of the ratios are not in the
// plan, so the record alone cannot show whether they are its own.
func programOfHousehold(plan *household.Plan, shared *Shared, pet *household.Pet) error {
	p, err := diet.FormulateOn(shared.of, pet, &shared.composition)
	if err != nil {
		return err
	}
	prog := plan.Pet.Certificate.Program
	q := p.Elastic()
	if len(prog.Columns) != len(q.Cost) || len(prog.Rows) != len(q.Rows) {
		return &CertificateError{"the recorded program is not that of this household: its size differs"}
	}
	// Whole steps may have needed more than a kitchen gives.
	err = capsOf(p, prog)
	for _, times := range diet.TimesKitchen {
		if wide := p.BeyondKitchen(times); err != nil && wide != nil && capsOf(wide, prog) == nil {
			err = nil
		}
	}
	if err != nil {
		return err
	}
	for i, want := range p.Rows {
		row := prog.Rows[i]
		lower, upper := want.Lower, want.Upper
		if want.Limit == nutrients.EnergyOfDay && plan.Pet.EnergySlack == 0 {
			lower, upper = p.EnergyLeft, p.EnergyLeft // as older programs planned
		}
		same := row.Limit == want.Limit && sameEnd(orInf(row.Lower, -1), lower, want.Size) && sameEnd(orInf(row.Upper, 1), upper, want.Size)
		a := row.A.Row()
		for j := range want.A {
			same = same && nearly(a[j], want.A[j], want.A[j])
		}
		if !same {
			return &CertificateError{"the row " + want.Limit.String() + " of the recorded program is not that of this household"}
		}
	}
	return nil
}

// capsOf compares the caps of the recorded program.
func capsOf(p *diet.Program, prog *household.Program) error {
	for j, x := range p.Items {
		if c := prog.Columns[j]; c.Food != x.Id || !nearly(orInf(c.Cap, 1), x.Cap, x.Cap) {
			return &CertificateError{fmt.Sprintf("the recorded program allows at most %.6g g of %s, the household %.6g g of %s", orInf(c.Cap, 1), c.Food, x.Cap, x.Id)}
		}
	}
	return nil
}

func nearly(a, b, size float64) bool { return math.Abs(a-b) <= recordedTol*math.Abs(size) }

// sameEnd compares two ends of a row, which may be infinite.
func sameEnd(a, b, size float64) bool { return a == b || nearly(a, b, size) }
