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
	with := searchRow{name: "energy with every helping", a: make([]float64, len(w.cols)), lower: lower, upper: upper, size: energy.size}
	without := searchRow{name: "energy without a helping", a: make([]float64, len(w.cols)), lower: lower, upper: upper, size: energy.size}
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

// together turns the rows of what the concentrates bring, which the weighing states for
// the heaviest day as it does all hard rows, into those of the most at once, and adds
// rows for the average.
func (w *weighing) together() {
	for i, r := range w.p.rows {
		if r.atOnce == 0 {
			continue
		}
		w.rows[i].upper = r.atOnce
		daily := searchRow{name: r.limit, a: make([]float64, len(w.cols)), lower: r.lower, upper: r.upper, size: r.size}
		for k, j := range w.used {
			daily.a[k] = r.a[j]
		}
		w.rows = append(w.rows, daily)
	}
}
