package lp

import (
	"bufio"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Programs of the NETLIB collection, which have nothing to do with food, at their
// published optima.
func TestNetlib(t *testing.T) {
	for name, want := range map[string]float64{"afiro": -464.7531429, "adlittle": 225494.9632, "israel": -896644.8219} {
		p := readMPS(t, filepath.Join("testdata", "netlib", name+".mps"))
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		res := s.Solve()
		if res.Status != Optimal || math.Abs(res.Objective-want) > 1e-9*math.Abs(want) {
			t.Errorf("%s: %v %.10g, published %.10g", name, res.Status, res.Objective, want)
			continue
		}
		if !exactlyBounds(&p, res.Duals, want) {
			t.Errorf("%s: the duals do not prove the optimum", name)
		}
		for i := range p.Cost {
			p.Cost[i] *= 1.001
		}
		if s, err = New(p); err != nil {
			t.Fatal(err)
		}
		if again := s.Solve(); math.Abs(again.Objective-want) < 1e-9*math.Abs(want) {
			t.Errorf("%s: other costs have the same optimum", name)
		}
	}
}

// exactlyBounds says whether duals prove, in exact arithmetic, that no answer is clearly
// under a value.
func exactlyBounds(p *Problem, duals []float64, value float64) bool {
	bound := ExactBound(p, duals)
	if bound == nil {
		return false
	}
	b, _ := bound.Float64()
	return b >= value-1e-7*math.Abs(value)
}

// mostOfMPS bounds columns that the file does not, so that duals prove something in exact
// arithmetic; no optimum comes near it.
const mostOfMPS = 1e5

// readMPS reads a program without ranges and bounds.
func readMPS(t *testing.T, path string) Problem {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var p Problem
	objective, section := "", ""
	rows, columns := map[string]int{}, map[string]int{}
	entries := map[[2]int]float64{}
	for sc := bufio.NewScanner(f); sc.Scan(); {
		line := sc.Text()
		if line != "" && line[0] != ' ' {
			section, _, _ = strings.Cut(line, " ")
			continue
		}
		w := strings.Fields(line)
		switch section {
		case "ROWS":
			if w[0] == "N" {
				objective = w[1]
				continue
			}
			r := Row{Lower: math.Inf(-1), Upper: math.Inf(1)}
			if w[0] != "G" {
				r.Upper = 0
			}
			if w[0] != "L" {
				r.Lower = 0
			}
			rows[w[1]] = len(p.Rows)
			p.Rows = append(p.Rows, r)
		case "COLUMNS", "RHS":
			for k := 1; k+1 < len(w); k += 2 {
				v, err := strconv.ParseFloat(w[k+1], 64)
				if err != nil {
					t.Fatal(err)
				}
				if section == "RHS" {
					r := &p.Rows[rows[w[k]]]
					if !math.IsInf(r.Lower, 0) {
						r.Lower = v
					}
					if !math.IsInf(r.Upper, 0) {
						r.Upper = v
					}
					continue
				}
				j, ok := columns[w[0]]
				if !ok {
					j = len(p.Cost)
					columns[w[0]] = j
					p.Cost, p.Lower, p.Upper = append(p.Cost, 0), append(p.Lower, 0), append(p.Upper, mostOfMPS)
				}
				if w[k] == objective {
					p.Cost[j] = v
				} else {
					entries[[2]int{rows[w[k]], j}] = v
				}
			}
		}
	}
	for i := range p.Rows {
		p.Rows[i].A = make([]float64, len(p.Cost))
	}
	for at, v := range entries {
		p.Rows[at[0]].A[at[1]] = v
	}
	return p
}
