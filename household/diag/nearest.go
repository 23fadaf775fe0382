package diag

import "strings"

// Nearest returns the known word most like the given one, if any is near enough
// to have been meant: the same but for case, or within one change per three
// letters (a neighbouring swap counts as one).
func Nearest(word string, known []string) (string, bool) {
	lower := strings.ToLower(strings.TrimSpace(word))
	best, bestEdits := "", len([]rune(lower))/3+1
	for _, k := range known {
		low := strings.ToLower(k)
		if low == lower {
			return k, true
		}
		if e := edits(lower, low, bestEdits); e < bestEdits {
			best, bestEdits = k, e
		}
	}
	return best, best != ""
}

// edits counts insertions, deletions, replacements and swaps of neighbours
// between two words (optimal string alignment), or limit when there are more.
func edits(a, b string, limit int) int {
	x, y := []rune(a), []rune(b)
	if d := len(x) - len(y); d >= limit || -d >= limit {
		return limit
	}
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j-1]+cost, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		// A swap looks two rows back, and costs one more from there.
		if least > limit {
			return limit
		}
		before, last, row = last, row, before
	}
	return min(last[len(y)], limit)
}
