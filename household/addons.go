package household

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/nutrients"
)

func (l *loader) readAddons(t table) {
	first := map[string]table{}
	for _, at := range t.many("addon") {
		at.only("food", "step", "unit", "unit_grams", "max", "price", "pets")
		f, ok := at.food("food", l.home.Catalogue)
		if !ok {
			continue
		}
		if _, twice := first[f.ID]; twice {
			at.fault("food", "addon-twice", fmt.Sprintf("%s stands on the shelf twice", f.ID), "keep one of the two")
			continue
		}
		first[f.ID] = at
		a := Addon{Food: f, Pets: l.readAddonPets(at)}
		readDose(at, &a)
		if s, ok := at.text("max"); ok {
			var err error
			if a.MaxG, a.MaxGPerKg, err = parseMax(s); err != nil {
				at.inputFault("max", err)
			} else if a.MaxG+a.MaxGPerKg <= 0 {
				at.fault("max", "not-positive", "max must be more than nothing", "write max = \"2 g\", or leave the item out")
			}
		}
		a.PricePerG, _ = at.quantity("price", "4.20 per 100 g", parsePrice)
		at.refuseHazards(f, "", l.speciesOf(a)...)
		l.home.Addons = append(l.home.Addons, a)
	}
}

// readAddonPets reads the names of the pets that may get an add-on.
func (l *loader) readAddonPets(t table) []string {
	var pets []string
	words, at := t.list("pets")
	for i, w := range words {
		p, ok := l.home.Pet(w)
		if !ok {
			t.d.add("unknown-pet", at[i], fmt.Sprintf("no pet is named %q", clip(w)), nearHint(w, l.home.petNames()))
			continue
		}
		pets = append(pets, p.Name)
	}
	return pets
}

func (h *Household) petNames() []string {
	names := make([]string, len(h.Pets))
	for i, p := range h.Pets {
		names[i] = p.Name
	}
	return names
}

// speciesOf lists the species that may get an add-on.
func (l *loader) speciesOf(a Addon) []nutrients.Species {
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
func readDose(t table, a *Addon) {
	f := a.Food
	a.Unit, _ = t.text("unit")
	a.UnitGrams = f.UnitGrams
	if g, ok := readUnitGrams(t); ok {
		a.UnitGrams = g
	}
	if a.Unit == "" && f.UnitName != "" && f.PerUnit != nil {
		a.Unit = f.UnitName
	}
	if a.Unit == "" {
		if t.has("unit_grams") {
			t.fault("unit_grams", "unit-missing", "unit_grams without a unit", "write unit = \"capsule\" or \"tablet\"")
		}
		if t.has("step") {
			a.StepG = t.step("step", 0)
		}
		return
	}
	if a.UnitGrams <= 0 {
		if !t.has("unit_grams") {
			t.missing("unit_grams", fmt.Sprintf("%s is given by the %s, whose weight is not known", f.ID, a.Unit), "weigh ten of them and write unit_grams = 0.61")
		}
		return
	}
	if f.PerUnit != nil {
		a.Food = f.ByUnit(a.UnitGrams)
	}
	a.StepG = a.UnitGrams
	s, ok := t.m["step"].(string)
	if !ok {
		if t.has("step") {
			t.fault("step", "no-unit", "step needs a unit", fmt.Sprintf("write step = \"0.5 %s\"", a.Unit))
		}
		return
	}
	x, unit, err := splitQuantity(s)
	switch {
	case err != nil:
		t.inputFault("step", err)
	case x <= 0:
		t.fault("step", "not-positive", "step must be more than nothing", fmt.Sprintf("write step = \"0.5 %s\"", a.Unit))
	case strings.TrimSuffix(unit, "s") == strings.TrimSuffix(a.Unit, "s"):
		a.StepG = x * a.UnitGrams
	default:
		a.StepG = t.step("step", a.UnitGrams)
	}
}

// readUnitGrams reads the weight of one unit, a plain number of grams or a text
// with a unit.
func readUnitGrams(t table) (float64, bool) {
	const example = "write the weight of one in grams: unit_grams = 0.61"
	var g float64
	switch v := t.m["unit_grams"].(type) {
	case nil:
		return 0, false
	case int64:
		g = float64(v)
	case float64:
		g = v
	default:
		return t.positive("unit_grams", "0.61 g", parseMass)
	}
	if !(g > 0 && g <= maxUnitG) {
		t.fault("unit_grams", "out-of-range", fmt.Sprintf("a unit of %v g cannot be", g), example)
		return 0, false
	}
	return g, true
}

// maxUnitG bounds the weight of one capsule, tablet or scoop (common practice).
const maxUnitG = 100
