package household

import (
	"fmt"
	"math"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// PlanFormat names the record format of a plan.
const PlanFormat = "bowlwright/plan-record/1"

// Status says how a plan ended.
type Status string

// The statuses. Met keeps every limit; Short misses a lower limit; Over means
// that the base or the extras alone exceed an upper limit; Impossible means that
// no plan keeps the upper limits and the energy.
const (
	Met        Status = "met"
	Short      Status = "short"
	Over       Status = "over"
	Impossible Status = "impossible"
)

// Printable says whether amounts may be shown at all.
func (s Status) Printable() bool { return s == Met || s == Short }

// Plan is the saved plan of one pet for one day: everything that a card, a
// report or a check shows, so that a reprint never disagrees with the original.
type Plan struct {
	Format    string `json:"format"`
	Household string `json:"household"`
	Date      Date   `json:"date"`
	Version   string `json:"version"`
	// Restored is the day on which an earlier plan was taken up again, zero for a plan
	// that was not.
	Restored Date         `json:"restored,omitzero"`
	Base     BaseSnapshot `json:"base"`
	Pet      PetPlan      `json:"pet"`
}

// PetPlan is the pet's part of a plan; its JSON is the contract of `plan --json`.
type PetPlan struct {
	Pet           string               `json:"pet"`
	Species       nutrients.Species    `json:"species"`
	Stage         nutrients.Stage      `json:"stage"`
	Standard      nutrients.StandardID `json:"standard"`
	WeightKg      float64              `json:"weight_kg"`
	IdealWeightKg float64              `json:"ideal_weight_kg"`
	WeightDate    Date                 `json:"weight_date"`
	Condition     int                  `json:"condition,omitempty"`
	// ScoredKg and ScoredOn are the weighing from which the ideal weight of an adult is
	// worked out; Week and Litter those of a pregnant or nursing animal. StageSince is
	// the day of the first plan with a week that has no date, SteadySince that of the
	// first one from which on the energy hardly changed. Older records have none.
	ScoredKg    float64 `json:"scored_kg,omitempty"`
	ScoredOn    Date    `json:"scored_on,omitzero"`
	Week        int     `json:"week,omitempty"`
	Litter      int     `json:"litter,omitempty"`
	StageSince  Date    `json:"stage_since,omitzero"`
	SteadySince Date    `json:"steady_since,omitzero"`
	// GoodUntil is the last day of the plan when nothing else changes; older records
	// have none.
	GoodUntil Date `json:"good_until,omitzero"`
	// EnergyGiven says that the household gave the energy.
	EnergyGiven bool `json:"energy_given,omitempty"`
	// Born is the birthday, zero where the household gives none; older records have none.
	Born Date `json:"born,omitzero"`
	// Sex is "" and Neutered false where the household does not say; older records have
	// neither, nor what the animal avoids.
	Sex      Sex      `json:"sex,omitempty"`
	Neutered bool     `json:"neutered,omitempty"`
	Avoid    []string `json:"avoid,omitempty"`
	// Breed, Muscle and FedBefore are as the household gives them.
	Breed      string  `json:"breed,omitempty"`
	Muscle     string  `json:"muscle,omitempty"`
	FedBefore  string  `json:"fed_before,omitempty"`
	EnergyKcal float64 `json:"energy_kcal"`
	// EnergySlack is how far, as a share, the planned energy may be from EnergyKcal; older
	// records do not have it.
	EnergySlack   float64 `json:"energy_slack,omitempty"`
	ReferenceKcal float64 `json:"reference_energy_kcal"`
	EnergyMethod  string  `json:"energy_source"`
	PlannedKcal   float64 `json:"planned_energy_kcal"`
	// ButForScale says of a short plan that exact amounts meet every target and that its
	// whole steps miss each by under half a per cent.
	ButForScale  bool           `json:"met_but_for_scale,omitempty"`
	Losing       bool           `json:"losing,omitempty"`
	Status       Status         `json:"status"`
	BaseG        float64        `json:"base_g"`
	BaseKcalPerG float64        `json:"base_energy_kcal_per_g"`
	Meals        int            `json:"meals"`
	Addons       []AddonAmount  `json:"addons"`
	Extras       []ExtraAmount  `json:"extras"`
	Premix       *Premix        `json:"premix"`
	Nutrients    []NutrientLine `json:"nutrients"`
	Ratios       []RatioLine    `json:"ratios"`
	Binding      []Binding      `json:"binding"`
	Certificate  *Certificate   `json:"certificate"`
	Conflict     []string       `json:"conflict,omitempty"`
	Notes        []string       `json:"notes,omitempty"`
	Cautions     []string       `json:"cautions"`
	// StandardDigest covers the figures of a standard of the household's own; left out for
	// the published ones.
	StandardDigest string `json:"standard_digest,omitempty"`
	// Unsure counts what decides the plan and was not checked; nil in older records.
	Unsure *Unsure `json:"unsure,omitempty"`
	// OwnLimits are the limits that the household set for this pet, as they worked out on
	// the day of the plan; none in older records.
	OwnLimits []OwnLimit `json:"own_limits,omitempty"`
	// Excess is what Cautions say the day holds too much of; nil in older records.
	Excess []Excess `json:"excess,omitzero"`
	// OverKitchen lists the add-ons of which the day holds more than a kitchen gives,
	// because less would miss more.
	OverKitchen  []OverKitchen `json:"over_kitchen,omitempty"`
	ShelfDigest  string        `json:"shelf_digest"`
	WeighAgainBy Date          `json:"weigh_again_by"`
	// Makeup is what the food of a day is made of; older records have none.
	Makeup *Makeup    `json:"makeup,omitempty"`
	Scales ScalesUsed `json:"scales"`
	// Jar is the dose of a shared jar, nil for a pet without one.
	Jar *JarDose `json:"jar,omitempty"`
}

// OwnLimit is a limit that the household set for a pet in place of the standard's.
type OwnLimit struct {
	nutrients.OwnLimit
	// Text is a sentence that says what was changed, why and by whom.
	Text string `json:"text"`
	// LoosensMaximum is true where the day may hold more than the standard calls safe.
	LoosensMaximum bool `json:"loosens_maximum,omitempty"`
}

// OwnLimitsOf takes down the limits that a household set, for a record.
func OwnLimitsOf(t nutrients.Targets) []OwnLimit {
	var all []OwnLimit
	for _, o := range t.Overrides {
		all = append(all, OwnLimit{o.OwnLimit, o.Text(), o.LoosensMaximum()})
	}
	return all
}

// ScalesUsed records the scale steps in grams that the amounts were rounded to.
type ScalesUsed struct {
	ScaleG     float64 `json:"scale_g"`
	FineScaleG float64 `json:"fine_scale_g"`
}

// Served says how an add-on comes into the bowl.
type Served string

// The ways to serve: weighed by itself, as a part of the premix, or counted out in
// capsules, tablets and the like.
const (
	ServedWeighed Served = "weighed"
	ServedPremix  Served = "premix"
	ServedByUnit  Served = "unit"
	ServedFromJar Served = "jar"
)

// FinestG is the smallest step of either scale.
func (s ScalesUsed) FinestG() float64 {
	if s.FineScaleG > 0 && s.FineScaleG < s.ScaleG {
		return s.FineScaleG
	}
	return s.ScaleG
}

// AddonAmount is the daily amount of one add-on.
type AddonAmount struct {
	Food string  `json:"food"`
	Name string  `json:"name"`
	G    float64 `json:"g"`
	// StepG is the step that G is a whole number of.
	StepG    float64 `json:"step_g"`
	ServedAs Served  `json:"served_as"`
	// EveryDays is the number of days between helpings of an add-on that is too
	// little to measure daily: one helping is EveryDays times G, and Units counts
	// that helping. 0 means daily.
	EveryDays int `json:"every_days,omitempty"`
	// Measure is a published kitchen measure or a count ("2 capsules"), or "".
	Measure string  `json:"measure"`
	Units   float64 `json:"units,omitempty"`
	Unit    string  `json:"unit,omitempty"`
	Kcal    float64 `json:"kcal"`
	Price   float64 `json:"price,omitempty"`
	Digest  string  `json:"digest"`
	// Group is the catalogue's group, for storage and hygiene text.
	Group string `json:"group"`
}

// ExtraAmount is a fixed daily extra.
type ExtraAmount struct {
	Food   string  `json:"food"`
	Name   string  `json:"name"`
	G      float64 `json:"g"`
	Kcal   float64 `json:"kcal"`
	Digest string  `json:"digest"`
}

// Premix is powders weighed once for several days and served by the gram.
type Premix struct {
	Days  int          `json:"days"`
	Items []PremixItem `json:"items"`
	// Code identifies what the mix holds, as that of a jar; older records have none.
	Code   string `json:"code,omitempty"`
	Digest string `json:"digest,omitempty"`
	// TotalG is the weight of the whole mix, ServeG of one day's serving.
	TotalG float64 `json:"total_g"`
	ServeG float64 `json:"serve_g"`
}

// PremixItem is the weight of one powder for the whole period.
type PremixItem struct {
	Food string  `json:"food"`
	Name string  `json:"name"`
	G    float64 `json:"g"`
	// Carrier is true for what only makes the mix big enough to weigh.
	Carrier bool `json:"carrier,omitempty"`
	// Digest is that of the food's figures; Own is true for a food of the household's own.
	Digest string `json:"digest,omitempty"`
	Own    bool   `json:"own,omitempty"`
}

// State of a nutrient against its limits.
type State string

// The states. Unknown means that nothing is known of the nutrient.
const (
	StateMet     State = "met"
	StateLow     State = "low"
	StateHigh    State = "high"
	StateUnknown State = "unknown"
)

// NutrientLine is one nutrient of the day against its limits, in its canonical
// unit. Amount is what is known (the low end where sources differ), nil when
// nothing is.
type NutrientLine struct {
	ID     nutrients.ID `json:"id"`
	Name   string       `json:"name"`
	Unit   string       `json:"unit"`
	Amount *float64     `json:"amount"`
	High   *float64     `json:"amount_high,omitempty"`
	Lower  *float64     `json:"lower"`
	Upper  *float64     `json:"upper"`
	Aim    *float64     `json:"aim"`
	// LowerBase is the minimum before what the day's protein or fish oil adds to it,
	// left out where nothing can be added.
	LowerBase *float64 `json:"lower_base,omitempty"`
	// NoHarm is an amount up to which no harm was seen, left out where none is stated.
	NoHarm   *float64 `json:"no_harm,omitempty"`
	Coverage float64  `json:"coverage"`
	State    State    `json:"state"`
	// UpperChecked is false when an upper limit stands and coverage is partial.
	UpperChecked bool         `json:"upper_checked"`
	From         Contribution `json:"from"`
	LowerSource  string       `json:"lower_source,omitempty"`
	UpperSource  string       `json:"upper_source,omitempty"`
	Recalled     bool         `json:"recalled,omitempty"`
}

// Contribution splits an amount by where it comes from.
type Contribution struct {
	Base   float64 `json:"base"`
	Addons float64 `json:"addons"`
	Extras float64 `json:"extras"`
}

// RatioLine is a quotient of two nutrients against its range.
type RatioLine struct {
	ID     string   `json:"id"`
	Amount *float64 `json:"amount"`
	Lower  *float64 `json:"lower"`
	Upper  *float64 `json:"upper"`
	State  State    `json:"state"`
	Source string   `json:"source,omitempty"`
}

// Binding is a limit that decides the plan, with its price in add-on.
type Binding struct {
	Limit nutrients.LimitID `json:"limit"`
	Costs string            `json:"costs"`
}

// Certificate proves a lower bound on the add-on: with the duals of the recorded
// program no plan on this shelf can need less than LeastAddonG.
type Certificate struct {
	LeastAddonG float64                       `json:"least_addon_g"`
	Duals       map[nutrients.LimitID]float64 `json:"duals"`
	Program     *Program                      `json:"program,omitempty"`
	// WeighableProved says that the search for weighable amounts ended by itself;
	// WeighableGap is how far, as a share, those amounts may be from the best ones
	// (nearest to the computed amounts, or missing least), 1 where nothing is known.
	WeighableProved bool    `json:"weighable_proved"`
	WeighableGap    float64 `json:"weighable_gap"`
}

// Program is the linear program behind a plan, in grams and canonical units:
// minimise the sum of Cost x over 0 <= x <= Cap with Lower <= A x <= Upper.
type Program struct {
	Columns []ProgramColumn `json:"columns"`
	Rows    []ProgramRow    `json:"rows"`
}

// ProgramColumn is one unknown: the base or an add-on, in grams.
type ProgramColumn struct {
	Food string   `json:"food"`
	Cost float64  `json:"cost"`
	Cap  *float64 `json:"cap"`
}

// ProgramRow is one limit.
type ProgramRow struct {
	Limit nutrients.LimitID `json:"limit"`
	Lower *float64          `json:"lower"`
	Upper *float64          `json:"upper"`
	A     Coefficients      `json:"a"`
}

// Since is the day from which a plan is followed.
func (plan *Plan) Since() Date {
	if plan.Date.Before(plan.Restored) {
		return plan.Restored
	}
	return plan.Date
}

// Assessment is what a pet eats now, held against its limits. It proposes nothing.
type Assessment struct {
	// Pet has the form of a pet's part of a plan: base, extras, nutrients, ratios,
	// status; what the plan in use prescribes stands there as it does in a plan.
	Pet PetPlan
	// Declared is true where the household says what is eaten; else it is the plan in
	// use, made on Made.
	Declared bool
	Made     Date
	// Eats lists what is eaten a day, in the order of the file.
	Eats []ExtraAmount
}

// EnergyShare is what is eaten of the energy that the pet needs, 1 for all of it;
// not a number where the energy of the food is not known.
func (a *Assessment) EnergyShare() float64 {
	if a.Pet.PlannedKcal <= 0 || a.Pet.EnergyKcal <= 0 {
		return math.NaN()
	}
	return a.Pet.PlannedKcal / a.Pet.EnergyKcal
}

// A NothingEatenError says that there is nothing to assess.
type NothingEatenError struct{ Pet string }

func (e *NothingEatenError) Error() string {
	return fmt.Sprintf("nothing says what %s eats: there is no [[pet.eats]] and no plan in use", e.Pet)
}

// ExitCode is that of bad input.
func (e *NothingEatenError) ExitCode() int { return diag.ExitInput }

// Hint says where to write it down.
func (e *NothingEatenError) Hint() diag.Hint {
	return diag.Hint{Text: "below the pet in household.toml write [[pet.eats]] with food = \"…\" (or base = \"…\") and amount = \"180 g\", once for each food of a day"}
}
