package household

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// Weights over these are typing slips (common practice: the heaviest breeds of
// dog stay under 120 kg, a cat of 20 kg would be a record).
const (
	maxDogKg = 120
	maxCatKg = 20
)

// maxAgeYears bounds a birthday: older animals are typing slips (common practice).
const maxAgeYears = 40

// youngWeeks is the age below which no dog or cat counts as adult (common
// practice: small breeds and cats are grown at about ten to twelve months).
const youngWeeks = 43

// The ways to choose among plans that meet every limit.
var preferences = []string{"least", "fewest", "cheapest", "closest"}

func (l *loader) readPets(t table) {
	pets := t.many("pet")
	if len(pets) == 0 && !t.has("pet") {
		t.missing("pet", "no pet is declared", "begin one with a line [[pet]] and below it name = \"…\", species = \"dog\", weight = \"31.5 kg\"")
	}
	first := map[string]table{}
	for _, pt := range pets {
		p := l.readPet(pt)
		if p.Name != "" {
			key := strings.ToLower(p.Name)
			if earlier, twice := first[key]; twice {
				pt.fault("name", "pet-twice", fmt.Sprintf("two pets are named %s", p.Name), "give one of them another name")
				if last := len(pt.d.diags) - 1; pt.d.diags[last].Code == "pet-twice" {
					pt.d.diags[last].Related = []diag.Span{pt.d.span(earlier.at("name"))}
				}
			} else {
				first[key] = pt
			}
		}
		if p.Here(l.today) {
			l.home.Pets = append(l.home.Pets, p)
		} else {
			l.home.Away = append(l.home.Away, p)
		}
	}
	for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
		for _, p := range l.home.Pets {
			if p.Animal.Species == sp {
				l.species = append(l.species, sp)
				break
			}
		}
	}
}

func (l *loader) readPet(t table) Pet {
	t.only("name", "species", "born", "sex", "neutered", "weight", "ideal_weight", "adult_weight", "condition",
		"activity", "stage", "litter", "week", "standard", "avoid", "prefer", "energy", "extra",
		"condition_on", "mated", "gave_birth", "weaned", "arrived", "left")
	before := len(t.d.diags)
	p := Pet{Prefer: "least"}
	a := &p.Animal
	p.Name = readPetName(t)
	who := cmp.Or(p.Name, "a pet")
	if s, ok := t.choice("species", string(nutrients.Dog), string(nutrients.Cat)); ok {
		a.Species = nutrients.Species(s)
	} else if !t.has("species") {
		t.missing("species", who+" has no species", "write species = \"dog\" or species = \"cat\"")
	}
	a.AgeWeeks = -1
	if born, ok := t.date("born"); ok {
		p.Born = born
		a.AgeWeeks = l.today.DaysSince(born) / 7
		if l.today.Before(born) {
			t.fault("born", "born-in-future", fmt.Sprintf("born on %s lies in the future", born), "write the birthday as year-month-day")
		} else if a.AgeWeeks > maxAgeYears*52 {
			t.fault("born", "absurd-age", fmt.Sprintf("born in %d cannot be", born.Time().Year()), "write the birthday as year-month-day")
		}
	}
	p.Sex, _ = t.choice("sex", "male", "female")
	if _, isDate := t.m["neutered"].(time.Time); !isDate {
		a.Neutered = t.yes("neutered")
	}
	a.WeightKg, _ = t.bodyWeight("weight", a.Species)
	if !t.has("weight") {
		t.missing("weight", who+" has no weight", "write what the scale shows, like weight = \"31.5 kg\"")
	}
	a.IdealKg, _ = t.bodyWeight("ideal_weight", a.Species)
	a.AdultKg, _ = t.bodyWeight("adult_weight", a.Species)
	if n, ok := t.whole("condition", 1, 9, "the body condition score runs from 1 (starved) over 5 (ideal) to 9 (obese)"); ok {
		a.Condition = n
	}
	if kcal, ok := t.positive("energy", "1310 kcal", parseEnergy); ok {
		a.EnergyKcal = kcal
		if most := maxKcalPerKg * a.WeightKg; a.WeightKg > 0 && kcal > most {
			t.fault("energy", "absurd-energy", fmt.Sprintf("%s kcal a day is beyond what %s kg can use", trim(kcal), trim(a.WeightKg)), "check the unit: kcal, not cal or kJ")
		}
	}
	a.Standard = readStandard(t, l.home.Standard)
	readStage(t, &p)
	l.readDates(t, &p)
	needsOfStage(t, &p)
	p.Avoid = l.readAvoid(t)
	if s, ok := t.choice("prefer", preferences...); ok {
		p.Prefer = s
	}
	l.readExtras(t, &p)
	if len(t.d.diags) == before && !t.d.broken {
		if _, err := nutrients.EnergyFor(p.Animal); err != nil {
			t.d.add("no-energy", t.head(), fmt.Sprintf("no equation gives the energy of %s: %v", p.Name, err), "correct stage, week, litter, weight or adult_weight, or write energy = \"… kcal\"")
		}
	}
	return p
}

// maxKcalPerKg bounds a given energy: nursing queens and sled dogs, the hungriest
// of all, stay under it (common practice).
const maxKcalPerKg = 500

// maxPetName keeps names to what fits on a card.
const maxPetName = 40

