package records

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/safefile"
)

// Weigh appends a weighing to the weight log, under the lock, and returns it with
// the pet's name as toml spells it. The log is replaced as a whole, so
// that a torn line can never be read as another weight; every earlier byte stays.
// A pet that does not exist, a weight that cannot be and a day after today are
// *InputErrors.
func (r *Folder) Weigh(h *household.Household, w household.WeighIn, today household.Date) (household.WeighIn, error) {
	p, ok := h.Pet(w.Pet)
	if !ok {
		return w, diag.BadInput("unknown-pet", fmt.Sprintf("no pet is named %q", diag.Clip(w.Pet)), diag.NearHint(w.Pet, h.PetNames()))
	}
	w.Pet = p.Name
	if !(w.Kg > 0) {
		return w, diag.BadInput("not-positive", "a weight must be greater than zero", "write what the scale shows, like \"31.5 kg\"")
	}
	if err := household.CheckWeight(w.Kg, p.Animal.Species); err != nil {
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
	path := filepath.Join(r.dir, household.WeightsFile)
	old, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return w, fmt.Errorf("cannot read %s: %w", household.WeightsFile, diag.Cause(err))
	}
	if len(old) == 0 {
		old = []byte(household.WeightsHeader + "\n")
	} else if old[len(old)-1] != '\n' {
		old = append(old, '\n')
	}
	return w, safefile.Write(path, append(old, w.Line(string(old))...))
}
