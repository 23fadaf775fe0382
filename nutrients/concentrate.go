package nutrients

// Where a standard prints no upper limit, a concentrate on the shelf could bring any
// amount: grams of potassium iodide are a source of potassium, and twenty grams, the
// least that a kitchen scale weighs, are years of iron. So no concentrate brings more
// of such a nutrient than its lower limit so many times (common practice).
const (
	// mostOfMineral holds for minerals, amino acids and choline: with NRC's lower limits
	// it is under each maximum that AAFCO prints for the minerals of an adult.
	mostOfMineral = 5
	// mostOfVitamin holds for vitamin E, K and the B vitamins, whose excess leaves the
	// body or harms only in hundreds of times the need.
	mostOfVitamin = 20
	// twiceAtOnce is how many days' ceilings of a mineral one helping for several days
	// may hold: iron harms by what is in the stomach, whatever the week brings. A
	// vitamin may come once a week.
	twiceAtOnce, weekAtOnce = 2, 7
)

// MostFromConcentrates is how many times its lower limit a concentrate may bring of a
// nutrient without an upper limit, a day on average and at once; 0 for what is not
// bounded so: fat, protein and fatty acids are bounded by the energy of the add-ons.
func MostFromConcentrates(id ID) (daily, atOnce float64) {
	switch id {
	case VitaminA: // its maximum stands with retinol
		return 0, 0
	case Protein, Fat, LinoleicAcid, AlphaLinolenicAcid, ArachidonicAcid, EPA, DHA, EPADHA:
		return 0, 0
	case VitaminE, VitaminK, Thiamin, Riboflavin, VitaminB6, Niacin,
		PantothenicAcid, VitaminB12, Folate, Biotin:
		return mostOfVitamin, weekAtOnce * mostOfVitamin
	}
	return mostOfMineral, twiceAtOnce * mostOfMineral
}

// Concentrate says whether grams of a food may be a dose: supplements, what is given
// by the unit, powders that carry nothing, seaweed for its iodine, and what the
// household brought in itself without saying what it is.
func (f *Food) Concentrate() bool {
	return f.Supplement() || f.PerUnit != nil || f.Powder && !f.Carrier || f.Group == "seaweed" || f.State == "own" || f.Group == "imported"
}
