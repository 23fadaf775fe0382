package records

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
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
	path := filepath.Join(r.dir, reading.WeightsFile)
	head, err := firstLine(path)
	if err != nil {
		return w, fmt.Errorf("cannot read %s: %w", reading.WeightsFile, diag.Cause(err))
	}
	line := reading.LogLine(w, head)
	if !reading.FitsLog(strings.TrimSuffix(line, "\n")) {
		return w, diag.BadInput("log-line", fmt.Sprintf("the note is too long: with it the line has %d bytes", len(line)-1), "write at most 800 bytes, and keep a longer text in a file of your own")
	}
	return w, safefile.Append(path, []byte(reading.WeightsHeader+"\n"), []byte(line), maxWeights)
}

const (
	// maxWeights bounds the weight log that a weighing is added to, because it is written
	// anew each time.
	maxWeights = 64 << 20
	// maxHead bounds what is read to find the header of the weight log.
	maxHead = 1 << 10
)

// firstLine returns the first line of the weight log, the header of a new one where it
// is not there or empty.
func firstLine(path string) (string, error) {
	f, _, err := safefile.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return reading.WeightsHeader, nil
	}
	if err != nil {
		return "", err
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, maxHead))
	if len(head) == 0 {
		return reading.WeightsHeader, err
	}
	line, _, _ := strings.Cut(string(head), "\n")
	return line, err
}
