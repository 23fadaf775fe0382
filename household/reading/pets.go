package reading

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/household/visible"
	"bowlwright/nutrients"
)

// maxAgeYears bounds a birthday: older animals are typing slips (common practice).
const maxAgeYears = 40

// youngWeeks is the age below which no dog or cat counts as adult (common
// practice: small breeds and cats are grown at about ten to twelve months).
const youngWeeks = 43

// The ways to choose among plans that meet every limit.
var preferences = []string{string(household.PreferLeast), string(household.PreferFewest), string(household.PreferCheapest), string(household.PreferClosest)}

func (l *loader) readPets(t tomldoc.Table) {
	pets := t.Many("pet")
	if len(pets) == 0 && !t.Has("pet") {
		t.Missing("pet", "no pet is declared", "begin one with a line [[pet]] and below it name = \"…\", species = \"dog\", weight = \"31.5 kg\"")
	}
	first := map[string]tomldoc.Table{}
	for _, pt := range pets {
		p := l.readPet(pt)
		if p.Name != "" {
			key, shape := "name "+strings.ToLower(p.Name), "shape "+visible.Shape(p.Name)
			earlier, twice := first[key]
			if !twice {
				earlier, twice = first[shape]
			}
			if twice {
				summary := fmt.Sprintf("two pets are named %s", p.Name)
				if name, _ := earlier.Text("name"); !strings.EqualFold(name, p.Name) {
					summary = fmt.Sprintf("the names of two pets look the same: %s and %s", name, p.Name)
				}
				pt.Doc.Report(diag.Diagnostic{Code: "pet-twice", Summary: summary,
					Hint: diag.Hint{Text: "give one of them another name"}, At: pt.Doc.Span(pt.At("name")), Related: []diag.Span{pt.Doc.Span(earlier.At("name"))}})
			} else {
				first[key], first[shape] = pt, pt
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

// muscleScores are the four steps of the muscle condition score (WSAVA Global Nutrition
// Committee).
var muscleScores = []string{"normal", "mild", "moderate", "severe"}

func (l *loader) readPet(t tomldoc.Table) household.Pet {
	t.Only("name", "species", "born", "sex", "neutered", "weight", "ideal_weight", "adult_weight", "condition",
		"activity", "stage", "litter", "week", "standard", "avoid", "prefer", "energy", "extra", "eats", "limit",
		"condition_on", "mated", "gave_birth", "weaned", "arrived", "left", "breed", "muscle", "fed_before", "photo")
	before := len(t.Doc.Diags)
	p := household.Pet{Prefer: household.PreferLeast}
	a := &p.Animal
	p.Name = readPetName(t)
	who := cmp.Or(p.Name, "a pet")
	if s, ok := t.Choice("species", string(nutrients.Dog), string(nutrients.Cat)); ok {
		a.Species = nutrients.Species(s)
	} else if !t.Has("species") {
		t.Missing("species", who+" has no species", "write species = \"dog\" or species = \"cat\"")
	}
	a.AgeWeeks = -1
	if day, ok := t.Date("born"); ok {
		born := household.DateOf(day)
		p.Born = born
		a.AgeWeeks = l.today.DaysSince(born) / 7
		if l.today.Before(born) {
			t.Fault("born", "born-in-future", fmt.Sprintf("born on %s lies in the future", born), "write the birthday as year-month-day")
		} else if a.AgeWeeks > maxAgeYears*52 {
			t.Fault("born", "absurd-age", fmt.Sprintf("born in %d cannot be", born.Time().Year()), "write the birthday as year-month-day")
		}
	}
	sex, _ := t.Choice("sex", string(household.Male), string(household.Female))
	p.Sex = household.Sex(sex)
	p.Breed, _ = t.Text("breed")
	muscle, _ := t.Choice("muscle", muscleScores...)
	p.Muscle = muscle
	p.FedBefore, _ = t.Text("fed_before")
	p.Photo, _ = t.Text("photo")
	if filepath.IsAbs(p.Photo) || !filepath.IsLocal(cmp.Or(p.Photo, ".")) {
		t.Fault("photo", "photo-outside", "the photo lies outside the household", "put it into the household's folder, and write photo = \"pictures/tansy.jpg\"")
		p.Photo = ""
	}
	if !t.Dated("neutered") {
		a.Neutered = t.Yes("neutered")
	}
	a.WeightKg, _ = readBodyWeight(t, "weight", a.Species)
	if !t.Has("weight") {
		t.Missing("weight", who+" has no weight", "write what the scale shows, like weight = \"31.5 kg\"")
	}
	a.IdealKg, _ = readBodyWeight(t, "ideal_weight", a.Species)
	a.AdultKg, _ = readBodyWeight(t, "adult_weight", a.Species)
	if n, ok := t.WholeNumber("condition", 1, 9, "the body condition score runs from 1 (starved) over 5 (ideal) to 9 (obese)"); ok {
		a.Condition = n
	}
	if kcal, ok := t.Positive("energy", "1310 kcal", quantity.Energy); ok {
		a.EnergyKcal = kcal
		if most := maxKcalPerKg * a.WeightKg; a.WeightKg > 0 && kcal > most {
			t.Fault("energy", "absurd-energy", fmt.Sprintf("%s kcal a day is beyond what %s kg can use", quantity.Text(kcal), quantity.Text(a.WeightKg)), "check the unit: kcal, not cal or kJ")
		}
	}
	a.Standard = l.readStandard(t, l.home.Standard)
	a.Own = l.standards[a.Standard]
	readStage(t, &p)
	l.readDates(t, &p)
	needsOfStage(t, &p)
	p.Avoid = l.readAvoid(t)
	if s, ok := t.Choice("prefer", preferences...); ok {
		p.Prefer = household.Preference(s)
	}
	l.readExtras(t, &p)
	l.readEats(t, &p)
	readLimits(t, &p)
	if len(t.Doc.Diags) == before && !t.Doc.Broken {
		// Young that live on milk belong to the household; no day is planned for them.
		var unweaned *nutrients.UnweanedError
		if _, err := nutrients.EnergyFor(p.Animal); err != nil && !errors.As(err, &unweaned) {
			t.Doc.Add("no-energy", t.Head(), fmt.Sprintf("no equation gives the energy of %s: %v", p.Name, err), "correct stage, week, litter, weight or adult_weight, or write energy = \"… kcal\"")
		}
	}
	return p
}

// maxKcalPerKg bounds a given energy: nursing queens and sled dogs, the hungriest
// of all, stay under it (common practice).
const maxKcalPerKg = 500

// maxPetName keeps names to what fits on a card.
const maxPetName = 40

func readPetName(t tomldoc.Table) string {
	s, ok := t.Text("name")
	switch {
	case !ok && !t.Has("name"):
		t.Missing("name", "a pet has no name", "write name = \"…\"")
	case ok && len([]rune(s)) > maxPetName:
		t.Fault("name", "name-too-long", "the name is longer than a card is wide", fmt.Sprintf("write at most %d letters", maxPetName))
	case ok && strings.ContainsAny(s, "\n\r\t,\"/\\"):
		t.Fault("name", "bad-name", "a name cannot hold commas, quotes, slashes, tabs or line ends", "write it without them")
	}
	return strings.TrimSpace(s)
}

// bodyWeight reads a weight that an animal of the species can have.
func readBodyWeight(t tomldoc.Table, key string, sp nutrients.Species) (float64, bool) {
	kg, ok := t.Positive(key, "31.5 kg", quantity.Weight)
	if !ok {
		return 0, false
	}
	if err := household.CheckWeight(kg, sp); err != nil {
		t.InputFault(key, err)
		return 0, false
	}
	return kg, true
}

// readStage reads stage and activity, and what each stage needs.
func readStage(t tomldoc.Table, p *household.Pet) {
	a := &p.Animal
	a.Stage, a.Activity = nutrients.Adult, nutrients.Moderate
	if s, ok := t.Choice("stage", string(nutrients.Adult), string(nutrients.Growth), string(nutrients.Gestation), string(nutrients.Lactation)); ok {
		a.Stage = nutrients.Stage(s)
	}
	if s, ok := t.Choice("activity", string(nutrients.Low), string(nutrients.Moderate), string(nutrients.High), string(nutrients.Working)); ok {
		a.Activity = nutrients.Activity(s)
		if a.Activity == nutrients.Working && a.Species == nutrients.Cat {
			t.Fault("activity", "unknown-choice", "cats have no activity \"working\"", "write \"low\", \"moderate\" or \"high\"")
		}
	}
	a.Week, _ = t.WholeNumber("week", 1, 20, "count the weeks from mating (gestation) or birth (lactation)")
	a.Litter, _ = t.WholeNumber("litter", 1, 24, "write how many young there are")
}

func (l *loader) readExtras(t tomldoc.Table, p *household.Pet) {
	for _, et := range t.Many("extra") {
		et.Only("food", "amount")
		f, ok := foodfile.Named(et, "food", l.home.Catalogue)
		if !et.Has("amount") {
			et.Missing("amount", "an extra has no amount", "write amount = \"20 g\", for one day")
		}
		if !ok {
			continue
		}
		if f.PerUnit != nil && f.UnitGrams == 0 {
			et.Fault("food", "unit-weight-missing", f.ID+" is given by the "+f.UnitName+" and cannot be an extra", "put it on the shelf as an [[addon]]")
			continue
		}
		g, ok := foodfile.Amount(et, "amount", f)
		if !ok {
			continue
		}
		foodfile.RefuseHazards(et, f, "", p.Animal.Species)
		if term, avoided := household.AvoidedBy(p.Avoid, f); avoided {
			et.Fault("food", "avoided-extra", fmt.Sprintf("%s avoids %q, and %s is that", p.Name, term, f.ID), "take it out, or correct avoid")
		}
		p.Extras = append(p.Extras, household.Portion{Food: f, Grams: g})
	}
}
