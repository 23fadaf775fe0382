package household

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"bowlwright/household/diag"
)

// Paired is a plan together with the base and the mix it was made for, and the only
// thing that can be printed or restored. Only Pair makes one.
type Paired struct {
	plan *Plan
	base *Batch
	mix  *Mixing
	// own is the mix of the pet's own premix beside a shared jar.
	own *Mixing
}

// Plan returns the plan.
func (p Paired) Plan() *Plan { return p.plan }

// Base returns the base.
func (p Paired) Base() *Batch { return p.base }

// Mix returns the mix in hand that the plan takes from: the shared jar or the pet's own
// premix; nil where it is not mixed yet, or the plan takes from none.
func (p Paired) Mix() *Mixing { return p.mix }

// OwnMix returns the mix in hand of the pet's own premix, nil for none.
func (p Paired) OwnMix() *Mixing {
	if p.plan.Pet.Jar == nil {
		return p.mix
	}
	return p.own
}

// Pair puts a plan together with a base and the mixes in hand, or refuses: with a
// *MixUpError when the plan was made for another recipe, with a *JarMixUpError when the
// jar in hand is not the plan's. Figures that were corrected since do not refuse;
// FiguresChanged tells of them.
func Pair(sound Sound, base *Batch, inHand ...*Mixing) (Paired, error) {
	if mix := mixUp(sound.plan, base); mix != nil {
		return Paired{}, mix
	}
	return withMix(sound, base, inHand)
}

// withMix puts a plan and its base together with the mix that it takes from.
func withMix(sound Sound, base *Batch, inHand []*Mixing) (Paired, error) {
	mix, own, err := mixFor(sound.plan, inHand)
	if err != nil {
		return Paired{}, err
	}
	return Paired{sound.plan, base, mix, own}, nil
}

// mixUp says why a plan and a base do not belong together, nil when they do.
func mixUp(plan *Plan, base *Batch) *MixUpError {
	if base.IsRecorded(plan.Base) {
		return nil
	}
	now := base.Snapshot()
	return &MixUpError{
		Pet: plan.Pet.Pet, PlanBase: plan.Base, Now: now,
		Differences: differences(plan.Base, now),
		Ways: []diag.Hint{
			diag.Command("make a new plan for the base in use", "plan", plan.Pet.Pet),
			{Text: otherBase(plan, base)},
			diag.Command("or bring that base back from the record", "restore", plan.Base.Code),
		},
	}
}

// otherBase says how to get the base of the plan without the records.
func otherBase(plan *Plan, base *Batch) string {
	if plan.Base.File == base.File {
		return fmt.Sprintf("or undo the change in bases/%s.toml", base.File)
	}
	return fmt.Sprintf("or use the base of the plan, if its file is as it was: set base = %q in household.toml", plan.Base.File)
}

// PairIn does what Pair does with the base in use and the mixes in hand, and where the base
// is another names the file in bases/ that holds the plan's, if there is one.
func (h *Household) PairIn(sound Sound) (Paired, error) {
	if mix := h.mixUp(sound.plan); mix != nil {
		return Paired{}, mix
	}
	return withMix(sound, h.Base, h.InHand)
}

func (h *Household) mixUp(plan *Plan) *MixUpError {
	mix := mixUp(plan, h.Base)
	if mix == nil {
		return nil
	}
	if file, ok := h.fileOf(plan.Base); ok {
		mix.Ways[1] = diag.Hint{Text: fmt.Sprintf("or use the base of the plan: set base = %q in household.toml", file)}
	}
	return mix
}

// fileOf finds the file in bases/ that holds a base of a record.
func (h *Household) fileOf(was BaseSnapshot) (file string, ok bool) {
	for _, name := range h.BatchNames() {
		if h.Batches[name].IsRecorded(was) {
			return name, true
		}
	}
	return "", false
}

// BaseWithCode finds the file in bases/ whose batch has the code.
func (h *Household) BaseWithCode(code string) (file string, ok bool) {
	for _, name := range h.BatchNames() {
		if codeOf(h.Batches[name].RecipeDigest()) == code {
			return name, true
		}
	}
	return "", false
}

// MixUpError says that an add-on and a base do not belong together.
type MixUpError struct {
	Pet      string
	PlanBase BaseSnapshot
	Now      BaseSnapshot
	// Differences name each ingredient that differs and by how much.
	Differences []string
	// Ways are the ways out, each a thing to type or do. The first makes a new plan
	// for the pet.
	Ways []diag.Hint
}

// Error names both bases and every difference; Ways stay apart, as hints.
func (e *MixUpError) Error() string {
	return fmt.Sprintf("the add-on of %s was made for the base %s (%s), not for %s (%s): %s",
		e.Pet, e.PlanBase.Code, e.PlanBase.Name, e.Now.Code, e.Now.Name, strings.Join(e.Differences, "; "))
}

// ExitCode is that of a refusal.
func (e *MixUpError) ExitCode() int { return diag.ExitRefused }

// FiguresChanged says whether the composition behind a plan has been corrected
// since it was made, for the same recipe: the plan is stale, not mixed up. It names
// what changed.
func FiguresChanged(p Paired) (what []string, changed bool) {
	if p.plan.Base.FiguresDigest == p.base.figuresDigest() {
		return nil, false
	}
	now := map[string]string{}
	p.base.foodDigests(now)
	was := map[string]string{}
	p.plan.Base.foodDigests(was)
	for _, id := range slices.Sorted(maps.Keys(was)) {
		if now[id] != was[id] {
			what = append(what, id)
		}
	}
	if len(what) == 0 {
		what = []string{"the cooking tables"}
	}
	return what, true
}

func (b *Batch) foodDigests(into map[string]string) {
	for _, in := range b.Ingredients {
		if in.Batch != nil {
			in.Batch.foodDigests(into)
		} else {
			into[in.Food.ID] = in.Food.Digest()
		}
	}
}

func (s *BaseSnapshot) foodDigests(into map[string]string) {
	for _, in := range s.Ingredients {
		if in.Of != nil {
			in.Of.foodDigests(into)
		} else {
			into[in.Food] = in.Digest
		}
	}
}
