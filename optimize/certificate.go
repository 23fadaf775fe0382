package optimize

import (
	"fmt"
	"math"

	"bowlwright/household"
)

// certify writes the linear program behind the least add-on and its duals into
// the plan, in grams and canonical units, and what the limits cost.
func (r *record) certify(s *staged) {
	p := r.p
	q := s.problem
	prog := &household.Program{}
	for j := range q.Cost {
		column := household.ProgramColumn{Cost: q.Cost[j]}
		if j < len(p.items) {
			column.Food = p.items[j].id
		}
		if most := q.Upper[j]; !math.IsInf(most, 1) {
			column.Cap = &most
		}
		prog.Columns = append(prog.Columns, column)
	}
	at := len(p.items)
	duals := map[string]float64{}
	largest := 0.0
	for i := range p.rows {
		largest = max(largest, math.Abs(s.duals[i]))
	}
	for i, row := range p.rows {
		out := household.ProgramRow{Limit: row.limit, A: make([]float64, len(q.Cost)), Lower: finite(row.lower), Upper: finite(row.upper)}
		copy(out.A, row.a)
		if row.elastic {
			out.A[at] = row.size
			prog.Columns[at].Food = "short of " + row.limit
			at++
		}
		prog.Rows = append(prog.Rows, out)
		if math.Abs(s.duals[i]) > shadowTol*largest {
			duals[row.limit] = s.duals[i] / row.size
			if row.limit != energyRow {
				r.plan.Pet.Binding = append(r.plan.Pet.Binding, household.Binding{Limit: row.limit, Costs: p.price(row, s.duals[i])})
			}
		}
	}
	last := len(q.Rows) - 1
	sum := household.ProgramRow{Limit: violationRow, A: q.Rows[last].A, Lower: finite(q.Rows[last].Lower), Upper: finite(q.Rows[last].Upper)}
	prog.Rows = append(prog.Rows, sum)
	if d := s.duals[last]; math.Abs(d) > shadowTol*largest {
		duals[violationRow] = d
	}
	r.plan.Pet.Certificate = &household.Certificate{LeastAddonG: s.least, Duals: duals, Program: prog}
}

// violationRow is the row that sums what is missed, in units of each limit.
const violationRow = "all that is missed"

func finite(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// price says what one unit of a limit costs in grams of add-on.
func (p *program) price(r row, dual float64) string {
	perUnit := math.Abs(dual) / r.size
	for _, l := range p.targets.Limits {
		if name := l.Nutrient.String(); r.limit == name+" lower" || r.limit == name+" upper" {
			return fmt.Sprintf("%.3g g of add-on per %s", perUnit, l.Nutrient.Info().Unit)
		}
	}
	if r.limit == shareRow {
		return fmt.Sprintf("%.3g g of add-on per kcal", perUnit)
	}
	return fmt.Sprintf("%.3g g of add-on per 1 %% of the ratio's limit", math.Abs(dual)/100)
}
