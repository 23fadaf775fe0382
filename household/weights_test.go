package household

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

func TestParseWeightsKeepsGoodLines(t *testing.T) {
	text := "\ufeffdate,pet,kg,note\r\n2026-11-01,Marlow,31.5,after a walk, wet\r\n" +
		"2026-11-02,Marlow,31,5\n" + "2026-11-03,Marlow\n" + "03.11.2026,Marlow,31\n" + "2026-11-04,Marlow,heavy,\n" +
		"2026-11-05,,31,\n" + "# a remark\n\n" + "2026-11-06,Marlow,NaN,\n" + "2026-11-07,Marlow,1e99,\n" + "2026-11-08,Marlow,-3,\n" +
		"2026-11-09,Marlow,\"31,5\",\n" + "2026-11-10,Pip,4.3"
	log, bad := ParseWeights(text)
	if len(log) != 2 || log[0].Note != "after a walk, wet" || log[1].Kg != 4.3 {
		t.Errorf("%+v", log)
	}
	want := map[int]string{3: "decimal-comma", 4: "log-line", 5: "log-date", 6: "log-weight", 7: "log-line", 10: "log-weight", 11: "log-weight", 12: "log-weight", 13: "decimal-comma"}
	for _, b := range bad {
		if want[b.Line] != b.Fault.Code {
			t.Errorf("line %d: %s, want %q", b.Line, b.Fault.Code, want[b.Line])
		}
		delete(want, b.Line)
	}
	if len(want) > 0 {
		t.Errorf("not reported: %v", want)
	}
}

