package advice

import (
	"math"
	"testing"

	"bowlwright/fixtures/sample"
)

// A pot that was weighed lighter than the tables expect is lighter in every food: all
// of them taken out leave nothing, not less than nothing.
func TestWeighedPotIsLighterInEveryFood(t *testing.T) {
	for _, share := range []float64{0, 0.6, 1.5} {
		h := sample.QuinceLane(t)
		base := *h.Base
		base.YieldG = share * base.RawGrams()
		h.Base = &base
		p, err := newPot(h)
		if err != nil {
			t.Fatal(err)
		}
		left := p.cooked
		for _, in := range base.Ingredients {
			m := move{food: in.Food, method: in.Method, most: in.Grams}
			before := len(p.moves)
			p.add(m)
			if len(p.moves) == before {
				t.Fatalf("%s is no move", in.Food.ID)
			}
			left -= in.Grams * p.moves[before].yield
		}
		if math.Abs(left) > 1e-9*p.cooked {
			t.Errorf("yield %g: %g g are left of %g g when everything is out", share, left, p.cooked)
		}
	}
}
