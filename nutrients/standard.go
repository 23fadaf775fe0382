package nutrients

import "strings"

// Basis says what a figure of a standard is given per.
type Basis string

// The bases.
const (
	Per1000kcal    Basis = "per-1000kcal"
	PerKgMetabolic Basis = "per-kg-metabolic"
	PerRatio       Basis = "ratio"
	Per100gDM      Basis = "per-100g-dm"
	// PerGram and a nutrient's id, "per-g-protein": what each gram of the other adds.
	PerGram Basis = "per-g-"
)

// Bound says what kind of figure a row is.
type Bound string

// The bounds: NRC's minimal requirement, adequate intake, recommended allowance
// and safe upper limit; the other standards' minimum, maximum and legal maximum.
const (
	MR       Bound = "mr"
	AI       Bound = "ai"
	RA       Bound = "ra"
	SUL      Bound = "sul"
	Min      Bound = "min"
	Max      Bound = "max"
	LegalMax Bound = "legal-max"
	// NoHarm is a figure up to which no harm was seen, printed with ">" or in words:
	// it says nothing of what lies beyond. Harm is a level that was reported to harm.
	NoHarm Bound = "no-harm"
	Harm   Bound = "harm"
	// Home is a minimum of another food form that home-cooked food must keep as well.
	Home Bound = "home"
	// Rise is a minimum that grows with another nutrient.
	Rise Bound = "rise"
)

// Row is one printed figure of a standard, in the unit the standard prints.
type Row struct {
	Standard StandardID
	Species  Species
	// Stage is the standard's own name of the stage.
	Stage string
	// Nutrient is the standard's own name of the row; most are nutrient ids,
	// some name a food form ("taurine-canned") or a ratio.
	Nutrient string
	Basis    Basis
	Bound    Bound
	Value    float64
	Unit     string
	Source   Source
}

// Limit is what one animal must get of one nutrient per day, in the nutrient's
// canonical unit.
type Limit struct {
	Nutrient ID
	// Lower and Upper are nil where the standard sets none. Aim is what a plan
	// tries for between them, nil when Lower is nil.
	Lower, Upper, Aim *float64
	// LowerSource and UpperSource name the rows used.
	LowerSource, UpperSource Source
	// NoHarm is an amount up to which no harm was seen, nil where none is stated. It
	// refuses no food; add-ons may not push a day past the larger of it and what base
	// and extras bring.
	NoHarm       *float64
	NoHarmSource Source
	// Steps show the arithmetic of each limit, one line each.
	Steps []string
	// Own is what the household changed of this limit, nil for nothing.
	Own *Override
}

// Risen is a lower limit that grows with another nutrient of the day: the Nutrient
// must reach its own lower limit and PerUnit for each unit of With over Above, in
// canonical units.
type Risen struct {
	Nutrient, With       ID
	Base, PerUnit, Above float64
	Source               Source
}

// Risen returns the lower limit of a day of a nutrient whose limit grows with another
// one, not ok for others. most says how much of a nutrient the day holds.
func (t Targets) Risen(id ID, most func(ID) float64) (lower float64, ok bool) {
	for _, r := range t.Rises {
		if r.Nutrient == id {
			return r.Lower(most(r.With)), true
		}
	}
	return 0, false
}

// Lower is the lower limit of a day that holds so much of With.
func (r Risen) Lower(with float64) float64 { return r.Base + r.PerUnit*max(0, with-r.Above) }

// Ratio is a limit on the quotient of two nutrients by weight, Lower to Upper.
type Ratio struct {
	// Key is "calcium-phosphorus" or "omega6-omega3".
	Key          string
	Numerator    []ID
	Denominator  []ID
	Lower, Upper *float64
	Source       Source
}

// RatioName writes the key of a ratio as people do: "calcium : phosphorus".
func RatioName(key string) string { return strings.ReplaceAll(key, "-", " : ") }

// Targets is everything a day must meet.
type Targets struct {
	Energy EnergyNeed
	Limits []Limit
	Ratios []Ratio
	// Rises are the lower limits that grow with what the day holds of another nutrient.
	Rises []Risen
	// Overrides are the limits that the household set for this animal.
	Overrides []Override
	// Cautions apply to the animal, its stage and the standard.
	Cautions []string
}
