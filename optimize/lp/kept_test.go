package lp

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// keptProgram is a program for which no answer was once verified: the first scaling
// leaves a reduced cost of the wrong sign that is rounding in a column with a wide
// range.
func keptProgram(t *testing.T, file string) Problem {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var kept struct {
		Cost  []float64
		Upper []*float64
		Rows  []struct {
			A            []float64
			Lower, Upper *float64
		}
	}
	if err := json.Unmarshal(text, &kept); err != nil {
		t.Fatal(err)
	}
	orInf := func(v *float64, sign int) float64 {
		if v == nil {
			return math.Inf(sign)
		}
		return *v
	}
	p := Problem{Cost: kept.Cost, Lower: make([]float64, len(kept.Cost))}
	for _, u := range kept.Upper {
		p.Upper = append(p.Upper, orInf(u, 1))
	}
	for _, r := range kept.Rows {
		p.Rows = append(p.Rows, Row{A: r.A, Lower: orInf(r.Lower, -1), Upper: orInf(r.Upper, 1)})
	}
	return p
}

func TestKeptPrograms(t *testing.T) {
	files, err := filepath.Glob("testdata/kept/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no kept programs", err)
	}
	for _, file := range files {
		p := keptProgram(t, file)
		once, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		once.second = true
		if res := once.Solve(); res.Status != Imprecise {
			t.Errorf("%s: %v at the first try, so it shows nothing any more", file, res.Status)
		}
		res := mustSolve(t, p)
		if res.Status != Optimal || !Verify(&p, &res) {
			t.Errorf("%s: %v", file, res.Status)
		}
	}
}
