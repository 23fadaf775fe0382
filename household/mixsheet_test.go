package household

import (
	"math"
	"testing"
)

// The recipe of the drawn sheet: five traces of 14.39 g in all.
func sheetJar() Jar {
	j := Jar{Name: "house jar", Days: 28, StepG: 0.01}
	j.Parts = []JarPart{{Food: "dicalcium-phosphate", G: 412.35}, {Food: "eggshell", G: 128.9}, {Food: "choline", G: 75.4}, {Food: "kelp", G: 50.6},
		{Food: "potassium-chloride", G: 42}, {Food: "salt", G: 41.1}, {Food: "methionine", G: 12.5}, {Food: "zinc", G: 7.4}, {Food: "iron", G: 3.35},
		{Food: "copper", G: 1.24}, {Food: "pantothenate", G: 1.2}, {Food: "selenium", G: 1.2}}
	j.Identify()
	return j
}

func TestOrderOfMixing(t *testing.T) {
	j := sheetJar()
	steps := j.Steps()
	of := map[string]float64{}
	total := 0.0
	for i, s := range steps {
		of[s.Food] += s.G
		total += s.G
		if math.Abs(s.TotalG-total) > 1e-9 {
			t.Errorf("step %d: the scale shows %g, want %g", i, s.TotalG, total)
		}
		if i > 0 && s.Part < steps[i-1].Part {
			t.Errorf("step %d goes back a part", i)
		}
	}
	for _, p := range j.Parts {
		if math.Abs(of[p.Food]-p.G) > 1e-9 {
			t.Errorf("%s: %g g in all, the recipe has %g", p.Food, of[p.Food], p.G)
		}
	}
	if math.Abs(total-777.24) > 1e-9 || math.Abs(j.MakesG-777.24) > 1e-9 {
		t.Errorf("the mix weighs %g g, want 777.24", total)
	}
	// Five traces and ten grams of the largest powder; then 24, 48 and 97 g of it.
	want := []struct {
		part MixPart
		food string
		g    float64
	}{{MixTraces, "pantothenate", 1.2}, {MixTraces, "selenium", 1.2}, {MixTraces, "copper", 1.24}, {MixTraces, "iron", 3.35}, {MixTraces, "zinc", 7.4},
		{MixTraces, "dicalcium-phosphate", 10}, {MixDoubling, "dicalcium-phosphate", 24}, {MixDoubling, "dicalcium-phosphate", 48}, {MixDoubling, "dicalcium-phosphate", 96},
		{MixRest, "methionine", 12.5}}
	for i, w := range want {
		if s := steps[i]; s.Part != w.part || s.Food != w.food || s.G != w.g {
			t.Errorf("step %d: %v, want %v", i, s, w)
		}
	}
	if last := steps[len(steps)-1]; last.Food != "dicalcium-phosphate" || !last.Rest {
		t.Errorf("last %v", last)
	}
}

// The same amounts make the same jar, whatever order, name and size; a trace counts.
func TestJarDigest(t *testing.T) {
	j := sheetJar()
	other := sheetJar()
	other.Name = "another"
	for i := range other.Parts {
		other.Parts[i].G *= 3
	}
	other.Parts[0], other.Parts[5] = other.Parts[5], other.Parts[0]
	other.Identify()
	if other.Digest != j.Digest || other.Code != j.Code {
		t.Errorf("three times the jar is %s, not %s", other.Code, j.Code)
	}
	trace := sheetJar()
	trace.Parts[11].G += 0.01
	trace.Identify()
	if trace.Digest == j.Digest {
		t.Error("a hundredth of a gram of selenium is no other jar")
	}
	edited := sheetJar()
	edited.Parts[0].G++
	if edited.Sound() {
		t.Error("a jar that was edited is sound")
	}
	if code, err := ParseCode(j.Code[len(JarMark):]); err != nil || JarMark+code != j.Code {
		t.Errorf("%s: %q %v", j.Code, code, err)
	}
}
