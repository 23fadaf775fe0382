package household

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/safefile"
)

// Weigh appends a weighing to the weight log, under the lock, and returns it with
// the pet's name as household.toml spells it. The log is replaced as a whole, so
// that a torn line can never be read as another weight; every earlier byte stays.
// A pet that does not exist, a weight that cannot be and a day after today are
// *InputErrors.
func (r *Records) Weigh(h *Household, w WeighIn, today Date) (WeighIn, error) {
	p, ok := h.Pet(w.Pet)
	if !ok {
		return w, diag.BadInput("unknown-pet", fmt.Sprintf("no pet is named %q", clip(w.Pet)), nearHint(w.Pet, h.petNames()))
	}
	w.Pet = p.Name
	if !(w.Kg > 0) {
		return w, diag.BadInput("not-positive", "a weight must be more than nothing", "write what the scale shows, like \"31.5 kg\"")
	}
	if err := checkWeight(w.Kg, p.Animal.Species); err != nil {
		return w, err
	}
	if w.Date.IsZero() || today.Before(w.Date) {
		return w, diag.BadInput("log-date", fmt.Sprintf("%s lies in the future", w.Date), "write the day of the weighing as year-month-day")
	}
	w.Note = strings.Join(strings.Fields(w.Note), " ")
	unlock, err := r.lock()
	if err != nil {
		return w, err
	}
	defer unlock()
	path := filepath.Join(r.dir, weightsFile)
	old, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return w, fmt.Errorf("cannot read %s: %w", weightsFile, withoutPath(err))
	}
	if len(old) == 0 {
		old = []byte(weightsHeader + "\n")
	} else if old[len(old)-1] != '\n' {
		old = append(old, '\n')
	}
	return w, safefile.Write(path, append(old, w.line(string(old))...))
}

// line is the weighing as it is added to a log. In one with the old header it gets the
// last two columns only where something stands in them.
func (w WeighIn) line(log string) string {
	number := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	line := fmt.Sprintf("%s,%s,%s,%s", w.Date, w.Pet, kilograms(w.Kg), w.Note)
	header, _, _ := strings.Cut(strings.TrimPrefix(log, "\ufeff"), "\n")
	if n, is := headerColumns(strings.TrimSpace(header)); is && n > strings.Count(oldWeightsHeader, ",")+1 || w.Condition+w.OffPlanDays > 0 {
		line += "," + number(w.Condition) + "," + number(w.OffPlanDays)
	}
	return line + "\n"
}

// kilograms writes a weight with a point in it, always: "31.0" can never be
// taken for the first half of "31,5".
func kilograms(kg float64) string {
	s := strconv.FormatFloat(kg, 'f', 3, 64)
	s = strings.TrimRight(s, "0")
	if strings.HasSuffix(s, ".") {
		s += "0"
	}
	return s
}
