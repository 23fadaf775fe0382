package optimize

import (
	"context"
	"testing"
	"time"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
)

func TestMixX(t *testing.T) {
	h := sample.QuinceLane(t)
	h.Jars = []household.JarSpec{{Name: "house jar", Pets: []string{"Marlow", "Tansy", "Pip", "Juno"}, Days: 28}}
	for _, step := range []float64{0.01, 0.1} {
		h.Kitchen.FineScaleG = step
		t0 := time.Now()
		all, err := Mixes(context.Background(), MixRequest{Household: h, Today: household.DateOf(sample.Day), Version: "test"})
		if err != nil {
			t.Fatal(err)
		}
		m := all[0]
		t.Log(time.Since(t0), m.Alone, m.Together, m.Least, m.WeighingsAlone, m.WeighingsTogether, m.Notes, m.New, m.Why)
		for _, j := range m.Jars {
			t.Log(j)
		}
		h2, _ := h.WithJars(m.Jars)
		for i := range h2.Pets {
			p := solve(t, h2, &h2.Pets[i])
			t.Log(p.Pet.Pet, p.Pet.Status, p.Pet.BaseG, addonGrams(p), p.Pet.Jar.DoseG)
			for _, a := range p.Pet.Addons {
				t.Log("    ", a.G, a.Food, a.ServedAs, a.EveryDays)
			}
			if err := VerifyCertificate(p); err != nil {
				t.Error(err)
			}
			for _, f := range Deep(p, Share(h2), &h2.Pets[i]) {
				t.Error(f)
			}
		}
	}
}
