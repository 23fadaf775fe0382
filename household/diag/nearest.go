package diag

import "strings"

// Nearest returns the known name most like the given one, if any is near enough
// to be what was meant: at most a third of its letters differ.
func Nearest(name string, known []string) (string, bool) {
	name = strings.ToLower(name)
	best, bestEdits := "", len(name)/3+1
	for _, k := range known {
		if e := edits(name, strings.ToLower(k)); e < bestEdits || (e == bestEdits && best == "" && e <= 1) {
			best, bestEdits = k, e
		}
	}
	return best, best != ""
}

// edits counts single-letter changes and swaps of neighbours between two words.
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	var before, last []int
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(x); i++ {
		before, last = last, row
		row = make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j-1]+cost, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(y)]
}
