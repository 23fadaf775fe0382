package household

// Paired is a plan together with the base it was made for, and the only thing
// that can be printed or restored. Only Pair makes one.
type Paired struct {
	plan *Plan
	base *Batch
}

// Plan returns the plan.
func (p Paired) Plan() *Plan { return p.plan }

// Base returns the base.
func (p Paired) Base() *Batch { return p.base }

// Pair puts a plan together with a base, or refuses with a *MixUpError when the
// plan was made for another recipe.
func Pair(plan *Plan, base *Batch) (Paired, error) {
	panic("household: Pair is being built")
}

// MixUpError says that an add-on and a base do not belong together.
type MixUpError struct {
	Pet      string
	PlanBase BaseSnapshot
	Now      BaseSnapshot
	// Differences name each ingredient that differs and by how much.
	Differences []string
	// Ways are the ways out, each a thing to type or do.
	Ways []string
}

func (e *MixUpError) Error() string {
	panic("household: MixUpError is being built")
}
