package lp

import "math"

// powerOfTwo returns the power of two nearest below 1/x, so that scaling is exact.
func powerOfTwo(x float64) float64 {
	if x == 0 || math.IsInf(x, 0) {
		return 1
	}
	_, exp := math.Frexp(x)
	return math.Ldexp(1, 1-exp)
}

// smallestLimit returns the smallest finite bound of a row that is more than
// rounding beside its largest entry, 0 for none.
func smallestLimit(r Row, largest float64) float64 {
	least := 0.0
	for _, b := range [2]float64{math.Abs(r.Lower), math.Abs(r.Upper)} {
		if b > limitNoise*largest && !math.IsInf(b, 0) && (least == 0 || b < least) {
			least = b
		}
	}
	return least
}

// rowScales is scales without factors for the columns.
func rowScales(p *Problem) (row, col []float64) {
	row, col = scales(p)
	for j := range col {
		col[j] = 1
	}
	return row, col
}

// scales returns the factors of rows and columns, powers of two, in one pass:
// rows with a limit by that limit, columns by their largest entry in those rows,
// the other rows by their largest scaled entry.
func scales(p *Problem) (row, col []float64) {
	row, col = make([]float64, len(p.Rows)), make([]float64, len(p.Cost))
	inLimited, inAny := make([]float64, len(col)), make([]float64, len(col))
	for i, r := range p.Rows {
		largest := 0.0
		for j, a := range r.A {
			if a = math.Abs(a); a > inAny[j] {
				inAny[j] = a
			}
			if a > largest {
				largest = a
			}
		}
		if limit := smallestLimit(r, largest); limit != 0 {
			row[i] = powerOfTwo(limit)
			for j, a := range r.A {
				if a = math.Abs(a) * row[i]; a > inLimited[j] {
					inLimited[j] = a
				}
			}
		}
	}
	for j := range col {
		if inLimited[j] == 0 {
			inLimited[j] = inAny[j]
		}
		col[j] = powerOfTwo(inLimited[j])
	}
	for i, r := range p.Rows {
		if row[i] != 0 {
			continue
		}
		largest := 0.0
		for j, a := range r.A {
			largest = max(largest, math.Abs(a)*col[j])
		}
		row[i] = powerOfTwo(largest)
	}
	return row, col
}
