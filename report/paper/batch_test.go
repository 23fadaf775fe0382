package paper

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"bowlwright/household"
	"bowlwright/household/supplies"
	"bowlwright/report/internal/sample"
)

func TestBatchLayout(t *testing.T) {
	base := sample.Base(t)
	base.Name = "Turkey with everything that was left over from the feast and then some more, 犬 🐱"
	b, err := supplies.NewBatchSheet(base, sample.TestPairs(t, base), supplies.BatchOrder{Days: 10, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	for range 30 {
		b.Ingredients = append(b.Ingredients, b.Ingredients[0])
	}
	for _, paper := range []string{"a4", "letter"} {
		drawn := drawBatch(b, Options{Paper: paper})
		checkLayout(t, "batch sheet "+paper, drawn)
		if err := drawn.output(&bytes.Buffer{}); err != nil {
			t.Error(err)
		}
		for _, f := range []LabelFormat{DefaultLabels, {Rows: 8, Columns: 3, WidthMM: 60, HeightMM: 30, LeftMM: 13, TopMM: 15}, {Rows: 1, Columns: 1, WidthMM: 150, HeightMM: 90, LeftMM: 20, TopMM: 20}} {
			drawn, err := drawLabels(b, f, true, Options{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			checkLayout(t, "labels "+paper, drawn)
		}
	}
}

func TestLabelsRefuseBadGrids(t *testing.T) {
	base := sample.Base(t)
	b, err := supplies.NewBatchSheet(base, sample.TestPairs(t, base), supplies.BatchOrder{Days: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []LabelFormat{{}, {Rows: 9, Columns: 2, WidthMM: 90, HeightMM: 36}, {Rows: 1, Columns: 3, WidthMM: 90, HeightMM: 36},
		{Rows: 1, Columns: 1, WidthMM: 20, HeightMM: 36}, {Rows: 1, Columns: 1, WidthMM: math.NaN(), HeightMM: 36}, {Rows: 1, Columns: 1, WidthMM: 90, HeightMM: 36, LeftMM: -2},
		{Rows: 1, Columns: 1, WidthMM: 90, HeightMM: 36, GapYMM: math.NaN()}, {Rows: -1, Columns: 1, WidthMM: 90, HeightMM: 36}, LabelSize(211, 40), LabelSize(90, math.Inf(1)),
		{Rows: 1, Columns: 1, WidthMM: 90, HeightMM: 36, TopMM: 262}, {Rows: 2, Columns: 2, WidthMM: 90, HeightMM: 36, Skip: 4}, LabelSize(45, 24)} {
		var wrong *LabelFormatError
		if err := Labels(&bytes.Buffer{}, b, f, false, Options{Paper: "a4"}); !errors.As(err, &wrong) {
			t.Errorf("took %+v: %v", f, err)
		}
	}
}

// TestCommonLabelSheets holds sheets as they are sold, by the dimensions printed on
// their boxes: millimetres on A4, inches on Letter.
func TestCommonLabelSheets(t *testing.T) {
	const inch = 25.4
	for _, c := range []struct {
		paper         string
		f             LabelFormat
		columns, rows int
		left, top     float64
	}{
		{"a4", LabelFormat{WidthMM: 70, HeightMM: 36, LeftMM: Centred, TopMM: Centred}, 3, 8, 0, 4.5},
		{"a4", LabelFormat{WidthMM: 63.5, HeightMM: 38.1, GapXMM: 2.5, LeftMM: Centred, TopMM: Centred}, 3, 7, 7.25, 15.15},
		{"a4", LabelFormat{WidthMM: 99.1, HeightMM: 38.1, GapXMM: 2.5, LeftMM: Centred, TopMM: Centred}, 2, 7, 4.65, 15.15},
		{"a4", LabelFormat{WidthMM: 105, HeightMM: 48, LeftMM: Centred, TopMM: Centred}, 2, 6, 0, 4.5},
		{"a4", LabelFormat{WidthMM: 99.1, HeightMM: 67.7, GapXMM: 2.5, LeftMM: Centred, TopMM: Centred}, 2, 4, 4.65, 13.1},
		{"letter", LabelFormat{Rows: 10, WidthMM: 2.625 * inch, HeightMM: inch, GapXMM: 0.125 * inch, LeftMM: Centred, TopMM: Centred}, 3, 10, 0.1875 * inch, 0.5 * inch},
		{"letter", LabelFormat{WidthMM: 4 * inch, HeightMM: 2 * inch, GapXMM: 0.1875 * inch, LeftMM: Centred, TopMM: Centred}, 2, 5, 0.15625 * inch, 0.5 * inch},
		{"letter", LabelFormat{Columns: 1, WidthMM: 90, HeightMM: 40, LeftMM: 20, TopMM: 12.7, GapYMM: 5}, 1, 6, 20, 12.7},
	} {
		f, err := c.f.On(c.paper)
		if err != nil || f.Columns != c.columns || f.Rows != c.rows || math.Abs(f.LeftMM-c.left) > 0.06 || math.Abs(f.TopMM-c.top) > 0.06 {
			t.Errorf("%s %+v: %+v (%v), want %d x %d from %g and %g", c.paper, c.f, f, err, c.columns, c.rows, c.left, c.top)
		}
	}
}

// TestEveryContainerHasALabel counts the labels, and finds each of them inside its cell.
func TestEveryContainerHasALabel(t *testing.T) {
	base := sample.Base(t)
	ps := sample.TestPairs(t, base)
	for _, c := range []struct {
		order      supplies.BatchOrder
		jars       bool
		skip, want int
	}{{supplies.BatchOrder{Days: 7}, false, 0, 3 * len(ps)}, {supplies.BatchOrder{Days: 3}, true, 2, 2 * len(ps)}, {supplies.BatchOrder{YieldG: 20000}, false, 5, len(ps) + 1}, {supplies.BatchOrder{YieldG: 100}, false, 0, 1}} {
		b, err := supplies.NewBatchSheet(base, ps, c.order)
		if err != nil {
			t.Fatal(err)
		}
		f := LabelSize(63.5, 38.1)
		f.Skip = c.skip
		p, err := drawLabels(b, f, c.jars, Options{Paper: "a4"})
		if err != nil {
			t.Fatal(err)
		}
		f, err = f.On("a4")
		if err != nil {
			t.Fatal(err)
		}
		codes := 0
		for _, box := range p.boxes {
			if box.text == b.Code {
				codes++
			}
			column, row := math.Floor((box.x-f.LeftMM)/f.WidthMM), math.Floor((box.y-f.TopMM)/f.HeightMM)
			if box.x+box.w > f.LeftMM+(column+1)*f.WidthMM || box.y+box.h > f.TopMM+(row+1)*f.HeightMM {
				t.Errorf("%+v: %q leaves its label", c.order, box.text)
			}
			if box.area == 1 && row*float64(f.Columns)+column < float64(c.skip) {
				t.Errorf("%+v: %q stands on a used label", c.order, box.text)
			}
		}
		if codes != c.want {
			t.Errorf("%+v: %d labels, want %d", c.order, codes, c.want)
		}
	}
}

// TestLabelLinesBeginAsSentences where what keeps how long takes two lines.
func TestLabelLinesBeginAsSentences(t *testing.T) {
	p := newPage(Options{}, household.NewDate(2026, 11, 25), "labels")
	p.next()
	l := label{who: "Pip", code: "M2P-N20-5", what: "100 g", lines: []string{"Turkey"}, until: []string{"Fridge until 28 Nov 2026", "freezer until 24 Jan 2027"}}
	last := func(width float64) string {
		lines, _, _ := p.labelLines(l, width, 8)
		return lines[len(lines)-1].text
	}
	if narrow, wide := last(50), last(130); narrow != "Freezer until 24 Jan 2027" || wide != "Fridge until 28 Nov 2026, freezer until 24 Jan 2027" {
		t.Errorf("narrow: %q, wide: %q", narrow, wide)
	}
}
