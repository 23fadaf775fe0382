package nutrients

// Hazard is a food that harms, or a caution about one.
type Hazard struct {
	// Food is the published wording; Blocked ones are refused, others warned.
	Food    string
	Blocked bool
	// Text says in one or two sentences what happens and at which dose.
	Text   string
	Source Source
}

// Hazards returns what is known of a food, by its id and name, for a species.
func Hazards(f *Food, sp Species) []Hazard {
	panic("nutrients: Hazards is being built")
}
