package household

import (
	"fmt"
	"strings"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
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
	if h != nil || err != nil {
		t.Fatal("a weighing of a pet that does not exist went through")
	}
	got := map[string]diag.Severity{}
	for _, d := range list {
		got[fmt.Sprintf("%d:%d %s", d.At.Line, d.At.Col, d.Code)] = d.Severity
	}
	want := map[string]diag.Severity{"2:19 decimal-comma": diag.Warning, "3:12 unknown-pet": diag.Error, "4:19 absurd-weight": diag.Warning}
	for k, s := range want {
		if have, ok := got[k]; !ok || have != s {
			t.Errorf("want %s of severity %d in %v", k, s, got)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%v", got)
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
			line := fmt.Sprintf("%s,%s,%s,%s", w.Date, w.Pet, number.Exact(w.Kg), w.Note)
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
