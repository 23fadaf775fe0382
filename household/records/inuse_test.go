package records

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"

	"bowlwright/household"
	"bowlwright/nutrients"

	"github.com/google/go-cmp/cmp"
)

// recordedPets is a household with records: every pet has an older and a newer plan.
func recordedPets(t *testing.T, pets ...string) (*Folder, *household.Household) {
	t.Helper()
	text := goodHousehold
	for _, pet := range pets {
		text += fmt.Sprintf("[[pet]]\nname = %q\nspecies = \"cat\"\nweight = \"4 kg\"\n", pet)
	}
	dir := folder(t, map[string]string{"household.toml": text})
	h := mustLoad(t, dir)
	r := Open(dir)
	for _, g := range []float64{80, 90} {
		var plans []*household.Plan
		for _, pet := range pets {
			plans = append(plans, testPlan(h, pet, g))
		}
		if _, err := r.SavePlans(plans); err != nil {
			t.Fatal(err)
		}
	}
	return r, h
}

// place writes a text as a plan record that is named for a pet and has the digest that
// its name says.
func place(t *testing.T, r *Folder, seq int, pet string, text []byte) {
	t.Helper()
	n := recordName{date: testDay, seq: seq, kind: KindPlan, slug: household.Slug(pet), digest: shortDigest(text)}
	if err := os.WriteFile(filepath.Join(r.folder(), n.String()), text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// newestPath is where the newest record of a pet lies.
func newestPath(t *testing.T, r *Folder, pet string) string {
	t.Helper()
	_, newest, _, err := r.newest()
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range newest {
		if n.slug == household.Slug(pet) {
			return n.path
		}
	}
	t.Fatal(pet + " has no record")
	return ""
}

// recordFaults spoil the newest record of Beryl, or the records as a whole; each with
// the code of what must be found.
var recordFaults = []struct {
	name, code string
	spoil      func(t *testing.T, r *Folder, h *household.Household)
}{
	{"none", "", func(*testing.T, *Folder, *household.Household) {}},
	{"edited", "record-edited", func(t *testing.T, r *Folder, _ *household.Household) {
		path := newestPath(t, r, "Beryl")
		text, err := os.ReadFile(path)
		if err != nil || os.WriteFile(path, bytes.Replace(text, []byte(`"base_g": 90`), []byte(`"base_g": 99`), 1), 0o644) != nil {
			t.Fatal(err)
		}
	}},
	{"cut off", "record-edited", func(t *testing.T, r *Folder, _ *household.Household) {
		if err := os.Truncate(newestPath(t, r, "Beryl"), 900); err != nil {
			t.Fatal(err)
		}
	}},
	{"newer", "record-newer", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 99, "Beryl", bytes.Replace(mustEncode(t, testPlan(h, "Beryl", 70)), []byte("record/1"), []byte("record/2"), 1))
	}},
	{"foreign", "record-edited", func(t *testing.T, r *Folder, _ *household.Household) {
		place(t, r, 99, "Beryl", []byte(`{"format": "something/1"}`))
	}},
	{"no JSON", "record-edited", func(t *testing.T, r *Folder, _ *household.Household) { place(t, r, 99, "Beryl", []byte(`plan`)) }},
	{"JSON that ends", "record-edited", func(t *testing.T, r *Folder, h *household.Household) {
		text := mustEncode(t, testPlan(h, "Beryl", 70))
		place(t, r, 99, "Beryl", text[:len(text)-4])
	}},
	{"other kind of value", "record-edited", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 99, "Beryl", bytes.Replace(mustEncode(t, testPlan(h, "Beryl", 70)), []byte(`"base_g": 70`), []byte(`"base_g": "70"`), 1))
	}},
	{"other kind of value in the base", "record-edited", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 99, "Beryl", bytes.Replace(mustEncode(t, testPlan(h, "Beryl", 70)), []byte(`"cooked_g": `), []byte(`"cooked_g": true, "raw_g": `), 1))
	}},
	{"no number in the program", "record-edited", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 99, "Beryl", bytes.Replace(mustEncode(t, withProgram(testPlan(h, "Beryl", 70))), []byte(`"1 2.5"`), []byte(`"1 NaN"`), 1))
	}},
	{"twins", "record-twin", func(t *testing.T, r *Folder, h *household.Household) {
		for _, g := range []float64{71, 72} {
			place(t, r, 99, "Beryl", mustEncode(t, testPlan(h, "Beryl", g)))
		}
	}},
	{"a newer plan under the name of another", "", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 99, "Amber", mustEncode(t, testPlan(h, "Beryl", 70)))
	}},
	{"a newer plan under the name of nobody", "", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 99, "Aaron", mustEncode(t, testPlan(h, "Beryl", 70)))
	}},
	{"an older plan under the name of nobody", "", func(t *testing.T, r *Folder, h *household.Household) {
		place(t, r, 1, "Zoe", mustEncode(t, testPlan(h, "Beryl", 70)))
	}},
	{"a stranger", "record-stranger", func(t *testing.T, r *Folder, _ *household.Household) {
		if err := os.WriteFile(filepath.Join(r.folder(), "notes.txt"), []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
	}},
}

