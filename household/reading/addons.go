package reading

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

func (l *loader) readAddons(t tomldoc.Table) {
	first := map[string]tomldoc.Table{}
	for _, at := range t.Many("addon") {
		at.Only("food", "step", "unit", "unit_grams", "max", "price", "pets", "have", "pack")
		f, ok := foodfile.Named(at, "food", l.home.Catalogue)
		if !ok {
			continue
		}
		if _, twice := first[f.ID]; twice {
			at.Fault("food", "addon-twice", fmt.Sprintf("%s stands on the shelf twice", f.ID), "keep one of the two")
			continue
		}
		first[f.ID] = at
		a := household.Addon{Food: f, Pets: l.readAddonPets(at)}
		readDose(at, &a)
		if s, ok := at.Text("max"); ok {
			var err error
			if a.MaxG, a.MaxGPerKg, err = quantity.DailyMax(s); err != nil {
				at.InputFault("max", err)
			} else if a.MaxG+a.MaxGPerKg <= 0 {
				at.Fault("max", "not-positive", "max must be more than nothing", "write max = \"2 g\", or leave the item out")
			}
		}
		a.PricePerG, _ = at.Quantity("price", "4.20 per 100 g", quantity.PricePerGram)
		a.Stock = readStock(at)
		foodfile.RefuseHazards(at, f, "", l.speciesOf(a)...)
		l.home.Addons = append(l.home.Addons, a)
	}
}

// readAddonPets reads the names of the pets that may get an add-on.
func (l *loader) readAddonPets(t tomldoc.Table) []string {
	var pets []string
	words, at := t.List("pets")
	for i, w := range words {
		p, ok := l.home.Pet(w)
		if !ok {
			p, ok = l.home.AwayPet(w)
		}
		if !ok {
			t.Doc.Add("unknown-pet", at[i], fmt.Sprintf("no pet is named %q", diag.Clip(w)), diag.NearHint(w, l.home.PetNames()))
			continue
		}
		pets = append(pets, p.Name)
	}
	return pets
}

// speciesOf lists the species that may get an add-on.
func (l *loader) speciesOf(a household.Addon) []nutrients.Species {
	if len(a.Pets) == 0 {
		return l.species
	}
	var all []nutrients.Species
	for _, name := range a.Pets {
		if p, ok := l.home.Pet(name); ok && !slices.Contains(all, p.Animal.Species) {
			all = append(all, p.Animal.Species)
		}
	}
	return all
}

// readDose reads step, unit and unit_grams.
func readDose(t tomldoc.Table, a *household.Addon) {
	f := a.Food
	a.Unit, _ = t.Text("unit")
	a.UnitGrams = f.UnitGrams
	if g, ok := readUnitGrams(t); ok {
		a.UnitGrams = g
	}
	if a.Unit == "" && f.UnitName != "" && f.PerUnit != nil {
		a.Unit = f.UnitName
	}
	if a.Unit == "" {
		if t.Has("unit_grams") {
			t.Fault("unit_grams", "unit-missing", "unit_grams without a unit", "write unit = \"capsule\" or \"tablet\"")
		}
		if t.Has("step") {
			a.StepG = readStep(t, "step", 0)
		}
		return
	}
	if a.UnitGrams <= 0 {
		if !t.Has("unit_grams") {
			t.Missing("unit_grams", fmt.Sprintf("%s is given by the %s, whose weight is not known", f.ID, a.Unit), "weigh ten of them and write unit_grams = 0.61")
		}
		return
	}
	if f.PerUnit != nil {
		a.Food = f.ByUnit(a.UnitGrams)
	}
	a.StepG = a.UnitGrams
	s, ok := t.Value("step").(string)
	if !ok {
		if t.Has("step") {
			t.Fault("step", "no-unit", "step needs a unit", fmt.Sprintf("write step = \"0.5 %s\"", a.Unit))
		}
		return
	}
	x, unit, err := quantity.Split(s)
	switch {
	case err != nil:
		t.InputFault("step", err)
	case x <= 0:
		t.Fault("step", "not-positive", "step must be more than nothing", fmt.Sprintf("write step = \"0.5 %s\"", a.Unit))
	case strings.TrimSuffix(unit, "s") == strings.TrimSuffix(a.Unit, "s"):
		a.StepG = x * a.UnitGrams
	default:
		a.StepG = readStep(t, "step", a.UnitGrams)
	}
}

// readUnitGrams reads the weight of one unit, a plain number of grams or a text
// with a unit.
func readUnitGrams(t tomldoc.Table) (float64, bool) {
	const example = "write the weight of one in grams: unit_grams = 0.61"
	var g float64
	switch v := t.Value("unit_grams").(type) {
	case nil:
		return 0, false
	case int64:
		g = float64(v)
	case float64:
		g = v
	default:
		return t.Positive("unit_grams", "0.61 g", quantity.Mass)
	}
	if !(g > 0 && g <= maxUnitG) {
		t.Fault("unit_grams", "out-of-range", fmt.Sprintf("a unit of %v g cannot be", g), example)
		return 0, false
	}
	return g, true
}

// maxUnitG bounds the weight of one capsule, tablet or scoop (common practice).
const maxUnitG = 100
