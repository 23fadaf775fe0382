package nutrients

// OwnStandard is a standard that a household wrote down: a table of its own, or another
// edition of a published one.
type OwnStandard struct {
	ID StandardID
	// Rows hold figures per 1000 kcal and per kg metabolic weight, with a life stage as
	// their stage and "min" or "sul" as their bound, and ratios.
	Rows []Row
	// Reference is the energy per kg metabolic weight for which the densities of adults
	// were set, by species.
	Reference map[Species]float64
	// Digest covers every figure: a changed cell is another standard.
	Digest string
}

// rows are those of the standard that an animal is planned by.
func (a Animal) rows() []Row {
	if a.Own != nil {
		return a.Own.Rows
	}
	return Rows(a.Standard)
}

// StandardDigest is that of a standard of the household's own, "" for the others, whose
// name says all.
func (a Animal) StandardDigest() string {
	if a.Own == nil {
		return ""
	}
	return a.Own.Digest
}
