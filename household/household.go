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
	// Pets are fed here today; Away are those that left or have not arrived.
	Pets, Away []Pet
	Addons     []Addon
	// Jars are the jars that household.toml asks for.
	Jars []JarSpec
	// InHand are the mixes that were recorded and are still good, the newest of each name.
	InHand []*Mixing
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
	// AimsShare is how much more add-on than the least a plan may hold to be nearer its
	// aims; FewestWithin how many times the least where few items are preferred.
	AimsShare, FewestWithin float64
}

// Pet is one animal. Animal.WeightKg is the weight in force on the day asked
// for: the latest of the file and the weight log.
type Pet struct {
	Name string
	Born Date
	Sex  Sex
	// Breed, FedBefore and Muscle ("normal", "mild", "moderate" or "severe" loss) are for
	// the veterinarian; Photo is a file in the household's folder. All are "" when not given.
	Breed, FedBefore, Muscle, Photo string
	Animal                          nutrients.Animal
	// WeightDate is the day of the weight in force, zero when it comes from
	// household.toml.
	WeightDate Date
	Dates      Dates
	// ScoredOn is the day of the condition score, zero when none is given.
	// LogCondition says that the weight log has another score than household.toml,
	// which gives no date.
	ScoredOn     Date
	LogCondition bool
	// Past holds what all plans say, in the order in which they were followed; it is nil
	// until the records are asked for it.
	Past []PastPlan
	// Last is what the plan in use says of the animal, StageSince the day of the first
	// plan with a stage and week that have no date; both are known after Recall.
	Last       PastPlan
	StageSince Date
	// declared is the animal as household.toml has it, conditionOn its condition_on and
	// scoredFrom the day of the weighing behind a score without a date.
	declared                nutrients.Animal
	conditionOn, scoredFrom Date
	// Avoid holds food ids and groups.
	Avoid  []string
	Prefer Preference
	Extras []Portion
	// Eats is what the pet eats now, for an assessment; empty where nothing is declared.
	Eats []Eaten
}

// Sex of an animal; empty where the household does not say.
type Sex string

// The sexes.
const (
	Male   Sex = "male"
	Female Sex = "female"
)

// Preference says which of the plans that meet every limit a pet gets.
type Preference string

// The preferences: the least grams of add-on, the fewest items, the least price, or the
// amounts closest to the plan in use.
const (
	PreferLeast    Preference = "least"
	PreferFewest   Preference = "fewest"
	PreferCheapest Preference = "cheapest"
	PreferClosest  Preference = "closest"
)

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
	Pets  []string
	Stock Stock
	// Jar is set where the item is a jar of the household's own mixing.
	Jar *Jar
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
	Stock     Stock

	// recorded says that the ingredient is read from a record, which says what an own
	// food is known by.
	recorded        bool
	recordedContent string
}

// WeighIn is one line of the weight log.
type WeighIn struct {
	Date Date
	Pet  string
	Kg   float64
	Note string
	// Condition is the body condition scored with the weighing, 0 for none;
	// OffPlanDays on how many days since the weighing before the animal ate something
	// else than its plan.
	Condition, OffPlanDays int
}
