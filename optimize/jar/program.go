package jar

import (
	"math"
	"slices"

	"bowlwright/optimize/lp"
)

// Pet is the program of one animal and what a premix of its own would reach.
type Pet struct {
	Name string
	// Items are the base, first, and everything on the pet's shelf.
	Items []Item
	Rows  []Row
	// Missed is the least sum of misses, Least the least grams of add-on at it.
	Missed, Least float64
}

// Item is one unknown of a pet's day.
type Item struct {
	ID string
	// Powder says that the item may be part of a jar.
	Powder bool
	// Cap is the most grams a day.
	Cap float64
}

// Row is one limit of a pet: Lower <= A·grams <= Upper, either side infinite where there
// is none. Elastic rows have a lower side only and may be missed.
type Row struct {
	A                  []float64
	Lower, Upper, Size float64
	Elastic            bool
}

// Rules ask for a jar of a kind. The zero value asks for nothing.
type Rules struct {
	// Margin moves each limit inwards by that share of its size.
	Margin float64
	// DoseError is how far a dose may be off, as a share, without breaking a limit.
	DoseError float64
	// OneRate asks for the same grams of jar to a gram of base for all.
	OneRate bool
	// Fair bounds what the jar costs a single pet over a premix of its own.
	Fair bool
	// MissMore is what each short pet may miss more than with a premix of its own.
	MissMore float64
	// Apart lists for a pet, by its place, the powders that it is also given directly.
	Apart map[int][]string
	// Doses are the grams of jar a day that each pet gets, nil where they are free.
	Doses []float64
}

// problem is the linear program of a jar for a group of pets.
type problem struct {
	pets  []Pet
	rules Rules
	// powders are the parts of the jar: column k is the share of powders[k].
	powders []string
	// doses is the column of s for each pet; direct the column of each item or -1; part
	// the powder that an item is, or -1.
	doses        []int
	direct, part [][]int
	lp           lp.Problem
	// of is the pet that a row belongs to, -1 for the sum of the shares.
	of []int
}

// powders lists what every pet of a group may have in a jar, in the order of the first
// pet's shelf.
func powders(pets []Pet) []string {
	var all []string
	for _, x := range pets[0].Items[1:] {
		everybody := x.Powder && x.Cap > 0
		for _, p := range pets[1:] {
			everybody = everybody && slices.ContainsFunc(p.Items[1:], func(y Item) bool { return y.ID == x.ID && y.Powder && y.Cap > 0 })
		}
		if everybody {
			all = append(all, x.ID)
		}
	}
	return all
}

// formulate states the program of a group. With no common powder there is none.
func formulate(pets []Pet, rules Rules) *problem {
	q := &problem{pets: pets, rules: rules, powders: powders(pets)}
	n := len(q.powders)
	column := func() int { n++; return n - 1 }
	rate := -1
	if rules.OneRate {
		rate = column()
	}
	var misses [][]int
	for k, p := range pets {
		q.doses = append(q.doses, column())
		direct, part := make([]int, len(p.Items)), make([]int, len(p.Items))
		for j, x := range p.Items {
			part[j] = slices.Index(q.powders, x.ID)
			if j == 0 {
				part[j] = -1
			}
			switch {
			case j == 0 && rate >= 0:
				direct[j] = rate
			case part[j] >= 0 && !slices.Contains(rules.Apart[k], x.ID):
				direct[j] = -1
			default:
				direct[j] = column()
			}
		}
		q.direct, q.part = append(q.direct, direct), append(q.part, part)
		miss := make([]int, len(p.Rows))
		for i, r := range p.Rows {
			miss[i] = -1
			if r.Elastic && p.Missed > notMissed {
				miss[i] = column()
			}
		}
		misses = append(misses, miss)
	}
	q.lp = lp.Problem{Cost: make([]float64, n), Lower: make([]float64, n), Upper: make([]float64, n)}
	for j := range q.lp.Upper {
		q.lp.Upper[j] = math.Inf(1)
	}
	whole := q.row(-1, 1, 1)
	for k := range q.powders {
		whole[k], q.lp.Upper[k] = 1, 1
	}
	for k := range pets {
		q.lp.Lower[q.doses[k]], q.lp.Upper[q.doses[k]] = leastDoses, mostDoses
		if rules.Doses != nil {
			given := q.row(k, 0, 0)
			for part := range q.powders {
				given[part] = 1
			}
			given[q.doses[k]] = -rules.Doses[k]
		}
		q.limits(k, misses[k])
		q.caps(k)
	}
	return q
}

