package household

import (
	"errors"
	"testing"
)

// mixedPlan is a plan with a dose of the sheet's jar and a premix of its own.
func mixedPlan(own *Premix) *Plan {
	j := sheetJar()
	j.Of = j.Name
	return &Plan{Pet: PetPlan{Pet: "Pip", Status: Met, Premix: own, Jar: &JarDose{Code: j.Code, DoseG: 2.5, Mix: j}}}
}

func mixing(t *testing.T, j Jar, g float64) *Mixing {
	t.Helper()
	m, err := NewMixing("Quince Lane", j, g, NewDate(2026, 11, 25))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// The jar of the plan is found, another of the same name is refused, whatever the plan
// takes from beside it; a mix under another name is nobody's business.
func TestDoseGoesWithItsJarOnly(t *testing.T) {
	own := Jar{Name: "Pip", Parts: []JarPart{{Food: "taurine-powder", G: 5.6}, {Food: "salt", G: 5.6}}}
	own.Identify()
	premix := &Premix{Code: own.Code, Digest: own.Digest, Items: []PremixItem{{Food: "taurine-powder", G: 5.6}, {Food: "salt", G: 5.6}}}
	plan := mixedPlan(premix)
	right, other := mixing(t, sheetJar(), 700), sheetJar()
	other.Parts[2].G += 20
	other.Identify()
	wrong := mixing(t, other, 700)
	elsewhere := mixing(t, other, 700)
	elsewhere.Jar.Name = "another jar"
	ownRight, ownWrong := mixing(t, own, 11), mixing(t, other, 700)
	ownWrong.Jar.Name = "Pip"
	for _, c := range []struct {
		name     string
		inHand   []*Mixing
		mix, own *Mixing
		refused  string
	}{
		{"nothing is mixed", nil, nil, nil, ""},
		{"the jar of the plan", []*Mixing{elsewhere, right}, right, nil, ""},
		{"another jar", []*Mixing{wrong}, nil, nil, "house jar"},
		{"both mixes of the plan", []*Mixing{ownRight, right}, right, ownRight, ""},
		{"another premix beside the jar", []*Mixing{right, ownWrong}, right, nil, "Pip"},
	} {
		mix, own, err := mixFor(plan, c.inHand)
		var mixUp *JarMixUpError
		switch {
		case c.refused == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.refused != "" && (!errors.As(err, &mixUp) || mixUp.Name != c.refused || mixUp.Reason == ""):
			t.Errorf("%s: %v", c.name, err)
		case c.refused == "" && (mix != c.mix || own != c.own):
			t.Errorf("%s: %v %v", c.name, mix, own)
		}
	}
	plan.Pet.Jar.Mix.Parts[0].G++
	if _, _, err := mixFor(plan, nil); err == nil {
		t.Error("a jar that was edited in the record is taken")
	}
}

// The recipe makes 777.24 g: 779 g hold something else, 412 g are the same jar.
func TestMixThatWeighsTooMuch(t *testing.T) {
	j := sheetJar()
	if _, err := NewMixing("Quince Lane", j, 779, NewDate(2026, 11, 25)); err == nil {
		t.Error("779 g are taken")
	}
	m := mixing(t, j, 412)
	// 37.5 g a day: ten whole days, and 37 g over.
	if last := m.LastsUntil(37.5); last != NewDate(2026, 12, 4) {
		t.Errorf("enough until %s, want 2026-12-04", last)
	}
	if last := m.LastsUntil(1); last != NewDate(2026, 12, 23) {
		t.Errorf("good until %s, want 2026-12-23", last)
	}
}
