package nutrients

// Vitamin A from carotene in dogs: 833 IU for each mg of beta-carotene, 0.3 ug of
// retinol for each IU (recalled; cats cannot use carotene). Other carotenoids are
// not counted: no factor for dogs was found.
const (
	iuPerMgBetaCaroteneDog = 833.0
	ugRetinolPerIU         = 0.3
	retinolPerBetaCarotene = iuPerMgBetaCaroteneDog * ugRetinolPerIU / 1000
)

// EnergyFactors turn g of protein, fat and digestible carbohydrate into kcal.
type EnergyFactors struct {
	Name                       string
	Protein, Fat, Carbohydrate float64
	Source                     Source
}

// Atwater returns the factors for home-cooked food: 4, 9, 4 for dogs and 4, 8.5,
// 4 for cats.
func Atwater(sp Species) EnergyFactors {
	f := EnergyFactors{Name: "Atwater 4/9/4", Protein: 4, Fat: 9, Carbohydrate: 4,
		Source: Source{Text: "FEDIAF 2018/19, Annex VII, p.119: unprocessed and home-type food"}}
	if sp == Cat {
		f.Name, f.Fat = "Atwater 4/8.5/4", 8.5
	}
	return f
}

// ModifiedAtwater returns the factors for prepared pet food: 3.5, 8.5, 3.5.
func ModifiedAtwater() EnergyFactors {
	return EnergyFactors{Name: "modified Atwater 3.5/8.5/3.5", Protein: 3.5, Fat: 8.5, Carbohydrate: 3.5,
		Source: Source{Text: "FEDIAF 2014, quoted by PFMA"}}
}

// Kcal returns the energy of a profile's amount of food.
func (e EnergyFactors) Kcal(p *Profile) Figure {
	prot, fat, carb := p[Protein], p[Fat], p[DigestibleCarbohydrate]
	return Figure{
		Lo:       e.Protein*prot.Lo + e.Fat*fat.Lo + e.Carbohydrate*carb.Lo,
		Hi:       e.Protein*prot.Hi + e.Fat*fat.Hi + e.Carbohydrate*carb.Hi,
		Coverage: (prot.Coverage + fat.Coverage + carb.Coverage) / 3,
	}
}

// For returns the profile with the derived nutrients and the energy as the
// species uses them: preformed vitamin A only for cats, carotene counted for
// dogs, energy by the species' factors (see Atwater).
func (p *Profile) For(sp Species) Profile {
	q := *p
	q[MethionineCystine] = sum(p[Methionine], p[Cystine])
	q[PhenylalanineTyrosine] = sum(p[Phenylalanine], p[Tyrosine])
	q[EPADHA] = sum(p[EPA], p[DHA])
	q[VitaminA] = p[Retinol]
	if sp == Dog {
		q[VitaminA] = sum(p[Retinol], p[BetaCarotene].Scale(retinolPerBetaCarotene))
	}
	// Menaquinone-4 was measured in few foods; what is known of it counts, but
	// vitamin K is as well known as its main form, phylloquinone.
	q[VitaminK] = p[Phylloquinone]
	q[VitaminK].Lo += p[Menaquinone4].Lo
	q[VitaminK].Hi += p[Menaquinone4].Hi
	if !p[Phylloquinone].IsKnown() && p[Menaquinone4].IsKnown() {
		q[VitaminK].Coverage = p[Menaquinone4].Coverage / 2
	}
	q[Energy] = Atwater(sp).Kcal(p)
	return q
}

// sum adds what is known of two parts of one nutrient; the coverage is the mean
// of theirs.
func sum(a, b Figure) Figure {
	return Figure{Lo: a.Lo + b.Lo, Hi: a.Hi + b.Hi, Coverage: (a.Coverage + b.Coverage) / 2}
}