func readPetName(t table) string {
	s, ok := t.text("name")
	switch {
	case !ok && !t.has("name"):
		t.missing("name", "a pet has no name", "write name = \"…\"")
	case ok && len([]rune(s)) > maxPetName:
		t.fault("name", "name-too-long", "the name is longer than a card is wide", fmt.Sprintf("write at most %d letters", maxPetName))
	case ok && strings.ContainsAny(s, "\n\r\t,\"/\\"):
		t.fault("name", "bad-name", "a name cannot hold commas, quotes, slashes, tabs or line ends", "write it without them")
	}
	return strings.TrimSpace(s)
}

// bodyWeight reads a weight that an animal of the species can have.
func (t table) bodyWeight(key string, sp nutrients.Species) (float64, bool) {
	kg, ok := t.positive(key, "31.5 kg", ParseWeight)
	if !ok {
		return 0, false
	}
	if err := checkWeight(kg, sp); err != nil {
		t.inputFault(key, err)
		return 0, false
	}
	return kg, true
}

// checkWeight refuses weights that no animal of the species has.
func checkWeight(kg float64, sp nutrients.Species) error {
	most := float64(maxDogKg)
	if sp == nutrients.Cat {
		most = maxCatKg
	}
	if kg > most {
		return diag.BadInput("absurd-weight", fmt.Sprintf("%s kg is too much for a %s", trim(kg), sp), fmt.Sprintf("check the unit and the point: over %s kg counts as a slip", trim(most)))
	}
	if kg < 0.03 {
		return diag.BadInput("absurd-weight", fmt.Sprintf("%s kg is too little for a %s", trim(kg), sp), "check the unit and the point")
	}
	return nil
}

// readStage reads stage and activity, and what each stage needs.
func readStage(t table, p *Pet) {
	a := &p.Animal
	a.Stage, a.Activity = nutrients.Adult, nutrients.Moderate
	if s, ok := t.choice("stage", string(nutrients.Adult), string(nutrients.Growth), string(nutrients.Gestation), string(nutrients.Lactation)); ok {
		a.Stage = nutrients.Stage(s)
	}
	if s, ok := t.choice("activity", string(nutrients.Low), string(nutrients.Moderate), string(nutrients.High), string(nutrients.Working)); ok {
		a.Activity = nutrients.Activity(s)
		if a.Activity == nutrients.Working && a.Species == nutrients.Cat {
			t.fault("activity", "unknown-choice", "cats have no activity \"working\"", "write \"low\", \"moderate\" or \"high\"")
		}
	}
	a.Week, _ = t.whole("week", 1, 20, "count the weeks from mating (gestation) or birth (lactation)")
	a.Litter, _ = t.whole("litter", 1, 24, "write how many young there are")
}

func (l *loader) readExtras(t table, p *Pet) {
	for _, et := range t.many("extra") {
		et.only("food", "amount")
		f, ok := et.food("food", l.home.Catalogue)
		if !et.has("amount") {
			et.missing("amount", "an extra has no amount", "write amount = \"20 g\", for one day")
		}
		if !ok {
			continue
		}
		if f.PerUnit != nil && f.UnitGrams == 0 {
			et.fault("food", "unit-weight-missing", f.ID+" is given by the "+f.UnitName+" and cannot be an extra", "put it on the shelf as an [[addon]]")
			continue
		}
		g, ok := et.amount("amount", f)
		if !ok {
			continue
		}
		et.refuseHazards(f, "", p.Animal.Species)
		if term, avoided := avoidedBy(p.Avoid, f); avoided {
			et.fault("food", "avoided-extra", fmt.Sprintf("%s avoids %q, and %s is that", p.Name, term, f.ID), "take it out, or correct avoid")
		}
		p.Extras = append(p.Extras, Portion{Food: f, Grams: g})
	}
}

// refuseHazards reports a food that is poison for a species, and says whether it
// did.
func (t table) refuseHazards(f *nutrients.Food, method string, species ...nutrients.Species) bool {
	for _, sp := range species {
		if h, blocked := nutrients.Blocked(f, sp, method); blocked {
			way := t.wayAround(f, method, species)
			t.fault("food", "harmful-food", fmt.Sprintf("%s harms a %s: %s", f.ID, sp, h.Text), way.Text, way.Command...)
			return true
		}
	}
	return false
}

// wayAround says what to do about a food that is poison: what harms only raw can be
// cooked.
func (t table) wayAround(f *nutrients.Food, method string, species []nutrients.Species) diag.Hint {
	if method != "" || blockedFor(f, wellCooked, species) {
		return diag.Hint{Text: "leave it out"}
	}
	if strings.HasPrefix(t.path, "ingredient") {
		return diag.Hint{Text: fmt.Sprintf("give it a cooking method, such as method = %q, or leave it out", wellCooked)}
	}
	return diag.Command("leave it out, cook it in the base, or name it as cooked; find its id with", "foods", "find", "WORDS")
}

// wellCooked is a way of cooking that makes harmless what harms only raw.
const wellCooked = "simmered"

func blockedFor(f *nutrients.Food, method string, species []nutrients.Species) bool {
	return slices.ContainsFunc(species, func(sp nutrients.Species) bool {
		_, blocked := nutrients.Blocked(f, sp, method)
		return blocked
	})
}
