package nutrients

import "fmt"

// perKg holds kcal per kg metabolic weight of an adult by species and activity: dogs
// of 2 to 7 years, and cats that are not neutered.
var perKg = map[Species]map[Activity]float64{
	Dog: {Low: 95, Moderate: 110, High: 130, Working: 150},
	Cat: {Low: 75, Moderate: 85, High: 100},
}

// Ages in weeks that the published coefficients of dogs speak of: under two years and
// over seven.
const (
	youngDogWeeks = 104
	olderDogWeeks = 365
)

// Coefficients of young and older dogs and of the neutered cat.
const (
	youngActiveDog   = 140 // NRC, young adult, active
	youngModerateDog = 130 // FEDIAF, 1 to 2 years: 125 to 140
	olderActiveDog   = 105 // NRC, older, active
	olderDog         = 95  // FEDIAF, over 7 years: 80 to 120
	neuteredCat      = 75  // FEDIAF, neutered or indoor: 52 to 75, the high end
)

// coefficient is kcal per kg metabolic weight of a healthy adult at its ideal weight,
// with the words and the source of what was chosen.
func coefficient(a Animal) (k float64, basis MethodEnergy, err error) {
	activity := a.Activity
	if activity == "" {
		activity = Moderate
	}
	k, ok := perKg[a.Species][activity]
	if !ok {
		return 0, basis, &RangeError{fmt.Sprintf("no energy is known for a %s with the activity %q", a.Species, activity), "use low, moderate or high"}
	}
	basis = MethodEnergy{Method: "adult " + string(a.Species) + ", " + string(activity), Source: adultSource(a.Species, activity)}
	choose := func(x float64, words string, source Source) {
		k, basis = x, MethodEnergy{Method: words, Source: source}
	}
	isYoung := a.AgeWeeks > 0 && a.AgeWeeks < youngDogWeeks
	older := a.AgeWeeks > olderDogWeeks
	switch {
	case a.Species == Cat && a.Neutered && activity == Moderate:
		choose(neuteredCat, "neutered cat, high end of 52 to 75", Source{Text: "FEDIAF 2018/19, Annex VII: neutered or indoor cats", Recalled: true})
	case a.Species == Cat, activity == Low, activity == Working:
	case isYoung && activity == High:
		choose(youngActiveDog, "dog under 2 years, active", srcNRCRecall)
	case isYoung:
		choose(youngModerateDog, "dog under 2 years", srcFEDIAFMem)
	case older && activity == High:
		choose(olderActiveDog, "dog over 7 years, active", srcNRCRecall)
	case older:
		choose(olderDog, "dog over 7 years", srcFEDIAFMem)
	}
	return k, basis, nil
}

// adultSource: 95 and 110 for dogs, 75 and 100 for cats were read in FEDIAF's
// table, 130 in its account of the NRC reference; 85 and 150 are recalled.
func adultSource(sp Species, act Activity) Source {
	switch {
	case sp == Dog && act == High:
		return srcNRC
	case act == Working || (sp == Cat && act == Moderate):
		return srcFEDIAFMem
	}
	return srcFEDIAF
}

// oldCatWeeks is the age from which a cat is called old (AAHA: over ten years, recalled).
const oldCatWeeks = 521

// oldAge says what age changes in an old adult, "" for others.
func oldAge(a Animal) string {
	switch {
	case a.Species == Dog && a.AgeWeeks > olderDogWeeks:
		return "over seven years: moderate and active dogs get less energy (FEDIAF and NRC, recalled); the limits stay those of every adult, for none of the three standards prints others for old dogs"
	case a.Species == Cat && a.AgeWeeks > oldCatWeeks:
		return "over ten years: energy and limits stay those of every adult, for none of the three standards prints others for old cats; old cats lose weight easily: weigh monthly"
	}
	return ""
}
