package advice

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
	"bowlwright/household/reading"
	"bowlwright/nutrients"
	"bowlwright/optimize/diet"
)

// part is an [[ingredient]] as a file has it.
type part struct {
	food, method string
	g            float64
}

// potFile is a base as somebody wrote it.
type potFile struct {
	head  string // lines before the ingredients
	parts []part
	// yield is declared when not zero.
	yield float64
	// after are lines behind the ingredients.
	after string
}

func (f potFile) text() string {
	var b strings.Builder
	b.WriteString("name = \"Pot\"\n" + f.head)
	if f.yield > 0 {
		fmt.Fprintf(&b, "yield = \"%.12g g\"\n", f.yield)
	}
	for _, p := range f.parts {
		fmt.Fprintf(&b, "[[ingredient]]\nfood = %q\namount = \"%.12g g\"\n", p.food, p.g)
		if p.method != "" {
			fmt.Fprintf(&b, "method = %q\n", p.method)
		}
	}
	b.WriteString(f.after)
	return b.String()
}

// edited is the file with a change as somebody makes it who reads the advice: the
// first entry of a food and method gets what is to be in the pot of it, others of it go.
func (f potFile) edited(t *testing.T, one Improvement) potFile {
	t.Helper()
	f.parts = slices.Clone(f.parts)
	for _, ch := range one.Changes {
		was, at := 0.0, -1
		f.parts = slices.DeleteFunc(f.parts, func(p part) bool {
			if p.food != ch.Food || p.method != ch.Method {
				return false
			}
			was += p.g
			return true
		})
		if math.Abs(was-ch.WasG) > 1e-9*(1+was) {
			t.Errorf("%s (%s): %g g are in the pot, it says %g g", ch.Food, ch.Method, was, ch.WasG)
		}
		if at = len(f.parts); ch.WasG+ch.G > 0 {
			f.parts = slices.Insert(f.parts, at, part{ch.Food, ch.Method, ch.WasG + ch.G})
		}
	}
	return f
}

const potHome = `name = "Test"
base = "pot"
standard = "nrc2006"
`

const oneDog = `[[pet]]
name = "Ash"
species = "dog"
born = 2020-03-14
weight = "20 kg"
condition = 5
activity = "moderate"
neutered = true
sex = "male"
`

const oneCat = `[[pet]]
name = "Bel"
species = "cat"
born = 2021-05-20
weight = "4.3 kg"
condition = 5
activity = "moderate"
neutered = true
sex = "male"
`

const somePuppy = `[[pet]]
name = "Cob"
species = "dog"
born = 2026-07-15
weight = "12 kg"
condition = 5
stage = "growth"
adult_weight = "22 kg"
sex = "female"
`

const nursing = `[[pet]]
name = "Dot"
species = "dog"
born = 2022-07-15
weight = "20 kg"
condition = 5
stage = "lactation"
litter = 5
week = 3
sex = "female"
`

func shelf(foods ...string) string {
	var b strings.Builder
	for _, f := range foods {
		fmt.Fprintf(&b, "[[addon]]\nfood = %q\n", f)
	}
	return b.String()
}

func loadPot(t *testing.T, home string, pot potFile, others map[string]string) *household.Household {
	t.Helper()
	dir := t.TempDir()
	files := map[string]string{"household.toml": home, "bases/pot.toml": pot.text()}
	for name, text := range others {
		files[name] = text
	}
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	h, diags, err := reading.Load(dir, household.DateOf(sample.Day))
	if err != nil || h == nil {
		t.Fatal(diags, err)
	}
	return h
}

// editCase is a household with a pot in files.
type editCase struct {
	name   string
	home   string
	pot    potFile
	others map[string]string
}

// weighed is the changed pot with its weight declared, where that of the old one was:
// each pot's weight, of what the cooking tables make of its file without a yield.
func (c editCase) weighed(t *testing.T, pot potFile) potFile {
	t.Helper()
	if c.pot.yield == 0 {
		return pot
	}
	byTables := func(f potFile) float64 {
		f.yield = 0
		return loadPot(t, c.home, f, c.others).Base.CookedGrams()
	}
	pot.yield = c.pot.yield * byTables(pot) / byTables(c.pot)
	return pot
}