func TestWeightLogDiagnostics(t *testing.T) {
	dir := folder(t, map[string]string{"weights.csv": "date,pet,kg,note\n2026-11-01,Marlow,31,5\n2026-11-02,Marlo,31.5,\n2026-11-03,Marlow,0.001,\n"})
	h, list, err := Load(dir, testDay)
	if h == nil || err != nil {
		t.Fatal("a weighing of a pet that is gone stops the household")
	}
	got := map[string]diag.Severity{}
	for _, d := range list {
		got[fmt.Sprintf("%d:%d %s", d.At.Line, d.At.Col, d.Code)] = d.Severity
	}
	want := map[string]diag.Severity{"2:19 decimal-comma": diag.Warning, "3:12 unknown-pet": diag.Warning, "4:19 absurd-weight": diag.Warning}
	for k, s := range want {
		if have, ok := got[k]; !ok || have != s {
			t.Errorf("want %s of severity %d in %v", k, s, got)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%v", got)
	}
}

func TestWeighAppends(t *testing.T) {
	const old = "date,pet,kg,note\n2026-11-01,Marlow,31,5\n# mine\n2026-11-02,Marlow,31.4,no line end"
	dir := folder(t, map[string]string{"weights.csv": old})
	h := mustLoad(t, dir)
	r := OpenRecords(dir)
	w, err := r.Weigh(h, WeighIn{Date: testDay, Pet: "MARLOW", Kg: 32, Note: "a\nb, c"}, testDay)
	if err != nil || w.Pet != "Marlow" {
		t.Fatal(w, err)
	}
	b, err := os.ReadFile(filepath.Join(dir, "weights.csv"))
	if err != nil || string(b) != old+"\n2026-11-25,Marlow,32.0,a b, c\n" {
		t.Errorf("%q, %v", b, err)
	}
	if got := mustLoad(t, dir).Pets[0].Animal.WeightKg; got != 32 {
		t.Errorf("the weight in force is %g", got)
	}
	for name, w := range map[string]WeighIn{
		"stranger": {Date: testDay, Pet: "Marlo", Kg: 3}, "nothing": {Date: testDay, Pet: "Marlow"}, "elephant": {Date: testDay, Pet: "Marlow", Kg: 3000},
		"tomorrow": {Date: testDay.AddDays(1), Pet: "Marlow", Kg: 30}, "never": {Pet: "Marlow", Kg: 30}, "NaN": {Date: testDay, Pet: "Marlow", Kg: math.NaN()},
	} {
		if _, err := r.Weigh(h, w, testDay); err == nil {
			t.Errorf("%s was written", name)
		}
	}
	fresh := folder(t, nil)
	if _, err := OpenRecords(fresh).Weigh(mustLoad(t, fresh), WeighIn{Date: testDay, Pet: "Marlow", Kg: 31.25}, testDay); err != nil {
		t.Fatal(err)
	}
	if b, _ := os.ReadFile(filepath.Join(fresh, "weights.csv")); string(b) != "date,pet,kg,note,condition,off_plan_days\n2026-11-25,Marlow,31.25,,,\n" {
		t.Errorf("%q", b)
	}
}

// TestTrendOfALine: a steady loss is found, and one bad weighing does not tilt it.
func TestTrendOfALine(t *testing.T) {
	p := &Pet{Name: "Tansy"}
	h := &Household{}
	for i := range 9 {
		h.Weights = append(h.Weights, WeighIn{Date: testDay.AddDays(7 * (i - 8)), Pet: "Tansy", Kg: 8.4 - 0.1*float64(i)})
	}
	check := func(what string, odd int, last bool) {
		t.Helper()
		got, ok := h.Trend(p, testDay)
		if !ok || math.Abs(got.KgPerWeek+0.1) > 1e-9 || len(got.Odd) != odd || got.LastIsOdd != last {
			t.Errorf("%s: %+v, %v", what, got, ok)
		}
	}
	check("a line", 0, false)
	if got, _ := h.Trend(p, testDay); math.Abs(got.PercentPerWeek+100*0.1/7.6) > 1e-9 {
		t.Errorf("%g %% a week", got.PercentPerWeek)
	}
	h.Weights[4].Kg = 80
	check("a point slipped", 1, false)
	h.Weights[4].Kg = 8.0
	h.Weights[0].Kg = 80
	check("the first slipped", 1, false)
	h.Weights[0].Kg = 8.4
	h.Weights[8].Kg = 3
	check("the last is odd", 1, true)
	h.Weights = append(h.Weights, WeighIn{Date: testDay, Pet: "Tansy", Kg: 7.6})
	check("the last was corrected on the same day", 0, false)
	if _, ok := h.Trend(p, testDay.AddDays(200)); ok {
		t.Error("a trend from weighings of last year")
	}
	if _, ok := h.Trend(&Pet{Name: "Pip"}, testDay); ok {
		t.Error("a trend from nothing")
	}
}

func FuzzWeights(f *testing.F) {
	f.Add("date,pet,kg,note\n2026-11-01,Marlow,31.5,\n")
	f.Add("2026-11-01,Marlow,31,5\n,,,\n\x00,\xff,1\n")
	f.Fuzz(func(t *testing.T, text string) {
		log, bad := ParseWeights(text)
		lines := strings.Count(text, "\n") + 1
		if len(log)+len(bad) > lines {
			t.Fatalf("%d entries and %d faults in %d lines", len(log), len(bad), lines)
		}
		var l diag.List
		for _, b := range bad {
			l = append(l, diag.Diagnostic{Summary: b.Fault.Summary, Hint: b.Fault.Advice, At: diag.Span{File: "weights.csv", Line: b.Line, Col: b.Col, EndCol: b.EndCol, Excerpt: b.Text}})
		}
		l.Text(60, true, diag.Plain)
		for _, w := range log {
			if !(w.Kg > 0) || w.Date.IsZero() || w.Pet == "" {
				t.Fatalf("accepted %+v", w)
			}
			line := fmt.Sprintf("%s,%s,%s,%s", w.Date, w.Pet, exact(w.Kg), w.Note)
			again, _ := ParseWeights("\n" + line)
			if len(line) < maxLogLine && !strings.HasPrefix(w.Pet, "#") && (len(again) != 1 || again[0] != w) && !isDigits(strings.Trim(strings.SplitN(w.Note, ",", 2)[0], `" `)) {
				t.Fatalf("%+v reads back as %+v", w, again)
			}
		}
	})
}

// TestWeightJump: a last weighing that is hard to believe is pointed at, and is
// quiet again once it is corrected.
func TestWeightJump(t *testing.T) {
	log := "date,pet,kg,note\n2026-11-01,Marlow,31.5,\n2026-11-20,Marlow,3.15,\n"
	for name, c := range map[string]struct{ more, want string }{
		"a slip":         {"", "weights.csv:3 weight-jump"},
		"corrected":      {"2026-11-20,Marlow,31.4,\n", ""},
		"weighed again":  {"2026-11-21,Marlow,31.4,\n", ""},
		"slipped twice":  {"2026-11-21,Marlow,314.0,\n2026-11-22,Marlow,60,\n", "weights.csv:4 log-weight, weights.csv:5 weight-jump"},
		"still the same": {"2026-11-21,Marlow,3.2,\n", ""},
	} {
		_, list, err := Load(folder(t, map[string]string{"weights.csv": log + c.more}), testDay)
		if got := codesOf(list); got != c.want || list.HasErrors() || err != nil {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	for _, c := range []struct {
		stage nutrients.Stage
		kg    float64
		days  int
		jump  bool
	}{
		{nutrients.Adult, 11, 7, false}, {nutrients.Adult, 11.6, 7, true}, {nutrients.Adult, 8.4, 7, true}, {nutrients.Adult, 11.6, 40, false},
		{nutrients.Growth, 15, 14, false}, {nutrients.Growth, 17, 14, true},
	} {
		p := &Pet{Animal: nutrients.Animal{Stage: c.stage, WeightKg: 10}, WeightDate: testDay}
		if _, jump := WeightJump(p, WeighIn{Date: testDay.AddDays(c.days), Kg: c.kg}); jump != c.jump {
			t.Errorf("%+v: %v", c, jump)
		}
	}
}
