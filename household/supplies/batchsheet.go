package supplies

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/nutrients"
)

// BatchOrder says how much to cook and when. At most one of Days and YieldG is
// set; with neither the batch is cooked as declared.
type BatchOrder struct {
	Date household.Date
	// Days is how many days the batch feeds all the pets given.
	Days int
	// YieldG is the cooked weight wanted.
	YieldG float64
	// Cooked is the weighing after cooking, when there is one: portions follow it.
	Cooked *household.Cooking
	// OutOfDate says of whom the portions must not be taken for valid, and why.
	OutOfDate []string
}

// BatchSheet is what the batch sheet, the shopping list and the labels show.
type BatchSheet struct {
	Household, Name, Code string
	Date                  household.Date
	// FridgeUntil and FreezerUntil are the last days by the storage rules.
	FridgeUntil, FreezerUntil household.Date
	// RawG and CookedG are the weights of this pot.
	RawG, CookedG float64
	// Weighed says that the portions follow a weighing of the cooked pot.
	Weighed bool
	// Days is how many whole days the pot feeds everybody, DailyG what they eat
	// together in a day, LeftG what is left after the last whole day.
	Days          int
	DailyG, LeftG float64
	Ingredients   []SheetLine
	Shopping      []ShoppingGroup
	// Cost is the price of the shopping list, CostMissing counts lines without.
	Cost        float64
	CostMissing int
	Containers  []Container
	// Jars are the premixes of the pets, for their labels.
	Jars []PremixJar
	// Shared are the sheets of the jars that several pets eat from.
	Shared []*household.MixSheet
	// Groups are the catalogue's groups of what is cooked, nested batches included.
	Groups []string
	// OutOfDate says of whom the portions must not be taken for valid, and why.
	OutOfDate []string
}

// SheetLine is one ingredient of the pot.
type SheetLine struct {
	Name, Method string
	G            float64
	// Pieces is about how many pieces that is, of what is counted and not weighed; 0 for
	// what is weighed.
	Pieces float64
}

// ShoppingGroup is a shelf of the shop: a group of the catalogue, "" for batches to have
// ready.
type ShoppingGroup struct {
	Group string
	Lines []ShoppingLine
}

// ShoppingLine is what to buy: with the part that is thrown away, rounded up.
type ShoppingLine struct {
	Name string
	BuyG float64
	// RefuseG is the part of BuyG that is thrown away (bone, shell, peel).
	RefuseG float64
	// Price is 0 when no price is known.
	Price float64
}

// Container is a portion to freeze or chill, for one pet.
type Container struct {
	// Pet is the name; Species and WeightKg tell animals apart where letters of their
	// names cannot be printed.
	Pet      string
	Species  nutrients.Species
	WeightKg float64
	// Count containers of Days days with G grams each, fed DailyG a day as Meals.
	Count, Days int
	G, DailyG   float64
	Meals       []float64
}

// PremixJar holds the premix of one pet.
type PremixJar struct {
	Pet            string
	Species        nutrients.Species
	WeightKg       float64
	ServeG, TotalG float64
	Days           int
	// Code is that of what it holds, "" in older records; Mix is the mix in hand, nil for
	// none.
	Code string
	Mix  *household.Mixing
}

// LeastLeftG is how much must be left over to be worth a word and a label.
const LeastLeftG = 1.0

// Storage rules of a cooked batch, the same as on the card: the short end of "3
// to 4 days in the fridge" (USDA leftovers rule) and of "2 to 3 months in the
// freezer" (recalled; for quality).
const (
	FridgeDays  = 3
	FreezerDays = 60
)

// NewBatchSheet works out what to cook, buy and fill for the pets whose plans are
// given. It fails with a *NotPrintableError for a plan without amounts.
func NewBatchSheet(base *household.Batch, ps []household.Paired, o BatchOrder) (*BatchSheet, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("a batch sheet needs at least one plan")
	}
	if o.Days < 0 || o.YieldG < 0 || (o.Days > 0 && o.YieldG > 0) {
		return nil, fmt.Errorf("give either the days or the yield of a batch, not both")
	}
	identity := base.Identity()
	b := &BatchSheet{Household: ps[0].Plan().Household, Name: base.Name, Code: identity.Code, Date: o.Date, Weighed: o.Cooked != nil,
		FridgeUntil: o.Date.AddDays(FridgeDays), FreezerUntil: o.Date.AddDays(FreezerDays), OutOfDate: o.OutOfDate}
	daily := make([]float64, len(ps))
	for i, p := range ps {
		pet := &p.Plan().Pet
		if !pet.Status.Printable() {
			return nil, &household.NotPrintableError{Pet: pet.Pet, Status: pet.Status, Why: pet.Conflict}
		}
		if !base.IsRecorded(p.Plan().Base) {
			return nil, fmt.Errorf("the plan of %s was made for base %s, not for %s", pet.Pet, p.Plan().Base.Code, identity.Code)
		}
		daily[i] = pet.BaseG
		if o.Cooked != nil {
			g, err := o.Cooked.PortionG(p)
			if err != nil {
				return nil, err
			}
			daily[i] = g
		}
		b.DailyG += daily[i]
	}
	factor := b.scale(base, o)
	b.Days = int(math.Floor(b.CookedG/b.DailyG + 1e-9))
	if o.Days > 0 {
		b.Days = o.Days
	}
	b.LeftG = max(0, b.CookedG-float64(b.Days)*b.DailyG)
	b.ingredients(base, factor)
	b.Groups = groupsOf(base)
	for _, s := range household.MixSheets(ps) {
		if s.Jar.Of != "" {
			b.Shared = append(b.Shared, s)
		}
	}
	for i, p := range ps {
		pet := &p.Plan().Pet
		b.fill(pet, daily[i])
		if m := pet.Premix; m != nil {
			b.Jars = append(b.Jars, PremixJar{pet.Pet, pet.Species, pet.WeightKg, m.ServeG, m.TotalG, m.Days, m.Code, p.OwnMix()})
		}
	}
	return b, nil
}

