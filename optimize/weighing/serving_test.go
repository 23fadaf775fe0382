package weighing

import (
	"testing"

	"bowlwright/household"
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// The serving of a premix is weighed every day, so it is no less than the scale can
// weigh: the carrier fills it up, and where there is none that could, nothing is served.
func TestServingCanBeWeighed(t *testing.T) {
	w := &stepProgram{p: &diet.Program{Kitchen: household.Kitchen{PremixDays: 28}}, Cols: make([]milp.Column, 3), premix: []int{0, 1}, carrier: 1}
	for _, c := range []struct{ steps, want []float64 }{
		{[]float64{30, 110, 0}, []float64{30, 530, 20}},
		{[]float64{30, 700, 0}, []float64{30, 698, 26}},
		{[]float64{0, 0, 3}, []float64{0, 0, 0}},
	} {
		got := append([]float64(nil), c.steps...)
		if !w.even(got) {
			t.Errorf("%v: not served", c.steps)
		}
		for k := range got {
			if got[k] != c.want[k] {
				t.Errorf("%v becomes %v, want %v", c.steps, got, c.want)
				break
			}
		}
	}
}
