package nutrients

// Figure is what is known of one nutrient in an amount of food, in the
// nutrient's canonical unit. The zero Figure is unknown.
type Figure struct {
	// Lo counts toward lower limits, Hi toward upper limits. They differ only
	// where published sources disagree.
	Lo, Hi float64
	// Coverage is the share (0 to 1) by weight of the food for which the figure
	// is known. Zero means that nothing is known.
	Coverage float64
}

// Unknown is the figure of which nothing is known.
var Unknown = Figure{}

// Known returns a figure with one published value.
func Known(x float64) Figure { return Figure{Lo: x, Hi: x, Coverage: 1} }

// Between returns a figure for which sources give a range. It panics when the
// range is upside down.
func Between(lo, hi float64) Figure {
	if lo > hi {
		panic("nutrients: range upside down")
	}
	return Figure{Lo: lo, Hi: hi, Coverage: 1}
}

// IsKnown says whether anything at all is known.
func (f Figure) IsKnown() bool { return f.Coverage > 0 }

// Scale returns the figure of k times as much food.
func (f Figure) Scale(k float64) Figure {
	return Figure{Lo: f.Lo * k, Hi: f.Hi * k, Coverage: f.Coverage}
}

// Profile holds one figure for each nutrient, per 100 g unless said otherwise.
type Profile [Count]Figure

// Mix adds up foods by weight.
type Mix struct {
	grams           float64
	lo, hi, covered [Count]float64
}

// Add adds grams of a food whose profile is per 100 g.
func (m *Mix) Add(grams float64, per100g *Profile) {
	m.grams += grams
	for i := range per100g {
		f := per100g[i]
		m.lo[i] += f.Lo * grams / 100
		m.hi[i] += f.Hi * grams / 100
		m.covered[i] += f.Coverage * grams
	}
}

// Grams is the weight added so far.
func (m *Mix) Grams() float64 { return m.grams }

// Total returns the figure of one nutrient in everything that was added.
// The coverage of nothing is one: nothing holds nothing.
func (m *Mix) Total(id ID) Figure {
	if m.grams == 0 {
		return Known(0)
	}
	return Figure{Lo: m.lo[id], Hi: m.hi[id], Coverage: min(1, m.covered[id]/m.grams)}
}

// Per100g spreads the totals over a finished weight in grams (a cooked batch
// weighs less or more than its ingredients) and returns the profile per 100 g.
func (m *Mix) Per100g(finished float64) Profile {
	var p Profile
	for i := range p {
		p[i] = m.Total(ID(i)).Scale(100 / finished)
	}
	return p
}