// What improve says is so when the file of the base is edited and read again.
func TestImprovementsOfEditedFiles(t *testing.T) {
	usual := shelf("eggshell-powder", "dicalcium-phosphate-dihydrate", "salt-iodized-us", "potassium-chloride", "magnesium-citrate-anhydrous", "zinc-gluconate")
	plain := []part{{"turkey-thigh-skinless-raw", "simmered", 1905.0879}, {"oats-rolled-dry", "boiled", 500.5}, {"kale-raw", "boiled", 300}}
	broth := map[string]string{"bases/broth.toml": "name = \"Broth\"\n[[ingredient]]\nfood = \"beef-heart-raw\"\namount = \"500 g\"\nmethod = \"simmered\"\n"}
	for k, c := range []editCase{
		{"plain", potHome + oneDog + oneCat + usual, potFile{parts: plain}, nil},
		{"light yield", potHome + oneDog + oneCat + usual, potFile{parts: plain, yield: 1700}, nil},
		{"heavy yield", potHome + oneDog + oneCat + usual, potFile{parts: plain, yield: 5200}, nil},
		{"one ingredient", potHome + oneDog + usual, potFile{parts: []part{{"turkey-thigh-skinless-raw", "simmered", 2000}}}, nil},
		{"liquid kept", potHome + oneDog + oneCat + usual, potFile{head: "liquid = \"kept\"\n", parts: plain}, nil},
		{"liquid kept, yield", potHome + oneDog + oneCat + usual, potFile{head: "liquid = \"kept\"\n", parts: plain, yield: 2500}, nil},
		{"nested", potHome + oneDog + oneCat + usual, potFile{parts: plain, after: "[[ingredient]]\nbatch = \"broth\"\namount = \"400 g\"\n"}, broth},
		{"two methods", potHome + oneDog + usual, potFile{parts: append(slices.Clone(plain), part{"turkey-thigh-skinless-raw", "", 900}, part{"kale-raw", "", 100})}, nil},
		{"twice", potHome + oneDog + usual, potFile{parts: append(slices.Clone(plain), part{"turkey-thigh-skinless-raw", "simmered", 900}, part{"kale-raw", "boiled", 100}, part{"rice-white-long-unenriched-raw", "boiled", 900}, part{"rice-white-long-unenriched-raw", "boiled", 300})}, nil},
		{"no shelf", potHome + oneDog + oneCat, potFile{parts: plain}, nil},
		{"cat alone", potHome + oneCat + usual, potFile{parts: plain}, nil},
		{"growth and nursing", potHome + somePuppy + nursing + usual, potFile{parts: plain}, nil},
		{"a few grams", potHome + "[kitchen]\nscale = \"0.1 g\"\n" + oneDog + usual, potFile{parts: []part{{"turkey-thigh-skinless-raw", "simmered", 9}, {"oats-rolled-dry", "boiled", 2.5}, {"kale-raw", "boiled", 0.3}}}, nil},
		{"avoid", potHome + oneDog + "avoid = [\"beef\", \"pork\", \"organ\", \"fish\"]\n" + oneCat + usual, potFile{parts: plain}, nil},
		{"liver twice", potHome + oneDog + oneCat + somePuppy + usual, potFile{parts: append(slices.Clone(plain), part{"beef-liver-raw", "simmered", 700.3}, part{"beef-liver-raw", "simmered", 300}, part{"beef-liver-raw", "braised", 400})}, nil},
		{"powder in the pot", potHome + oneDog + oneCat + usual, potFile{parts: append(slices.Clone(plain), part{"eggshell-powder", "", 60}, part{"eggshell-powder", "", 60})}, nil},
		{"over by the extras", potHome + oneDog + "[[pet.extra]]\nfood = \"beef-liver-braised\"\namount = \"900 g\"\n" + oneCat + usual, potFile{parts: plain}, nil},
		{"all over by their extras", potHome + oneDog + "[[pet.extra]]\nfood = \"beef-liver-braised\"\namount = \"900 g\"\n" + usual, potFile{parts: plain}, nil},
		{"own food without energy", potHome + oneDog + oneCat + usual, potFile{parts: append(slices.Clone(plain), part{"mystery", "", 500})}, map[string]string{"foods/own.toml": "id = \"mystery\"\nname = \"Mystery\"\nper = \"100 g\"\n[figures]\ncalcium = \"20 mg\"\n"}},
		{"liver", potHome + oneDog + oneCat + somePuppy + usual, potFile{parts: append(slices.Clone(plain), part{"beef-liver-raw", "simmered", 1400.3})}, nil},
	} {
		if k%sample.Count(6, 1) != 0 {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			h := loadPot(t, c.home, c.pot, c.others)
			all := improve(t, h)
			t.Logf("%d improvements", len(all))
			for n, one := range all {
				pot := c.pot.edited(t, one)
				h2 := loadPot(t, c.home, c.weighed(t, pot), c.others)
				if got := h2.Base.Identity(); got.Code != one.Base.Code {
					t.Errorf("%d: the base has the code %s, promised %s: %+v", n, got.Code, one.Base.Code, one.Changes)
				}
				for _, e := range one.Pets {
					p, err := diet.Formulate(h2, sample.PetNamed(t, h2, e.Pet))
					if err != nil {
						t.Fatal(err)
					}
					s, _, err := p.LeastAddon()
					if err != nil {
						t.Fatal(err)
					}
					if impossible := s.Farkas != nil; impossible != e.AfterImpossible {
						t.Errorf("%d: %s impossible: %v", n, e.Pet, impossible)
					} else if !impossible && (math.Abs(s.LeastG-e.AfterG) > 1e-4*(1+e.AfterG) || math.Abs(s.Violation-e.AfterMissing) > 1e-5) {
						t.Errorf("%d: %s needs %g g and misses %g, promised %g g and %g: %+v", n, e.Pet, s.LeastG, s.Violation, e.AfterG, e.AfterMissing, one.Changes)
					}
					if e.AfterImpossible && !e.BeforeImpossible || !e.BeforeImpossible && e.AfterMissing > e.BeforeMissing+1.01*diet.ViolationSliver {
						t.Errorf("%d: %s is worse off: %+v", n, e.Pet, e)
					}
				}
				if ceiling := one.Ceiling; ceiling != nil {
					over := one
					over.Changes = slices.Clone(one.Changes)
					over.Changes[0].G = ceiling.G
					pot := c.pot.edited(t, over)
					h3 := loadPot(t, c.home, c.weighed(t, pot), c.others)
					p, err := diet.Formulate(h3, sample.PetNamed(t, h3, ceiling.Pet))
					if err != nil {
						t.Fatal(err)
					}
					s, _, err := p.LeastAddon()
					if err != nil {
						t.Fatal(err)
					}
					was := slices.IndexFunc(one.Pets, func(e PetEffect) bool { return e.Pet == ceiling.Pet })
					now := mustFormulate(t, h, ceiling.Pet)
					before, _, err := now.LeastAddon()
					if err != nil {
						t.Fatal(err)
					}
					worse := s.Farkas != nil
					if !worse {
						inPot := [2]nutrients.Profile{}
						for k, base := range []*household.Batch{h.Base, h3.Base} {
							in := concentratesIn(base)
							inPot[k] = diet.PerGram(&in, p.Pet.Animal.Species)
						}
						held := outcome{overdoses: exceeded(now, before.X[:len(now.Items)], &inPot[0])}
						is := outcome{overdoses: exceeded(p, s.X[:len(p.Items)], &inPot[1])}
						worse = len(moreOverdosed(held, is)) > 0 || p.OverKitchen > now.MayGoOver() || s.Violation > one.Pets[was].BeforeMissing+0.999*hair(one.Pets[was].BeforeMissing)
					}
					if !worse || len(ceiling.Limits) == 0 {
						t.Errorf("%d: beyond the ceiling %s is no worse: %+v", n, ceiling.Pet, ceiling)
					}
				}
			}
		})
	}
}

