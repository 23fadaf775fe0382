package text

import (
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/report/internal/sample"
)

// A figure that is longer than its column pushes the next cell on and is never cut:
// "0.0042" without its end is another amount.
func TestTextCutsNoFigure(t *testing.T) {
	base := sample.Base(t)
	p := sample.Plan("Marlow", base)
	pet := &p.Pet
	pet.Status, pet.BaseG, pet.Scales.ScaleG = household.Short, 1133.98092, 2.8349523125
	pet.Addons = append(pet.Addons,
		household.AddonAmount{Name: "Vitamin E half", G: 0.25, StepG: 0.25, ServedAs: household.ServedByUnit, Unit: "capsule", Units: 0.5},
		household.AddonAmount{Name: "Kelp", G: 1, StepG: 1, ServedAs: household.ServedByUnit, Unit: "tablet", Units: 12.5})
	pet.Nutrients = append(pet.Nutrients,
		household.NutrientLine{ID: nutrients.ArachidonicAcid, Name: "Arachidonic acid", Unit: "g", Amount: sample.Known(0.078316), Lower: sample.Known(0.0031455), Upper: sample.Known(0.0786386), Coverage: 1, State: household.StateMet, UpperChecked: true},
		household.NutrientLine{ID: nutrients.Iodine, Name: "Iodine", Unit: "ug", Amount: sample.Known(54.199999), Lower: sample.Known(54.2), Coverage: 0.54, State: household.StateLow, UpperChecked: true},
		household.NutrientLine{ID: nutrients.Folate, Name: "Folate", Unit: "ug", Amount: sample.Known(20000018), Lower: sample.Known(25.2), Coverage: 1, State: household.StateMet, UpperChecked: true})
	for kind, text := range map[string]string{"card": cardText(t, p, base, Options{Full: true}), "plan": planText(t, p, base, Options{Full: true})} {
		for _, want := range []string{" 1133.9809 g a day in total ", "  0.5 capsule Vitamin E half", "  12.5 tablets Kelp", "0.00315 to 0.0786 ", "0.0783 g",
			"under 54.2 µg ", "at least 54.2 ", "20000018 µg "} {
			if !strings.Contains(strings.ReplaceAll(text, "\n", " \n"), want) {
				t.Errorf("%s: no %q in\n%s", kind, want, text)
			}
		}
		if strings.Contains(text, "…") {
			t.Errorf("%s: something is cut:\n%s", kind, text)
		}
	}
}
