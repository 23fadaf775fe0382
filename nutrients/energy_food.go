package nutrients

import "fmt"

// FourStep holds the steps of NRC 2006's equation for the metabolisable energy of
// prepared food, per 100 g: gross energy, its digestibility in per cent, digestible
// energy, metabolisable energy in kcal (FEDIAF 2018/19, Annex VII, p.118).
type FourStep struct {
	Gross, DigestibilityPercent, Digestible, Metabolisable float64
}

// NRCFourStep works out the energy of 100 g from grams of protein, fat,
// carbohydrate without fibre, crude fibre and water.
//
// Composition tables give total dietary fibre, which is more than crude fibre, so
// a profile's own fibre makes the equation err low. It is shown for comparison and
// is not used for plans. The error says which figure is not known.
func NRCFourStep(sp Species, protein, fat, carbohydrate, crudeFiber, water float64) (FourStep, error) {
	dry := 100 - water
	if dry <= 0 {
		return FourStep{}, fmt.Errorf("a food of %.4g %% water has no dry matter", water)
	}
	s := FourStep{Gross: 5.7*protein + 9.4*fat + 4.1*(carbohydrate+crudeFiber)}
	fiberOfDry := 100 * crudeFiber / dry
	loss := 1.04
	if sp == Cat {
		s.DigestibilityPercent = 87.9 - 0.88*fiberOfDry
		loss = 0.77
	} else {
		s.DigestibilityPercent = 91.2 - 1.43*fiberOfDry
	}
	s.Digestible = s.Gross * s.DigestibilityPercent / 100
	s.Metabolisable = s.Digestible - loss*protein
	return s, nil
}

// FoodEnergy is the energy of 100 g of a food by one method, in kcal.
type FoodEnergy struct {
	Method string
	Kcal   float64
	// InUse is true for the method by which plans are made.
	InUse  bool
	Source Source
}

// EnergyOfFood returns the energy of 100 g by each of the three methods for which
// all figures are known; none when protein, fat or carbohydrate is unknown.
func (p *Profile) EnergyOfFood(sp Species) []FoodEnergy {
	prot, fat, carb := p[Protein], p[Fat], p[DigestibleCarbohydrate]
	if !prot.IsKnown() || !fat.IsKnown() || !carb.IsKnown() {
		return nil
	}
	home, prepared := Atwater(sp), ModifiedAtwater()
	all := []FoodEnergy{
		{Method: home.Name, Kcal: home.Kcal(p).Lo, InUse: true, Source: home.Source},
		{Method: prepared.Name, Kcal: prepared.Kcal(p).Lo, Source: prepared.Source},
	}
	if fiber, water := p[Fiber], p[Water]; fiber.IsKnown() && water.IsKnown() {
		if s, err := NRCFourStep(sp, prot.Lo, fat.Lo, carb.Lo, fiber.Lo, water.Lo); err == nil {
			all = append(all, FoodEnergy{Method: "NRC 2006 four steps", Kcal: s.Metabolisable,
				Source: Source{Text: "NRC 2006, as printed in FEDIAF 2018/19, Annex VII, p.118", Note: "with total dietary fibre in place of crude fibre, so it errs low"}})
		}
	}
	return all
}
