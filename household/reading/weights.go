package reading

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

const (
	// jumpAdult and jumpYoung are by how much of itself a weight can hardly move
	// within jumpDays: more is a slip or an illness (common practice).
	jumpAdult, jumpYoung = 0.15, 0.60
	jumpDays             = 31
)

// WeightJump says whether a weighing is hard to believe after the weight in force:
// by what share it differs, and whether that is too much for the days between. A
// weight of household.toml has no day and counts as today's.
func WeightJump(p *household.Pet, w household.WeighIn) (share float64, jump bool) {
	was := p.Animal.WeightKg
	if was <= 0 {
		return 0, false
	}
	share = w.Kg/was - 1
	most := jumpAdult
	if p.Animal.Stage != nutrients.Adult {
		most = jumpYoung
	}
	soon := p.WeightDate.IsZero() || w.Date.DaysSince(p.WeightDate) <= jumpDays
	return share, soon && math.Abs(share) > most
}

// readWeights reads weights.csv, reports what cannot be used, and puts the weight
// in force on the loader's day into each pet.
func (l *loader) readWeights() {
	if _, err := os.Stat(filepath.Join(l.dir, WeightsFile)); errors.Is(err, os.ErrNotExist) {
		return
	}
	d, text, left, ok := tomldoc.OpenText(l.dir, WeightsFile, maxLog)
	if !ok {
		l.collect(d)
		return
	}
	if left {
		d.Report(diag.Diagnostic{Severity: diag.Warning, Code: "log-long", Summary: fmt.Sprintf("%s is larger than %d MB: only its newest lines are read, and counted from there", WeightsFile, maxLog>>20),
			Hint: diag.Hint{Text: "move the lines of earlier years to a file of another name"}, At: diag.Span{File: WeightsFile}})
	}
	log, lines, bad := parseWeights(text)
	for _, b := range bad {
		d.Report(diag.Diagnostic{Severity: diag.Warning, Code: b.Fault.Code, Summary: b.Fault.Summary, Hint: b.Fault.Advice, At: b.Span()})
	}
	l.home.Weights = log
	// Where lines of household.toml could not be read, a pet may stand in them.
	if len(l.home.Pets) > 0 && !l.broken {
		l.applyWeights(d, lines)
	}
	l.collect(d)
}

// applyWeights finds the pet of each line and the latest line of each pet.
func (l *loader) applyWeights(d *tomldoc.Document, lines []logLine) {
	jumps := map[*household.Pet]diag.Diagnostic{}
	// days holds each pet as it was on its last two days with a weighing: one that
	// agrees with either is no jump, for it may correct a slip.
	days := map[*household.Pet][2]household.Pet{}
	// strangers are the names that no pet has, each said once.
	strangers := map[string]bool{}
	for i := range l.home.Weights {
		w := &l.home.Weights[i]
		p, ok := l.home.Pet(w.Pet)
		if !ok {
			if _, away := l.home.AwayPet(w.Pet); away || strangers[strings.ToLower(w.Pet)] {
				continue
			}
			strangers[strings.ToLower(w.Pet)] = true
			d.Report(diag.Diagnostic{Severity: diag.Warning, Code: "unknown-pet",
				Summary: fmt.Sprintf("no pet is named %q: its weights are kept and not used", diag.Clip(w.Pet)),
				Hint:    diag.Hint{Text: strings.TrimSuffix(diag.NearHint(w.Pet, l.home.PetNames()), "?") + "; the lines of a pet that is gone may stay"}, At: lines[i].span(petField)})
			continue
		}
		w.Pet = p.Name
		if err := household.CheckWeight(w.Kg, p.Animal.Species); err != nil {
			in := err.(*diag.InputError)
			d.Report(diag.Diagnostic{Severity: diag.Warning, Code: in.Code, Summary: in.Summary, Hint: in.Advice, At: lines[i].span(kgField)})
			continue
		}
		if l.today.Before(w.Date) || w.Date.Before(p.WeightDate) {
			continue
		}
		delete(jumps, p)
		if last := days[p]; p.WeightDate != w.Date {
			days[p] = [2]household.Pet{last[1], *p}
		}
		last := days[p]
		share, jump := WeightJump(&last[1], *w)
		if last[0].Name != "" {
			_, again := WeightJump(&last[0], *w)
			jump = jump && again
		}
		if jump && !last[1].WeightDate.IsZero() {
			jumps[p] = diag.Diagnostic{Severity: diag.Warning, Code: "weight-jump",
				Summary: fmt.Sprintf("the weight of %s jumps by %+.0f %%, from %s kg to %s kg", p.Name, 100*share, quantity.Text(last[1].Animal.WeightKg), quantity.Text(w.Kg)),
				Hint:    diag.Hint{Text: "weigh again; a second line of the same day corrects the first"}, At: lines[i].span(kgField)}
		}
		p.Animal.WeightKg, p.WeightDate = w.Kg, w.Date
	}
	for i := range l.home.Pets {
		if warning, ok := jumps[&l.home.Pets[i]]; ok {
			d.Report(warning)
		}
	}
}
