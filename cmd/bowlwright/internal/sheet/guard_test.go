package sheet

import (
	"encoding/csv"
	"strings"
	"testing"
)

// A formula in a name reaches no spreadsheet as one, and comes back as the name.
func TestFormulasAreText(t *testing.T) {
	for cell, want := range map[string]string{
		"=1+1": "'=1+1", "+cmd": "'+cmd", "-x": "'-x", "@SUM(A1)": "'@SUM(A1)", "'=1": "''=1", "\tx": "'\tx",
		"-3.5": "-3.5", "+2": "+2", "Marlow": "Marlow", "O'Lane": "O'Lane", "'quoted'": "'quoted'", "": "", "'": "'",
	} {
		written, err := csv.NewReader(strings.NewReader(string(CSV([][]string{{"head", cell}}, false)))).Read()
		if err != nil || written[1] != want {
			t.Errorf("%q is written as %q, %v", cell, written, err)
		}
		if back := unguarded(written[1]); back != cell {
			t.Errorf("%q came back as %q", cell, back)
		}
	}
}

func FuzzGuard(f *testing.F) {
	f.Add("'=x")
	f.Fuzz(func(t *testing.T, cell string) {
		if back := unguarded(guarded(cell)); back != cell {
			t.Errorf("%q came back as %q", cell, back)
		}
	})
}
