package main

import (
	"errors"
	"testing"

	"bowlwright/household"
)

// A pet without a plan does not take the others' from them, and is said.
func TestOneFailedPetLeavesTheOthers(t *testing.T) {
	pets := []*household.Pet{{Name: "A"}, {Name: "B"}, {Name: "C"}}
	a, c := &household.Plan{}, &household.Plan{}
	made := planned{plans: []*household.Plan{a, nil, c}, changes: []changes{{since: "a"}, {}, {since: "c"}}}
	fault := errors.New("no verified answer")
	got, err := made.without(pets, []error{nil, fault, nil})
	if err != nil || len(got.plans) != 2 || got.plans[0] != a || got.plans[1] != c || got.changes[1].since != "c" {
		t.Errorf("%v, %v", got, err)
	}
	if !errors.Is(got.failed, fault) || got.failed.Error() != "B: no verified answer" {
		t.Errorf("failed: %v", got.failed)
	}
	if _, err := made.without(pets, []error{fault, fault, fault}); !errors.Is(err, fault) {
		t.Errorf("nobody has a plan: %v", err)
	}
}
