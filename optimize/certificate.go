package optimize

import (
	"fmt"
	"math"
	"math/big"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/lp"
)

// certify writes the linear program behind the least add-on and its duals into
// the plan, in grams and canonical units, and what the limits cost.
func (r *record) certify(s *diet.Solution) {
	p := r.p
	q := s.Problem
	prog := &household.Program{}
	for j := range q.Cost {
		column := household.ProgramColumn{Cost: q.Cost[j]}
		if j < len(p.Items) {
			column.Food = p.Items[j].Id
		}
		if most := q.Upper[j]; !math.IsInf(most, 1) {
			column.Cap = &most
		}
		prog.Columns = append(prog.Columns, column)
	}
	at := len(p.Items)
	duals := map[nutrients.LimitID]float64{}
	largest := 0.0
	for i := range p.Rows {
		largest = max(largest, math.Abs(s.Duals[i]))
	}
	a := make([]float64, len(q.Cost))
	for i, row := range p.Rows {
		clear(a)
		copy(a, row.A)
		if row.Elastic {
			a[at] = row.Size
			prog.Columns[at].Food = shortOf + row.Limit.String()
			at++
		}
		prog.Rows = append(prog.Rows, household.ProgramRow{Limit: row.Limit, A: household.CoefficientsOf(a), Lower: finite(row.Lower), Upper: finite(row.Upper)})
		if math.Abs(s.Duals[i]) > diet.ShadowTol*largest {
			duals[row.Limit] = s.Duals[i] / row.Size
			if row.Limit != nutrients.EnergyOfDay {
				r.plan.Pet.Binding = append(r.plan.Pet.Binding, household.Binding{Limit: row.Limit, Costs: p.Price(row, s.Duals[i])})
			}
		}
	}
	last := len(q.Rows) - 1
	sum := household.ProgramRow{Limit: nutrients.AllMissed, A: household.CoefficientsOf(q.Rows[last].A), Lower: finite(q.Rows[last].Lower), Upper: finite(q.Rows[last].Upper)}
	prog.Rows = append(prog.Rows, sum)
	if d := s.Duals[last]; math.Abs(d) > diet.ShadowTol*largest {
		duals[nutrients.AllMissed] = d
	}
	r.plan.Pet.Certificate = &household.Certificate{LeastAddonG: s.LeastG, Duals: duals, Program: prog}
}

// shortOf begins the names of the columns that hold what is missed of a limit.
const shortOf = "short of "

func finite(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// certificateTol is how far, relative, the proved bound may lie under the least
// add-on of the record: the duals are rounded to doubles.
const certificateTol = 1e-7

// A CertificateError says what a certificate fails to prove.
type CertificateError struct{ Reason string }

func (e *CertificateError) Error() string { return e.Reason }

// VerifyCertificate checks, in exact rational arithmetic and from the record
// alone, that the duals of a plan prove its least add-on: no amounts within the
// recorded limits need less. It does not solve anything.
func VerifyCertificate(plan *household.Plan) error {
	cert := plan.Pet.Certificate
	if cert == nil {
		if !plan.Pet.Status.Printable() {
			return nil
		}
		return &CertificateError{"the plan has no certificate"}
	}
	if cert.Program == nil || math.IsNaN(cert.LeastAddonG) {
		return &CertificateError{"the certificate has no program"}
	}
	p, y, err := programOf(plan)
	if err != nil {
		return err
	}
	if err := newRecorded(plan).agrees(); err != nil {
		return err
	}
	bound := lp.ExactBound(p, y)
	if bound == nil {
		return &CertificateError{"the duals prove nothing: they lean on a limit that does not exist"}
	}
	given := 0.0
	for _, a := range plan.Pet.Addons {
		given += a.G
	}
	if plan.Pet.Status.Printable() && given < cert.LeastAddonG*(1-certificateTol)-certificateTol && plan.Pet.EnergySlack > 0 {
		return &CertificateError{fmt.Sprintf("the plan gives %.6g g of add-on, less than the %.6g g that it calls the least", given, cert.LeastAddonG)}
	}
	least := new(big.Rat).SetFloat64(cert.LeastAddonG - certificateTol*max(cert.LeastAddonG, 1))
	if bound.Cmp(least) < 0 {
		proved, _ := bound.Float64()
		return &CertificateError{fmt.Sprintf("the duals prove %.6g g of add-on, the plan says that %.6g g are the least", proved, cert.LeastAddonG)}
	}
	most := new(big.Rat).SetFloat64(cert.LeastAddonG + certificateTol*max(cert.LeastAddonG, 1))
	if bound.Cmp(most) > 0 {
		proved, _ := bound.Float64()
		return &CertificateError{fmt.Sprintf("the plan says that %.6g g of add-on are the least, its duals prove %.6g g", cert.LeastAddonG, proved)}
	}
	return nil
}

// programOf reads the recorded program and the duals of its rows.
func programOf(plan *household.Plan) (*lp.Problem, []float64, error) {
	prog := plan.Pet.Certificate.Program
	p := &lp.Problem{}
	for j, c := range prog.Columns {
		// A gram of add-on counts for a gram: with other costs the duals would prove
		// something else.
		want := 1.0
		if j == 0 || strings.HasPrefix(c.Food, shortOf) {
			want = 0
		}
		if c.Cost != want {
			return nil, nil, &CertificateError{fmt.Sprintf("the recorded program counts a gram of %s as %g", c.Food, c.Cost)}
		}
		p.Cost, p.Lower, p.Upper = append(p.Cost, c.Cost), append(p.Lower, 0), append(p.Upper, orInf(c.Cap, 1))
	}
	y := make([]float64, len(prog.Rows))
	used := 0
	for i, r := range prog.Rows {
		if r.A.Columns != len(prog.Columns) {
			return nil, nil, &CertificateError{"row " + r.Limit.String() + " of the recorded program has the wrong length"}
		}
		p.Rows = append(p.Rows, lp.Row{A: r.A.Row(), Lower: orInf(r.Lower, -1), Upper: orInf(r.Upper, 1)})
		if d, ok := plan.Pet.Certificate.Duals[r.Limit]; ok {
			y[i] = d
			used++
		}
	}
	if used != len(plan.Pet.Certificate.Duals) {
		return nil, nil, &CertificateError{"a dual belongs to no row of the recorded program"}
	}
	return p, y, nil
}

// orInf reads an absent bound as infinite with the given sign.
func orInf(v *float64, sign int) float64 {
	if v == nil {
		return math.Inf(sign)
	}
	return *v
}
