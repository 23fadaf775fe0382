package household

import (
	"maps"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

// Household is a valid household: everything in it has been checked, units are
// canonical, foods and batches are resolved.
type Household struct {
	// Dir is the folder that holds household.toml.
	Dir      string
	Name     string
	Standard nutrients.StandardID
	Kitchen  Kitchen
	Pets     []Pet
	Addons   []Addon
	// Base is the batch in use; Batches holds every batch of bases/ by its
	// file name without the ending.
	Base      *Batch
	Batches   map[string]*Batch
	Catalogue *nutrients.Catalogue
	Weights   []WeighIn
}

// Pet finds a pet by name, case-insensitively.
func (h *Household) Pet(name string) (*Pet, bool) {
	for i := range h.Pets {
		if strings.EqualFold(h.Pets[i].Name, strings.TrimSpace(name)) {
			return &h.Pets[i], true
		}
	}
	return nil, false
}

// BatchNames returns the files of bases/ in order.
func (h *Household) BatchNames() []string { return slices.Sorted(maps.Keys(h.Batches)) }

// Kitchen holds what the kitchen can do. Zero grams means: no such scale.
type Kitchen struct {
	Meals int
	// ScaleG and FineScaleG are the smallest steps of the two scales in grams.
	ScaleG, FineScaleG float64
	PremixDays         int
	// EnergySlack is the share (0.01 for 1 %) by which a rounded day may miss
	// its energy.
	EnergySlack float64
	// AddonEnergyShare is the largest share of energy from add-ons.
	AddonEnergyShare float64
	// WeightMoved is the share by which a weight may move before a plan is stale.
	WeightMoved float64
}

// Pet is one animal. Animal.WeightKg is the weight in force on the day asked
// for: the latest of the file and the weight log.
type Pet struct {
	Name   string
	Born   Date
	Sex    string
	Animal nutrients.Animal
	// WeightDate is the day of the weight in force, zero when it comes from
	// household.toml.
	WeightDate Date
	// Avoid holds food ids and groups.
	Avoid []string
	// Prefer is "least", "fewest", "cheapest" or "closest".
	Prefer string
	Extras []Portion
	// Eats is what the pet eats now, for an assessment; empty where nothing is declared.
	Eats []Eaten
}

// Portion is grams of a food.
type Portion struct {
	Food  *nutrients.Food
	Grams float64
}

// Addon is an item on the shelf.
type Addon struct {
	Food *nutrients.Food
	// StepG is the smallest weighable amount if the file gives one, else 0:
	// the scales decide. For an item dosed by count it is the weight of the
	// smallest dose (half a tablet, one capsule).
	StepG float64
	// Unit is "capsule", "tablet" and so on for items dosed by count, with the
	// weight of one; empty for items that are weighed.
	Unit      string
	UnitGrams float64
	// MaxG and MaxGPerKg cap the daily amount; 0 means no cap of that kind.
	MaxG, MaxGPerKg float64
	// PricePerG is in the household's money, 0 when unknown.
	PricePerG float64
	// Pets names the pets that may get it; empty means all.
	Pets []string
}

// Batch is one cooked batch: the base, or a batch used as an ingredient.
type Batch struct {
	// File is the name in bases/ without the ending; Name is for people.
	File, Name  string
	Ingredients []Ingredient
	// YieldG is the declared weight of the cooked batch in grams, or 0 when it
	// is to be computed from the ingredients' cooking yields.
	YieldG float64
	// Days is how long a batch should last, 0 when not declared.
	Days int
	// KeepsLiquid is true when broth, juices and fat stay in the batch instead of
	// being poured off.
	KeepsLiquid bool
}

// Ingredient is a food or another batch in a batch.
type Ingredient struct {
	// Exactly one of Food and Batch is set.
	Food  *nutrients.Food
	Batch *Batch
	Grams float64
	// Method is the cooking method, empty for ready to eat.
	Method    string
	PricePerG float64
}

// WeighIn is one line of the weight log.
type WeighIn struct {
	Date Date
	Pet  string
	Kg   float64
	Note string
}
