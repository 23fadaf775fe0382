package household

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestCoefficientsAreTheRow: what is kept of a row, on paper and in memory, is the row
// to the last bit, and is written as the plain list of its numbers.
func TestCoefficientsAreTheRow(t *testing.T) {
	same := func(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.OneOf(rapid.Just(0.0), rapid.Just(0.0), rapid.Just(math.Copysign(0, -1)), rapid.Just(1.0),
			rapid.Float64Range(-math.MaxFloat64, math.MaxFloat64), rapid.Float64Range(-2, 2))
		row := rapid.SliceOfN(one, 0, 70).Draw(t, "row")
		var words []string
		for _, x := range row {
			words = append(words, strconv.FormatFloat(x, 'g', -1, 64))
		}
		c := CoefficientsOf(row)
		text, err := json.Marshal(c)
		if want := strconv.Quote(strings.Join(words, " ")); err != nil || string(text) != want {
			t.Fatalf("written as %s, %v, want %s", text, err, want)
		}
		var back Coefficients
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatal(err)
		}
		for _, read := range []Coefficients{c, back} {
			if !slices.EqualFunc(read.Row(), row, same) || read.Columns != len(row) {
				t.Fatalf("%v became %v", row, read.Row())
			}
			for j, x := range row {
				if !same(read.At(j), x) {
					t.Fatalf("entry %d of %v is %g", j, row, read.At(j))
				}
			}
			if slices.ContainsFunc(read.Terms, func(t Term) bool { return same(t.Value, 0) }) || read.At(len(row)) != 0 {
				t.Fatalf("%v keeps zeros", read)
			}
		}
	})
}

func TestAnotherZeroIsZero(t *testing.T) {
	var c Coefficients
	if err := c.UnmarshalText([]byte(" 0.0 0e3\t2")); err != nil || c.Columns != 3 || len(c.Terms) != 1 || c.At(2) != 2 {
		t.Errorf("%v, %v", c, err)
	}
}

func TestWhatIsNoCoefficient(t *testing.T) {
	for _, text := range []string{"1 x", "NaN", "0 Inf", "1 -Inf 0", "1,5", "1e400", "0 0x"} {
		c := CoefficientsOf([]float64{7})
		if err := c.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q was read as %v", text, c.Row())
		}
		if c.Columns != 1 || c.At(0) != 7 {
			t.Errorf("%q left %v", text, c.Row())
		}
	}
}
