package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
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
}

// Batch is what the batch sheet, the shopping list and the labels show.
type Batch struct {
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
	Ingredients   []BatchLine
	Shopping      []ShoppingGroup
	// Cost is the price of the shopping list, CostMissing counts lines without.
	Cost        float64
	CostMissing int
	Containers  []Container
	// Jars are the premixes of the pets, for their labels.
	Jars    []Jar
	Cooking []string
}

// BatchLine is one ingredient of the pot.
type BatchLine struct {
	Name, Method string
	G            float64
}

// ShoppingGroup is a shelf of the shop.
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
	Pet string
	// OnPaper is the name where letters may be missing.
	OnPaper string
	// Count containers of Days days with G grams each, fed DailyG a day as Meals.
	Count, Days int
	G, DailyG   float64
	Meals       string
}

// Jar holds the premix of one pet.
type Jar struct {
	Pet, OnPaper   string
	ServeG, TotalG float64
	Days           int
}

// leastLeftG is how much must be left over to be worth a word and a label.
const leastLeftG = 1.0

// Storage rules of a cooked batch, the same as on the card: the short end of "3
// to 4 days in the fridge" (USDA leftovers rule) and of "2 to 3 months in the
// freezer" (recalled; for quality).
const (
	fridgeDays  = 3
	freezerDays = 60
)

// NewBatch works out what to cook, buy and fill for the pets whose plans are
// given. It fails with a *NotPrintableError for a plan without amounts.
func NewBatch(base *household.Batch, ps []household.Paired, o BatchOrder) (*Batch, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("a batch sheet needs at least one plan")
	}
	if o.Days < 0 || o.YieldG < 0 || (o.Days > 0 && o.YieldG > 0) {
		return nil, fmt.Errorf("give either the days or the yield of a batch, not both")
	}
	identity := base.Identity()
	b := &Batch{Household: ps[0].Plan().Household, Name: base.Name, Code: identity.Code, Date: o.Date, Weighed: o.Cooked != nil,
		FridgeUntil: o.Date.AddDays(fridgeDays), FreezerUntil: o.Date.AddDays(freezerDays)}
	daily := make([]float64, len(ps))
	for i, p := range ps {
		pet := &p.Plan().Pet
		if !pet.Status.Printable() {
			return nil, &NotPrintableError{pet.Pet, pet.Status, pet.Conflict}
		}
		if p.Plan().Base.RecipeDigest != identity.RecipeDigest {
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
	for i, p := range ps {
		pet := &p.Plan().Pet
		b.fill(pet, daily[i])
		if m := pet.Premix; m != nil {
			b.Jars = append(b.Jars, Jar{pet.Pet, paperName(pet), m.ServeG, m.TotalG, m.Days})
		}
	}
	b.Cooking = cookingRules(base)
	return b, nil
}

// scale sets the weights of the pot and returns the factor on the declared batch.
func (b *Batch) scale(base *household.Batch, o BatchOrder) float64 {
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

// shoppingStepG is what amounts to buy are rounded up to.
const shoppingStepG = 10.0

func (b *Batch) ingredients(base *household.Batch, factor float64) {
	groups := map[string]map[string]*ShoppingLine{}
	for _, in := range base.Ingredients {
		name, group, refuse := "", "", 0.0
		if in.Food != nil {
			name, group, refuse = in.Food.Name, in.Food.Group, in.Food.Refuse
		} else {
			name, group = in.Batch.Name+" ("+in.Batch.Identity().Code+")", "to have ready"
		}
		g := in.Grams * factor
		b.Ingredients = append(b.Ingredients, BatchLine{name, in.Method, g})
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
			l.BuyG = math.Ceil(l.BuyG/shoppingStepG-1e-9) * shoppingStepG
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
func (b *Batch) fill(pet *household.PetPlan, dailyG float64) {
	c := Container{Pet: pet.Pet, OnPaper: paperName(pet), DailyG: dailyG, Meals: shortMeals(dailyG, pet.Meals, pet.Scales.ScaleG)}
	if n := b.Days / fridgeDays; n > 0 {
		c.Count, c.Days, c.G = n, fridgeDays, fridgeDays*dailyG
		b.Containers = append(b.Containers, c)
	}
	if rest := b.Days % fridgeDays; rest > 0 {
		c.Count, c.Days, c.G = 1, rest, float64(rest)*dailyG
		b.Containers = append(b.Containers, c)
	}
}
