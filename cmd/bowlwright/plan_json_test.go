package main

import (
	"bytes"
	"encoding/json"
	"testing"

	"bowlwright/household"
	"bowlwright/household/reading"
)

// TestPlansAreOneObject: what is written pet by pet is the object that the encoder
// would write at once.
func TestPlansAreOneObject(t *testing.T) {
	dir := demoFolder(t)
	h, list, err := reading.Load(dir, household.DateOf(testDay))
	if err != nil || list.HasErrors() {
		t.Fatal(err, list)
	}
	pets, err := petsNamed(h, nil)
	if err != nil {
		t.Fatal(err)
	}
	made, err := solveAll(h, pets, household.DateOf(testDay), comparison{})
	if err != nil {
		t.Fatal(err)
	}
	plans := made.plans
	for n := 1; n <= len(plans); n++ {
		var out bytes.Buffer
		p := &program{verbatim: &out, env: environment{stdout: &out}}
		if err := printPlans(p, planned{plans: plans[:n], with: h}, household.DateOf(testDay)); err != nil {
			t.Fatal(err)
		}
		var object planJSON
		if err := json.Unmarshal(out.Bytes(), &object); err != nil {
			t.Fatal(err)
		}
		if len(object.Pets) != n {
			t.Errorf("%d pets, want %d", len(object.Pets), n)
		}
		whole, err := indented(object, "")
		if err != nil {
			t.Fatal(err)
		}
		if string(whole)+"\n" != out.String() {
			t.Errorf("%d pets are written otherwise than at once", n)
		}
	}
}

func TestSomeOf(t *testing.T) {
	many := []string{"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n"}
	if got := someOf(many[:2]); got != "a, b" {
		t.Error(got)
	}
	if got := someOf(many); got != "a, b, c, d, e, f, g, h, i, j, k, l and 2 more" {
		t.Error(got)
	}
}
