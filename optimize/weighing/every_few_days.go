package weighing

import (
	"bowlwright/optimize/diet"
	"bowlwright/optimize/milp"
)

// everyFewDays adds two rows for add-ons that come as one helping for several days:
// with all of them on one day the energy stays under its upper end, and on a day
// without any it stays over its lower one, each with helpingEnergy more room.
func (w *stepProgram) everyFewDays() {
	if !w.hasEveryFewDays() {
		return
	}
	energy := w.Rows[0]
	lower, upper := w.dayEnergy()
	with := milp.Row{Name: "energy with every helping", A: make([]float64, len(w.Cols)), Lower: lower, Upper: upper, Size: energy.Size}
	without := milp.Row{Name: "energy without a helping", A: make([]float64, len(w.Cols)), Lower: lower, Upper: upper, Size: energy.Size}
	for k, j := range w.used {
		with.A[k] = energy.A[k] * w.doses[j].Helping()
		if w.doses[j].Every <= 1 {
			without.A[k] = energy.A[k]
		}
	}
	w.Rows = append(w.Rows, with, without)
}

// dayEnergy is the room of a single day's energy from base and add-ons.
func (w *stepProgram) dayEnergy() (lower, upper float64) {
	room := helpingEnergy * w.p.Targets.Energy.Kcal
	return w.Rows[0].Lower - room, w.Rows[0].Upper + room
}

func (w *stepProgram) hasEveryFewDays() bool {
	for _, j := range w.used {
		if w.doses[j].Every > 1 {
			return true
		}
	}
	return false
}

// evenEnergy checks the same on the printed grams.
func (w *stepProgram) evenEnergy(x []float64) bool {
	if !w.hasEveryFewDays() {
		return true
	}
	r := w.p.Rows[0]
	with, without := 0.0, 0.0
	for j := range x {
		with += r.A[j] * x[j] * w.doses[j].Helping()
		if w.doses[j].Every <= 1 {
			without += r.A[j] * x[j]
		}
	}
	lower, upper := w.dayEnergy()
	return with <= upper+diet.LimitTol/2*r.Size && without >= lower-diet.LimitTol/2*r.Size
}

// concentratesAtOnce turns the rows of what the concentrates bring, which the weighing states for
// the heaviest day as it does all hard rows, into those of the most at once, and adds
// rows for the average.
func (w *stepProgram) concentratesAtOnce() {
	for i, r := range w.p.Rows {
		if r.AtOnce == 0 {
			continue
		}
		w.Rows[i].Upper = r.AtOnce
		daily := milp.Row{Name: r.Limit.String(), A: make([]float64, len(w.Cols)), Lower: r.Lower, Upper: r.Upper, Size: r.Size}
		for k, j := range w.used {
			daily.A[k] = r.A[j]
		}
		w.Rows = append(w.Rows, daily)
	}
}
