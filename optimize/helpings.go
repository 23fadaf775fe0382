package optimize

// helpings adds two rows for add-ons that come as one helping for several days:
// with all of them on one day the energy stays under its upper end, and on a day
// without any it stays over its lower one, each with helpingEnergy more room.
func (w *weighing) helpings() {
	if !w.hasHelpings() {
		return
	}
	energy := w.rows[0]
	lower, upper := w.dayEnergy()
	with := row{limit: "energy with every helping", a: make([]float64, len(w.cols)), lower: lower, upper: upper, size: energy.size}
	without := row{limit: "energy without a helping", a: make([]float64, len(w.cols)), lower: lower, upper: upper, size: energy.size}
	for k, j := range w.used {
		with.a[k] = energy.a[k] * w.doses[j].helping()
		if w.doses[j].every <= 1 {
			without.a[k] = energy.a[k]
		}
	}
	w.rows = append(w.rows, with, without)
}

// dayEnergy is the room of a single day's energy from base and add-ons.
func (w *weighing) dayEnergy() (lower, upper float64) {
	room := helpingEnergy * w.p.targets.Energy.Kcal
	return w.rows[0].lower - room, w.rows[0].upper + room
}

func (w *weighing) hasHelpings() bool {
	for _, j := range w.used {
		if w.doses[j].every > 1 {
			return true
		}
	}
	return false
}

// evenEnergy checks the same on the printed grams.
func (w *weighing) evenEnergy(x []float64) bool {
	if !w.hasHelpings() {
		return true
	}
	r := w.p.rows[0]
	with, without := 0.0, 0.0
	for j := range x {
		with += r.a[j] * x[j] * w.doses[j].helping()
		if w.doses[j].every <= 1 {
			without += r.a[j] * x[j]
		}
	}
	lower, upper := w.dayEnergy()
	return with <= upper+limitTol/2*r.size && without >= lower-limitTol/2*r.size
}
