package nutrients

// Cooked is a raw food as a cooking method leaves it.
type Cooked struct {
	// Kept is the profile that 100 g of the raw food keep through cooking,
	// still per 100 g of raw weight.
	Kept Profile
	// YieldShare is the cooked weight per raw weight.
	YieldShare float64
	// Notes say what was lost and from which table, for people.
	Notes  []string
	Source Source
}

// Methods returns the cooking methods that Cook knows.
func Methods() []string {
	panic("nutrients: Methods is being built")
}

// Cook applies the published retention factors of the food's group and the
// method. The empty method means ready to eat: nothing is lost. An unknown
// method is an error.
func Cook(f *Food, method string) (Cooked, error) {
	panic("nutrients: Cook is being built")
}
