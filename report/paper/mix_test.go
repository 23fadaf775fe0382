package paper

import (
	"bytes"
	"fmt"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"
	"bowlwright/report/internal/sample"
)

// mixSheet is an invented sheet; its figures prove nothing about nutrition.
func mixSheet(pets int) *household.MixSheet {
	j := household.Jar{Of: "house jar", Name: "house jar", Days: 28, StepG: 0.01}
	for i, g := range []float64{412.35, 128.9, 75.4, 50.6, 42, 41.1, 12.5, 7.4, 3.35, 1.24, 1.2} {
		j.Parts = append(j.Parts, household.JarPart{Food: fmt.Sprintf("powder-%d", i), Name: fmt.Sprintf("Powder %c", 'A'+i), G: g})
	}
	j.Identify()
	s := &household.MixSheet{Household: "Quince Lane", Base: "M2P-N20-5", Date: household.NewDate(2026, 11, 25)}
	for k := range pets {
		name := fmt.Sprintf("Pet %d", k+1)
		dose := 2.5 * float64(1+k%5)
		s.Doses = append(s.Doses, household.MixDose{Pet: name, Species: nutrients.Dog, Stage: nutrients.Adult, DoseG: dose, DaysG: 28 * dose})
		s.TakenG += 28 * dose
		j.Pets = append(j.Pets, name)
	}
	s.Doses[0].Again = household.NewDate(2026, 12, 9)
	s.Jar, s.Steps = j, j.Steps()
	s.Beside = []household.MixBeside{{Name: "Cod liver oil", G: 29}, {Name: "Parsley, dried", G: 656}}
	s.Cautions = []string{"Powder C: Strength differs between makers: use the label. A small slip is an overdose."}
	return s
}

func TestMixingSheetLayout(t *testing.T) {
	long := mixSheet(30)
	long.Jar.Name = "The jar for everybody who eats from the large pot in the back kitchen, 犬 🐱"
	for i := range long.Steps {
		long.Steps[i].Name = "Ascophyllum nodosum, dried, ground and sieved twice, of the northern coast"
	}
	for _, paper := range []string{"a4", "letter"} {
		for name, sheets := range map[string][]*household.MixSheet{"one": {mixSheet(1)}, "four": {mixSheet(4)}, "many": {long, mixSheet(2)}} {
			drawn := drawMix(sheets, Options{Paper: paper})
			checkLayout(t, "mixing sheet "+name+" "+paper, drawn)
			if err := drawn.output(&bytes.Buffer{}); err != nil {
				t.Error(err)
			}
			if name == "four" && drawn.area != 1 {
				t.Errorf("a sheet for four pets takes %d pages of %s", drawn.area, paper)
			}
		}
	}
	var b bytes.Buffer
	if err := JarLabels(&b, []*household.MixSheet{mixSheet(4)}, DefaultLabels, Options{Paper: "a4"}); err != nil || b.Len() == 0 {
		t.Error(err)
	}
}

func TestMixingSheetGolden(t *testing.T) {
	sample.Golden(t, "mixing-a4.txt", drawnText(drawMix([]*household.MixSheet{mixSheet(4)}, Options{Paper: "a4"})))
}
