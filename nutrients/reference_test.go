package nutrients

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// referenceDir is where published reference tables lie beside a checkout, if
// they are there. The tests that use it are an extra check; the figures that the
// package needs are in its own data.
const referenceDir = "../../shared/reference"

// reference reads one reference table as rows by column name, or skips the test.
func reference(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(referenceDir, name))
	if err != nil {
		t.Skipf("the reference table %s is not beside this checkout", name)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, column := range all[0] {
			if i < len(line) {
				row[column] = line[i]
			}
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("the reference table %s is empty", name)
	}
	return rows
}

// referenceID turns a column of the food tables ("calcium_mg") into a nutrient
// and its unit.
func referenceID(column string) (ID, Unit, bool) {
	i := strings.LastIndexByte(column, '_')
	if i < 0 {
		return 0, "", false
	}
	key, unit := strings.ReplaceAll(column[:i], "_", "-"), Unit(column[i+1:])
	switch key {
	case "vitamin-k":
		key = "phylloquinone"
	case "menaquinone4":
		key = "menaquinone-4"
	case "mono":
		key = "monounsaturated"
	case "poly":
		key = "polyunsaturated"
	}
	id, ok := ParseID(key)
	return id, unit, ok && !id.Derived()
}
