package nutrients

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed data/spread.txt
var spreadText string

// Spread says how far single samples of a food lie apart in one nutrient.
type Spread struct {
	// N is the number of samples; SD their standard deviation per 100 g in the
	// nutrient's unit. SD is approximate: it is the published standard error times
	// the square root of N, and the source allows for nested sampling.
	N  int
	SD float64
}

type spreadKey struct {
	food string
	id   ID
}

// spreads is read when first asked for: plans do not need it.
var spreads = sync.OnceValue(func() map[spreadKey]Spread {
	m, err := parseSpreads(spreadText)
	if err != nil {
		panic("nutrients: the embedded spreads are broken: " + err.Error())
	}
	return m
})

func parseSpreads(text string) (map[spreadKey]Spread, error) {
	m := map[spreadKey]Spread{}
	food, number := "", 0
	for line := range strings.Lines(text) {
		number++
		words := strings.Fields(line)
		if len(words) == 0 || words[0][0] == '#' {
			continue
		}
		if words[0] == "food" && len(words) == 2 {
			food = words[1]
			continue
		}
		if food == "" || len(words) != 3 {
			return nil, fmt.Errorf("line %d is not understood", number)
		}
		id, ok := ParseID(words[0])
		n, errN := strconv.Atoi(words[1])
		sd, errSD := strconv.ParseFloat(words[2], 64)
		if !ok || errN != nil || errSD != nil || n < 2 || sd < 0 {
			return nil, fmt.Errorf("line %d: %s", number, strings.TrimSpace(line))
		}
		key := spreadKey{food, id}
		if _, twice := m[key]; twice {
			return nil, fmt.Errorf("line %d: %s of %s twice", number, id, food)
		}
		m[key] = Spread{N: n, SD: sd}
	}
	return m, nil
}

// SpreadOf returns the published spread of a food of the catalogue, if there is
// one. It belongs to the printed figure: one that was corrected, or that a
// household replaced by its own, has none.
func SpreadOf(f *Food, id ID) (Spread, bool) {
	if known, ok := Default().Food(f.ID); !ok || known.Per100g[id] != f.Per100g[id] || !f.Per100g[id].IsKnown() {
		return Spread{}, false
	}
	s, ok := spreads()[spreadKey{f.ID, id}]
	return s, ok
}