func mustFormulate(t *testing.T, h *household.Household, pet string) *diet.Program {
	t.Helper()
	p, err := diet.Formulate(h, sample.PetNamed(t, h, pet))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What is missed already is no reason not to go on with a change: a ceiling names what
// gets worse.
func TestCeilingNamesWhatGetsWorse(t *testing.T) {
	pot := potFile{parts: []part{{"turkey-thigh-skinless-raw", "simmered", 1900}, {"oats-rolled-dry", "boiled", 500}, {"kale-raw", "boiled", 300}}}
	h := loadPot(t, potHome+oneDog+shelf("eggshell-powder"), pot, nil)
	p := mustFormulate(t, h, "Ash")
	before, _, err := p.LeastAddon()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, one := range improve(t, h) {
		if one.Ceiling == nil {
			continue
		}
		one.Changes[0].G = one.Ceiling.G
		p := mustFormulate(t, changed(t, h, one), "Ash")
		after, _, err := p.LeastAddon()
		if err != nil || after.Farkas != nil {
			continue
		}
		at := len(p.Items)
		for _, r := range p.Rows {
			if !r.Elastic {
				continue
			}
			if words := p.InWords(r); slices.Contains(one.Ceiling.Limits, words) && after.X[at] <= before.X[at] {
				t.Errorf("%s is named, and was missed as much before", words)
			}
			at++
		}
		checked++
	}
	if checked == 0 {
		t.Error("no ceiling to check")
	}
}