func withProgram(p *household.Plan) *household.Plan {
	p.Pet.Certificate = &household.Certificate{Program: &household.Program{Columns: []household.ProgramColumn{{Food: "base"}, {Food: "taurine-powder"}},
		Rows: []household.ProgramRow{{Limit: nutrients.EnergyOfDay, A: household.CoefficientsOf([]float64{1, 2.5})}}}}
	return p
}

// TestEachInUseIsInUse: whoever asks for the plans one after the other gets those that
// InUse returns, and hears of every fault that InUse finds, also where it lies with a
// pet not asked for.
func TestEachInUseIsInUse(t *testing.T) {
	for _, f := range recordFaults {
		for _, asked := range [][]string{{"Amber", "Beryl", "Coral", "Marlow"}, {"Coral"}, {"Beryl"}, {"Coral", "Beryl"}, nil} {
			t.Run(fmt.Sprint(f.name, asked), func(t *testing.T) {
				r, h := recordedPets(t, "Amber", "Beryl", "Coral")
				f.spoil(t, r, h)
				all, want, err := r.InUse()
				if err != nil {
					t.Fatal(err)
				}
				if f.code == "" != (len(want) == 0) || len(want) > 1 || len(want) == 1 && want[0].Code != f.code {
					t.Fatalf("InUse found %v, want %q", want, f.code)
				}
				if p, ok := all["Beryl"]; f.code != "" && f.code != "record-stranger" {
					if ok {
						t.Errorf("%s is used", p.Ref)
					}
				} else if f.name != "none" && p.Seq != 99 && p.Plan.Pet.BaseG != 90 {
					t.Errorf("Beryl's plan is %s, not the newest", p.Ref)
				}
				got := make([]*PlanRecord, len(asked))
				calls := make([]int, len(asked))
				var mu sync.Mutex
				found, err := r.EachInUse(asked, func(i int, inUse *PlanRecord) {
					mu.Lock()
					defer mu.Unlock()
					got[i] = inUse
					calls[i]++
				})
				if err != nil {
					t.Fatal(err)
				}
				if diff := cmp.Diff(want, found); diff != "" {
					t.Errorf("findings: %s", diff)
				}
				for i, pet := range asked {
					p, ok := all[pet]
					switch {
					case calls[i] == 0:
						t.Errorf("%s was passed over", pet)
					case ok != (got[i] != nil):
						t.Errorf("%s has a plan: InUse says %v", pet, ok)
					case ok && (got[i].Ref != p.Ref || got[i].Path != p.Path || !bytes.Equal(mustEncode(t, got[i].Plan), mustEncode(t, p.Plan))):
						t.Errorf("%s gets %s, InUse says %s", pet, got[i].Ref, p.Ref)
					}
				}
			})
		}
	}
}

// TestEachInUseReadsOneAfterTheOther: what is taken away after the first plan was
// handed out is missed when its turn comes, so it was not read before.
func TestEachInUseReadsOneAfterTheOther(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	r, _ := recordedPets(t, "Amber", "Beryl", "Coral")
	later := []string{newestPath(t, r, "Beryl"), newestPath(t, r, "Coral")}
	var with []int
	found, err := r.EachInUse([]string{"Amber", "Beryl", "Coral"}, func(i int, inUse *PlanRecord) {
		if inUse == nil {
			return
		}
		with = append(with, i)
		for _, path := range later {
			if err := os.Remove(path); err != nil {
				t.Error(err)
			}
		}
	})
	var said []string
	for _, f := range found {
		said = append(said, f.Code+" "+f.Pet)
	}
	if err != nil || !slices.Equal(with, []int{0}) || !slices.Equal(said, []string{"record-unreadable Beryl", "record-unreadable Coral"}) {
		t.Errorf("%v had plans, found %v, %v", with, said, err)
	}
}
