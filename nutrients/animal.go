package nutrients

import (
	"math"
	"slices"
	"strings"
)

// Species is "dog" or "cat".
type Species string

// The species.
const (
	Dog Species = "dog"
	Cat Species = "cat"
)

// Stage is a life stage.
type Stage string

// The life stages of a pet.
const (
	Adult     Stage = "adult"
	Growth    Stage = "growth"
	Gestation Stage = "gestation"
	Lactation Stage = "lactation"
)

// Activity of an adult.
type Activity string

// The activities. Dogs: 95, 110, 130 and 150-175 kcal/kg^0.75; cats know the
// first three: 75, 85 and 100 kcal/kg^0.67.
const (
	Low      Activity = "low"
	Moderate Activity = "moderate"
	High     Activity = "high"
	Working  Activity = "working"
)

// StandardID names a standard: "nrc2006", "fediaf2021" or "aafco2016".
type StandardID string

// The standards.
const (
	NRC2006    StandardID = "nrc2006"
	FEDIAF2021 StandardID = "fediaf2021"
	AAFCO2016  StandardID = "aafco2016"
)

// Title is the standard as it is called in print: "NRC 2006".
func (s StandardID) Title() string {
	if !slices.Contains(Standards(), s) {
		return string(s) // one of the household's own
	}
	letters := strings.TrimRight(string(s), "0123456789")
	return strings.TrimSpace(strings.ToUpper(letters) + " " + string(s)[len(letters):])
}

// Animal is what the equations need to know of an animal.
type Animal struct {
	Species  Species
	Stage    Stage
	Standard StandardID
	// WeightKg is today's weight.
	WeightKg float64
	// IdealKg is a given ideal weight, 0 to estimate it from the condition.
	IdealKg float64
	// Condition is the body condition score, 1 to 9, 0 when not scored.
	Condition int
	// ScoredKg is the weight on the day of that score, 0 when it is today's. The ideal
	// weight is worked out from it and does not move with the scale.
	ScoredKg float64
	Activity Activity
	Neutered bool
	// AgeWeeks is the age in whole weeks, negative when unknown.
	AgeWeeks int
	// AdultKg is the expected adult weight; growth needs it.
	AdultKg float64
	// Week counts from mating (gestation) or birth (lactation); Litter is the
	// number of young.
	Week, Litter int
	// EnergyKcal overrides the equations; 0 for none.
	EnergyKcal float64
	// Own is the standard where it is one that the household wrote down.
	Own *OwnStandard
	// Limits are what the household changed of the standard's limits for this animal.
	Limits []OwnLimit
}

// excessPerPoint is the share of ideal weight that each point of condition over
// five adds: about 10 % (Missouri VMA 2023 proceedings). It is the least drastic
// of the published readings.
const excessPerPoint = 0.10

// Ideal returns the ideal weight in kg: the given one, or for condition 6 to 9 the
// weight when it was scored / (1 + 0.10 x points over 5), else that weight itself. A
// growing, pregnant or nursing animal has no other ideal than today's weight.
func (a Animal) Ideal() float64 {
	scored := a.ScoredKg
	if scored <= 0 {
		scored = a.WeightKg
	}
	switch {
	case a.Stage != Adult && a.Stage != "":
		return a.WeightKg
	case a.IdealKg > 0:
		return a.IdealKg
	case a.Condition > 5:
		return scored / (1 + excessPerPoint*float64(a.Condition-5))
	}
	return scored
}

// Metabolic exponents: kg^0.75 for dogs, kg^0.67 for cats (NRC 2006, quoted by
// FEDIAF p.128).
const (
	dogExponent = 0.75
	catExponent = 0.67
)

// MetabolicKg returns kg^0.75 for dogs and kg^0.67 for cats.
func MetabolicKg(sp Species, kg float64) float64 {
	if sp == Cat {
		return math.Pow(kg, catExponent)
	}
	return math.Pow(kg, dogExponent)
}

// EnergyNeed is the energy of an animal with the way it was found.
type EnergyNeed struct {
	// Kcal is the energy per day. ReferenceKcal is the energy at ideal weight
	// for which the standard's densities were set; lower limits never go by less.
	Kcal, ReferenceKcal float64
	// IdealKg and MetabolicKg (of the ideal weight) go into the limits.
	IdealKg, MetabolicKg float64
	// Losing is true when the energy is meant to reduce weight.
	Losing bool
	// Method is one line of arithmetic; Steps show it in full.
	Method string
	Steps  []string
	Source Source
	// Cautions apply to this animal: growth, pregnancy, weight loss.
	Cautions []string
}
