package jar

import (
	"bufio"
	"bytes"
	"encoding/json"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"testing"
)

// outsidePython finds an interpreter with scipy, or skips; where the environment says
// that everything is installed, it fails instead.
func outsidePython(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(name, "-c", "import scipy").Run() == nil {
			return name
		}
	}
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		t.Fatal("no Python with scipy, and BOWLWRIGHT_ORACLES=1 demands it")
	}
	t.Skip("no Python with scipy to compare with")
	return ""
}

// outside is a pet as the script reads it.
func outside(p Pet) map[string]any {
	side := func(v float64) any {
		if math.IsInf(v, 0) {
			return nil
		}
		return v
	}
	var items, rows []any
	for _, x := range p.Items {
		items = append(items, map[string]any{"id": x.ID, "cap": x.Cap})
	}
	for _, r := range p.Rows {
		rows = append(rows, map[string]any{"a": r.A, "lower": side(r.Lower), "upper": side(r.Upper), "size": r.Size, "elastic": r.Elastic})
	}
	return map[string]any{"missed": p.Missed, "items": items, "rows": rows}
}

// Whether one jar serves all, and the least grams of each pet with the jar composed.
func TestJarsAgainstHiGHS(t *testing.T) {
	python := outsidePython(t)
	from := frozen(t)
	r := rand.New(rand.NewSource(300))
	var input bytes.Buffer
	var ours []*Mix
	for range draws(15, 300) {
		pets := drawn(t, r, from, 2+r.Intn(4))
		home := map[string]any{"parts": powders(pets), "shares": nil}
		var all []any
		for _, p := range pets {
			all = append(all, outside(p))
		}
		home["pets"] = all
		m, err := Compose(pets, Rules{})
		switch {
		case err == nil:
			home["shares"] = m.Shares
		case len(powders(pets)) == 0:
			continue
		}
		ours = append(ours, m)
		line, err := json.Marshal(home)
		if err != nil {
			t.Fatal(err)
		}
		input.Write(append(line, '\n'))
	}
	cmd := exec.Command(python, "testdata/jars.py")
	cmd.Stdin, cmd.Stderr = &input, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(bytes.NewReader(out))
	lines.Buffer(nil, 1<<20)
	served := 0
	for i, m := range ours {
		if !lines.Scan() {
			t.Fatalf("%d answers for %d households", i, len(ours))
		}
		var a struct {
			Serves bool       `json:"serves"`
			Grams  []*float64 `json:"grams"`
		}
		if err := json.Unmarshal(lines.Bytes(), &a); err != nil {
			t.Fatal(err)
		}
		if a.Serves != (m != nil) {
			t.Errorf("household %d: one jar serves all: %v, HiGHS %v", i, m != nil, a.Serves)
		}
		if m == nil {
			continue
		}
		served++
		for k, g := range a.Grams {
			switch {
			case g == nil:
				t.Errorf("household %d, pet %d: %.6f g, HiGHS has none", i, k, m.Grams[k])
			case math.Abs(*g-m.Grams[k]) > 1e-5*(1+m.Grams[k]):
				t.Errorf("household %d, pet %d: %.6f g, HiGHS %.6f", i, k, m.Grams[k], *g)
			}
		}
	}
	t.Logf("%d households, %d with one jar", len(ours), served)
	if served < len(ours)/4 {
		t.Errorf("only %d of %d households have a jar", served, len(ours))
	}
}
