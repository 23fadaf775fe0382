package nutrients

// Source says where a figure comes from.
type Source struct {
	// Text names the publication and its record or page.
	Text string
	// Recalled is true for a value from memory, never seen in the source.
	Recalled bool
	// Note keeps the reason of a correction, or a warning.
	Note string
}

// Measure is a published household measure of a food.
type Measure struct {
	Name  string
	Grams float64
}

// Food is one entry of the catalogue: a food, a supplement, or a household's own.
type Food struct {
	// ID is stable and kebab-case; Name is for people; Group and State are the
	// catalogue's ("poultry", "raw"; supplements have the group "supplement").
	ID, Name, Group, State string
	// Per100g holds the stored figures per 100 g edible portion, without the
	// derived ones. For a food sold by the unit whose weight is not published it
	// is empty, and PerUnit holds the figures of one unit.
	Per100g Profile
	PerUnit *Profile
	// UnitName is "capsule", "tablet" or empty.
	UnitName string
	// UnitGrams is the weight of one unit, 0 when not published.
	UnitGrams float64
	// Refuse is the share (0 to 1) of the bought food that is thrown away.
	Refuse float64
	// Measures are the published household measures; powders of minerals and
	// vitamins have none, because they must be weighed.
	Measures []Measure
	// Source is the record the food comes from.
	Source Source
	// Figures keeps the source of single figures where it is not Source: a
	// correction, a range, a second table.
	Figures map[ID]Source
	// Powder may be mixed into a dry premix; oils and drops may not.
	Powder bool
	// Carrier is food in powder or meal form that can carry a premix.
	Carrier bool
	// Cautions are short sentences to show wherever the food is used.
	Cautions []string
}

// Supplement says whether the food is a supplement of the catalogue.
func (f *Food) Supplement() bool { return f.Group == "supplement" }

// For returns the profile with the derived nutrients and the energy as the
// species uses them: preformed vitamin A only for cats, carotene counted for
// dogs, energy by the species' factors (see Atwater).
func (p *Profile) For(sp Species) Profile {
	panic("nutrients: Profile.For is being built")
}

// Digest identifies the composition: the same figures give the same digest
// ("sha256:" and hex), whatever the names, sources and measures.
func (f *Food) Digest() string {
	panic("nutrients: Food.Digest is being built")
}
