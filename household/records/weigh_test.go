package records

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"bowlwright/household"
)

func TestWeighAppends(t *testing.T) {
	const old = "date,pet,kg,note\n2026-11-01,Marlow,31,5\n# mine\n2026-11-02,Marlow,31.4,no line end"
	dir := folder(t, map[string]string{"weights.csv": old})
	h := mustLoad(t, dir)
	r := Open(dir)
	w, err := r.Weigh(h, household.WeighIn{Date: testDay, Pet: "MARLOW", Kg: 32, Note: "a\nb, c"}, testDay)
	if err != nil || w.Pet != "Marlow" {
		t.Fatal(w, err)
	}
	b, err := os.ReadFile(filepath.Join(dir, "weights.csv"))
	if err != nil || string(b) != old+"\n2026-11-25,Marlow,32.0,\"a b, c\"\n" {
		t.Errorf("%q, %v", b, err)
	}
	if got := mustLoad(t, dir).Pets[0].Animal.WeightKg; got != 32 {
		t.Errorf("the weight in force is %g", got)
	}
	for name, w := range map[string]household.WeighIn{
		"stranger": {Date: testDay, Pet: "Marlo", Kg: 3}, "nothing": {Date: testDay, Pet: "Marlow"}, "elephant": {Date: testDay, Pet: "Marlow", Kg: 3000},
		"tomorrow": {Date: testDay.AddDays(1), Pet: "Marlow", Kg: 30}, "never": {Pet: "Marlow", Kg: 30}, "NaN": {Date: testDay, Pet: "Marlow", Kg: math.NaN()},
	} {
		if _, err := r.Weigh(h, w, testDay); err == nil {
			t.Errorf("%s was written", name)
		}
	}
	fresh := folder(t, nil)
	if _, err := Open(fresh).Weigh(mustLoad(t, fresh), household.WeighIn{Date: testDay, Pet: "Marlow", Kg: 31.25}, testDay); err != nil {
		t.Fatal(err)
	}
	if b, _ := os.ReadFile(filepath.Join(fresh, "weights.csv")); string(b) != "date,pet,kg,note,condition,off_plan_days\n2026-11-25,Marlow,31.25,,,\n" {
		t.Errorf("%q", b)
	}
}
