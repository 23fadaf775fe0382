package upkeep

import (
	"fmt"
	"strings"
	"testing"

	"bowlwright/fixtures/sample"
	"bowlwright/household"
)

var testDay = household.NewDate(2026, 11, 25)

const (
	goodHousehold = sample.GoodHousehold
	goodBase      = sample.GoodBase
)

var (
	folder   = sample.Folder
	mustLoad = sample.MustLoad
	testPlan = sample.PlanOf
)

// thousand is a household of a thousand pets on the example's base and shelf.
func thousand(t testing.TB) string {
	t.Helper()
	var s, log strings.Builder
	s.WriteString("name = \"T\"\nbase = \"pot\"\n")
	log.WriteString("date,pet,kg,note\n")
	for i := range 1000 {
		fmt.Fprintf(&s, "[[pet]]\nname = \"Pet %d\"\nspecies = \"dog\"\nborn = 2020-03-14\nweight = \"%d kg\"\navoid = [\"chicken\"]\n[[pet.extra]]\nfood = \"carrot-raw\"\namount = \"20 g\"\n", i, 3+i%60)
		fmt.Fprintf(&log, "2026-11-20,Pet %d,%d.0,\n", i, 3+i%60)
	}
	for _, id := range []string{"eggshell-powder", "taurine-powder", "zinc-gluconate", "kelp-powder-ascophyllum"} {
		fmt.Fprintf(&s, "[[addon]]\nfood = %q\n", id)
	}
	return folder(t, map[string]string{"household.toml": s.String(), "weights.csv": log.String()})
}
