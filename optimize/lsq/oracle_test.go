package lsq

import (
	"encoding/json"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Drawn problems against a quadratic solver that works by another method.
func TestAgainstQuadraticSolver(t *testing.T) {
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import cvxopt").Run() != nil {
		if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
			t.Fatal("no Python with cvxopt, and BOWLWRIGHT_ORACLES=1 demands it")
		}
		t.Skip("no Python with cvxopt to compare with")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in"), filepath.Join(dir, "out")
	f, err := os.Create(in)
	if err != nil {
		t.Fatal(err)
	}
	enc := json.NewEncoder(f)
	r := rand.New(rand.NewSource(8))
	cases := 80
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		cases = 1000
	}
	var problems []Problem
	for range cases {
		n := 2 + r.Intn(15)
		inside := normals(r, n)
		p := Problem{}
		for range n + 5 + r.Intn(30) {
			p.E, p.F = append(p.E, normals(r, n)), append(p.F, r.NormFloat64()*5)
		}
		for range 2 + r.Intn(40) {
			g := normals(r, n)
			// Every third constraint is tight at the same point.
			slack := math.Abs(r.NormFloat64()) * float64(min(1, r.Intn(3)))
			p.G, p.H = append(p.G, g), append(p.H, dot(g, inside)-slack)
		}
		problems = append(problems, p)
		if err := enc.Encode(map[string]any{"e": p.E, "f": p.F, "g": p.G, "h": p.H}); err != nil {
			t.Fatal(err)
		}
	}
	f.Close()
	if text, err := exec.Command(python, "testdata/quadratic.py", in, out).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	g, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	dec := json.NewDecoder(g)
	compared := 0
	for k, p := range problems {
		var a struct{ Value *float64 }
		if err := dec.Decode(&a); err != nil {
			t.Fatal(err)
		}
		x, err := Solve(p)
		if err != nil {
			t.Errorf("problem %d: %v", k, err)
			continue
		}
		if a.Value == nil {
			continue
		}
		compared++
		if v := value(p, x); math.Abs(v-*a.Value) > 1e-6*(1+*a.Value) {
			t.Errorf("problem %d: %.12g, the other solver %.12g", k, v, *a.Value)
		}
	}
	t.Logf("%d of %d compared", compared, len(problems))
	if compared < len(problems)*98/100 {
		t.Errorf("only %d compared", compared)
	}
}