// scale sets the weights of the pot and returns the factor on the declared batch.
func (b *BatchSheet) scale(base *household.Batch, o BatchOrder) float64 {
	raw, cooked := base.RawGrams(), base.CookedGrams()
	factor := 1.0
	switch {
	case o.Cooked != nil:
		b.RawG, b.CookedG = o.Cooked.RawG, o.Cooked.CookedG
		return o.Cooked.RawG / raw
	case o.Days > 0:
		factor = float64(o.Days) * b.DailyG / cooked
	case o.YieldG > 0:
		factor = o.YieldG / cooked
	}
	b.RawG, b.CookedG = raw*factor, cooked*factor
	return factor
}

// ShoppingStepG is what amounts to buy are rounded up to.
const ShoppingStepG = 10.0

func (b *BatchSheet) ingredients(base *household.Batch, factor float64) {
	groups := map[string]map[string]*ShoppingLine{}
	for _, in := range base.Ingredients {
		name, group, refuse := "", "", 0.0
		if in.Food != nil {
			name, group, refuse = in.Food.Name, in.Food.Group, in.Food.Refuse
		} else {
			name, group = in.Batch.Name+" ("+in.Batch.Identity().Code+")", ""
		}
		g := in.Grams * factor
		b.Ingredients = append(b.Ingredients, SheetLine{name, in.Method, g, pieces(in.Food, g)})
		if groups[group] == nil {
			groups[group] = map[string]*ShoppingLine{}
		}
		l := groups[group][name]
		if l == nil {
			l = &ShoppingLine{Name: name}
			groups[group][name] = l
		}
		bought := g / (1 - refuse)
		l.BuyG += bought
		l.RefuseG += bought - g
		l.Price += bought * in.PricePerG
	}
	names := make([]string, 0, len(groups))
	for g := range groups {
		names = append(names, g)
	}
	slices.Sort(names)
	for _, g := range names {
		sg := ShoppingGroup{Group: g}
		for _, l := range groups[g] {
			l.BuyG = math.Ceil(l.BuyG/ShoppingStepG-1e-9) * ShoppingStepG
			b.Cost += l.Price
			if l.Price == 0 {
				b.CostMissing++
			}
			sg.Lines = append(sg.Lines, *l)
		}
		slices.SortFunc(sg.Lines, func(x, y ShoppingLine) int { return strings.Compare(x.Name, y.Name) })
		b.Shopping = append(b.Shopping, sg)
	}
}

// fill divides the days of the pot into containers that last no longer than food
// keeps in the fridge.
func (b *BatchSheet) fill(pet *household.PetPlan, dailyG float64) {
	c := Container{Pet: pet.Pet, Species: pet.Species, WeightKg: pet.WeightKg, DailyG: dailyG, Meals: household.MealShares(dailyG, pet.Meals, pet.Scales.ScaleG)}
	if n := b.Days / FridgeDays; n > 0 {
		c.Count, c.Days, c.G = n, FridgeDays, FridgeDays*dailyG
		b.Containers = append(b.Containers, c)
	}
	if rest := b.Days % FridgeDays; rest > 0 {
		c.Count, c.Days, c.G = 1, rest, float64(rest)*dailyG
		b.Containers = append(b.Containers, c)
	}
}

// groups are the catalogue's groups of the foods of a batch, nested batches included.
func groupsOf(b *household.Batch) []string {
	var all []string
	for _, in := range b.Ingredients {
		if in.Batch != nil {
			all = append(all, groupsOf(in.Batch)...)
		} else {
			all = append(all, in.Food.Group)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// pieces is how many pieces of a food a weight is, by its published measure of one; only
// eggs are counted in a kitchen.
func pieces(f *nutrients.Food, g float64) float64 {
	if f == nil || f.Group != "egg" {
		return 0
	}
	for _, m := range f.Measures {
		if (m.Name == "1 egg" || m.Name == "1 large") && m.Grams > 0 {
			return g / m.Grams
		}
	}
	return 0
}
