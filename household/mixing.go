package household

import (
	"fmt"
	"math"

	"bowlwright/household/diag"
	"bowlwright/household/quantity"
)

// MixingFormat names the record format of a mixing.
const MixingFormat = "bowlwright/mixing-record/1"

// Mixing records that a jar was mixed: what it holds, when, how much came out and
// until when it is good.
type Mixing struct {
	Format    string `json:"format"`
	Household string `json:"household"`
	Date      Date   `json:"date"`
	Jar       Jar    `json:"jar"`
	// MixedG is what the scale showed of the whole mix.
	MixedG float64 `json:"mixed_g"`
	UseBy  Date    `json:"use_by"`
}

// mixTolerance is how much more than its recipe a mix may weigh; more means that
// something else is in it (common practice: a five hundredth).
const mixTolerance = 0.002

// NewMixing is the record of a mixing on a day, or refuses with a *JarMixUpError where
// the jar weighs more than its recipe makes: then it holds something else.
func NewMixing(household string, j Jar, mixedG float64, on Date) (*Mixing, error) {
	if room := max(mixTolerance*j.MakesG, 2*j.StepG); mixedG > j.MakesG+room {
		return nil, &JarMixUpError{Name: j.Name, Plan: j.Code,
			Reason: fmt.Sprintf("the recipe of %s makes %s g, and %s g hold something else as well", j.Code, quantity.Text(j.MakesG), quantity.Text(mixedG)),
			Ways:   []diag.Hint{{Text: "weigh again without the jar; if it is right, throw the mix away"}, diag.Command("mix it by the sheet", "mix", j.Name)}}
	}
	return &Mixing{Format: MixingFormat, Household: household, Date: on, Jar: j, MixedG: mixedG, UseBy: on.AddDays(j.Days)}, nil
}

// LastsUntil is the last day for which the mix is enough and good.
func (m *Mixing) LastsUntil(perDay float64) Date {
	if perDay <= 0 {
		return m.UseBy
	}
	last := m.Date.AddDays(int(m.MixedG/perDay) - 1)
	if m.UseBy.Before(last) {
		return m.UseBy
	}
	return last
}

// mix is what a plan takes from a mix: the shared jar or the pet's own premix; ok is false
// where it takes from neither, or is too old to say.
func (p *PetPlan) mix() (name, code, digest string, ok bool) {
	switch {
	case p.Jar != nil:
		return p.Jar.Mix.Name, p.Jar.Code, p.Jar.Mix.Digest, true
	case p.Premix != nil && p.Premix.Digest != "":
		return p.Pet, p.Premix.Code, p.Premix.Digest, true
	}
	return "", "", "", false
}

// OwnJar is the pet's own premix as a jar that it alone eats from; ok is false where the
// plan has none.
func (p *PetPlan) OwnJar() (j Jar, ok bool) {
	m := p.Premix
	if m == nil || m.Digest == "" {
		return Jar{}, false
	}
	j = Jar{Name: p.Pet, Pets: []string{p.Pet}, Days: m.Days, StepG: p.Scales.FineScaleG}
	for _, x := range m.Items {
		j.Parts = append(j.Parts, JarPart{Food: x.Food, Name: x.Name, G: x.G, Digest: x.Digest, Own: x.Own})
	}
	j.Identify()
	return j, j.Digest == m.Digest
}

// mixFor finds the mix in hand that a plan takes from, nil where none is, and refuses
// another mix under the same name; own is that of the pet's own premix where the plan
// takes from a shared jar as well.
func mixFor(plan *Plan, inHand []*Mixing) (mix, own *Mixing, err error) {
	name, code, digest, ok := plan.Pet.mix()
	if !ok {
		return nil, nil, nil
	}
	if j := plan.Pet.Jar; j != nil && (!j.Mix.Sound() || j.Code != j.Mix.Code) {
		return nil, nil, &JarMixUpError{Pet: plan.Pet.Pet, Name: name, Plan: code, Reason: "the plan's jar is not what its code says",
			Ways: []diag.Hint{diag.Command("make a new plan", "plan", plan.Pet.Pet)}}
	}
	if mix, err = inHandOf(plan, name, code, digest, inHand); err != nil {
		return nil, nil, err
	}
	if m := plan.Pet.Premix; plan.Pet.Jar != nil && m != nil && m.Digest != "" {
		own, err = inHandOf(plan, plan.Pet.Pet, m.Code, m.Digest, inHand)
	}
	return mix, own, err
}

// inHandOf finds the mix in hand of a name, nil for none, and refuses it where it holds
// something else.
func inHandOf(plan *Plan, name, code, digest string, inHand []*Mixing) (*Mixing, error) {
	for _, m := range inHand {
		if m.Jar.Name != name {
			continue
		}
		if m.Jar.Digest == digest {
			return m, nil
		}
		return nil, &JarMixUpError{Pet: plan.Pet.Pet, Name: name, Plan: code, InHand: m.Jar.Code,
			Reason: "they hold other amounts: " + mixDifference(plan, m),
			Ways:   []diag.Hint{diag.Command("to mix the jar of the plan", "mix", name), diag.Command("to feed from the jar in hand, make a new plan for it", "plan")}}
	}
	return nil, nil
}

// mixDifference names what differs most between the jar of a plan and the one in hand.
func mixDifference(plan *Plan, m *Mixing) string {
	j := Jar{}
	if plan.Pet.Jar != nil && m.Jar.Name == plan.Pet.Jar.Mix.Name {
		j = plan.Pet.Jar.Mix
	} else if own, ok := plan.Pet.OwnJar(); ok {
		j = own
	}
	was := map[string]float64{}
	for _, p := range m.Jar.Parts {
		was[p.Food] = p.G / m.Jar.MakesG
	}
	what, most := "", 0.0
	say := func(name string, here, there float64) {
		if d := max(here-there, there-here) / max(here, there); d > most {
			what, most = fmt.Sprintf("%s is %s %% of the plan's jar and %s %% of the one in hand", name, share(here), share(there)), d
		}
	}
	for _, p := range j.Parts {
		say(p.Name, p.G/j.MakesG, was[p.Food])
		delete(was, p.Food)
	}
	for _, p := range m.Jar.Parts {
		if share, left := was[p.Food]; left {
			say(p.Name, 0, share)
		}
	}
	return what
}

// share writes a share in per cent, to a hundredth of one.
func share(x float64) string { return quantity.Text(math.Round(1e4*x) / 100) }

// JarMixUpError says that a dose and a jar do not belong together.
type JarMixUpError struct {
	// Pet is whose dose it is, "" where the jar itself is refused.
	Pet, Name string
	// Plan and InHand are the codes of the plan's jar and the one in hand.
	Plan, InHand string
	Reason       string
	Ways         []diag.Hint
}

func (e *JarMixUpError) Error() string {
	switch {
	case e.Pet == "":
		return e.Reason
	case e.InHand == "":
		return fmt.Sprintf("the dose of %s cannot be shown: %s", e.Pet, e.Reason)
	}
	return fmt.Sprintf("the dose of %s was made for the jar %s (%s), not for %s, which is in hand; %s", e.Pet, e.Plan, e.Name, e.InHand, e.Reason)
}

// ExitCode is that of a refusal.
func (e *JarMixUpError) ExitCode() int { return diag.ExitRefused }
