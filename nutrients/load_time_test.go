package nutrients

import (
	"testing"
	"time"
)

// loadBudget is what reading the catalogue may take of a command's start.
const loadBudget = 5 * time.Millisecond

// readCatalogue does what Default does once.
func readCatalogue(tb testing.TB) (foods int) {
	for _, text := range []string{foodsText, supplementsText} {
		all, err := parseFoods(text)
		if err != nil {
			tb.Fatal(err)
		}
		foods += len(NewCatalogue(all...).All())
	}
	return foods
}

// TestCatalogueLoadsInTime takes the best of several runs, so that a busy machine
// does not fail it; a loader that became slow does.
func TestCatalogueLoadsInTime(t *testing.T) {
	best := time.Hour
	for range 20 {
		start := time.Now()
		readCatalogue(t)
		best = min(best, time.Since(start))
	}
	if best > loadBudget {
		t.Errorf("the catalogue takes %v to load, more than %v", best, loadBudget)
	}
	t.Logf("the catalogue loads in %v", best)
}
