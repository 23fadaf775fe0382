package paper

import (
	"errors"
	"testing"
)

// FuzzLabelSize: whatever is typed, it is refused with a sentence or gives a grid that
// lies on the sheet.
func FuzzLabelSize(f *testing.F) {
	for _, s := range []string{"63.5x38.1", "70 x 36mm", "", "x", "1e3x5", "NaNx30", "-5x30", "0x0", "105x48", "210.2x297.2", "45x24", "Infx40"} {
		f.Add(s, 0.0, 0)
		f.Add(s, 2.5, 3)
	}
	f.Fuzz(func(t *testing.T, s string, gap float64, skip int) {
		size, err := ParseLabelSize(s)
		var wrong *LabelFormatError
		if err != nil {
			if !errors.As(err, &wrong) || wrong.Why == "" {
				t.Fatalf("%q: %v", s, err)
			}
			return
		}
		size.GapXMM, size.GapYMM, size.Skip = gap, gap, skip
		for _, paper := range []string{"a4", "letter"} {
			grid, err := size.On(paper)
			if err != nil {
				if !errors.As(err, &wrong) || wrong.Why == "" {
					t.Fatalf("%q on %s: %v", s, paper, err)
				}
				continue
			}
			w, h := sheetMM(paper)
			right := grid.LeftMM + float64(grid.Columns)*(grid.WidthMM+grid.GapXMM) - grid.GapXMM
			foot := grid.TopMM + float64(grid.Rows)*(grid.HeightMM+grid.GapYMM) - grid.GapYMM
			if grid.Rows < 1 || grid.Columns < 1 || grid.LeftMM < 0 || grid.TopMM < 0 || right > w+2*gridSlackMM || foot > h+2*gridSlackMM {
				t.Fatalf("%q, gap %g, on %s: %+v leaves the sheet of %.1f x %.1f", s, gap, paper, grid, w, h)
			}
			if grid.Skip < 0 || grid.Skip >= grid.Rows*grid.Columns {
				t.Fatalf("%q: %d of %d labels are left free", s, grid.Skip, grid.Rows*grid.Columns)
			}
		}
	})
}
