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
	// Steps show the arithmetic of each limit, one line each.
	Steps []string
}

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
	// Cautions apply to the animal, its stage and the standard.
	Cautions []string
}