// row appends a row of zeros and returns its coefficients.
func (q *problem) row(pet int, lower, upper float64) []float64 {
	a := make([]float64, len(q.lp.Cost))
	q.lp.Rows = append(q.lp.Rows, lp.Row{A: a, Lower: lower, Upper: upper})
	q.of = append(q.of, pet)
	return a
}

// limits states the rows of a pet, per gram of jar.
func (q *problem) limits(k int, miss []int) {
	p := q.pets[k]
	scales := []float64{1}
	if e := q.rules.DoseError; e > 0 {
		scales = []float64{1 - e, 1 + e}
	}
	var budget []float64
	for i, r := range p.Rows {
		margin, off := q.rules.Margin*r.Size, scales
		if r.Upper-r.Lower < narrow*r.Size {
			margin, off = 0, []float64{1}
		}
		if miss[i] >= 0 {
			margin = 0
			if budget == nil {
				budget = q.row(k, math.Inf(-1), 0)
				budget[q.doses[k]] = -(p.Missed + missSliver + q.rules.MissMore)
			}
			budget[miss[i]] = 1
		}
		for _, scale := range off {
			if !math.IsInf(r.Lower, -1) && (scale <= 1 || r.mayFall()) {
				a := q.row(k, 0, math.Inf(1))
				q.day(a, k, r, scale)
				a[q.doses[k]] -= (r.Lower + margin) / r.Size
				if miss[i] >= 0 {
					a[miss[i]] = 1
				}
			}
			if !math.IsInf(r.Upper, 1) && (scale >= 1 || r.mayFall()) {
				a := q.row(k, math.Inf(-1), 0)
				q.day(a, k, r, scale)
				a[q.doses[k]] -= (r.Upper - margin) / r.Size
			}
		}
	}
}

// mayFall says whether more jar may be less of the row.
func (r Row) mayFall() bool {
	return slices.ContainsFunc(r.A, func(v float64) bool { return v < 0 })
}

// day adds what a pet's day brings to a row, per gram of jar, in units of its size.
func (q *problem) day(a []float64, k int, r Row, scale float64) {
	for j, v := range r.A {
		if d := q.direct[k][j]; d >= 0 {
			a[d] += v / r.Size
		}
		if part := q.part[k][j]; part >= 0 {
			a[part] += v / r.Size * scale
		}
	}
}

// caps bounds each item of a pet, what the jar brings of it included, and with Fair the
// grams in all.
func (q *problem) caps(k int) {
	p := q.pets[k]
	for j, x := range p.Items {
		size := max(x.Cap, 1e-9)
		if d := q.direct[k][j]; j > 0 && d >= 0 && x.Cap <= 0 {
			q.lp.Upper[d] = 0
			continue
		}
		a := q.row(k, math.Inf(-1), 0)
		if d := q.direct[k][j]; d >= 0 {
			a[d] = 1 / size
		}
		if part := q.part[k][j]; part >= 0 {
			a[part] = (1 + q.rules.DoseError) / size
		}
		a[q.doses[k]] = -x.Cap / size
	}
	if q.rules.Fair {
		a := q.row(k, math.Inf(-1), -1)
		q.grams(a, k, 1)
		a[q.doses[k]] = -max(fairTimes*p.Least, p.Least+fairGrams)
	}
}

// grams adds to a the grams of direct items of a pet per gram of jar, times by.
func (q *problem) grams(a []float64, k int, by float64) {
	for j := 1; j < len(q.pets[k].Items); j++ {
		if d := q.direct[k][j]; d >= 0 {
			a[d] += by
		}
	}
}
