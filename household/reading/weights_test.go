package reading

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bowlwright/household"
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

// TestQuotesInTheLog: fields in quotes by RFC 4180, and where each fault stands.
func TestQuotesInTheLog(t *testing.T) {
	log, bad := ParseWeights("2026-11-01,\"Old, Tom\",31.5,\"slept, ate\",5,2\n" + "2026-11-02, \"Old \"\"T\"\"\",4.5,he said \"no\", twice\n")
	want := []household.WeighIn{{Date: household.NewDate(2026, 11, 1), Pet: "Old, Tom", Kg: 31.5, Note: "slept, ate", Condition: 5, OffPlanDays: 2},
		{Date: household.NewDate(2026, 11, 2), Pet: `Old "T"`, Kg: 4.5, Note: `he said "no", twice`}}
	if len(bad) > 0 || !slices.Equal(log, want) {
		t.Errorf("%+v, %+v", log, bad)
	}
	for line, place := range map[string][2]int{
		`2026-11-01,"Old, Tom",31;5,`: {23, 27}, `"2026-11-1","Old, Tom",31.5,`: {1, 12}, `2026-11-01,"Žofka, Ž",heavy,x`: {23, 28},
		`2026-11-01,"Old, Tom",31,5`: {23, 25}, `2026-11-01,"Old, Tom","31,5",`: {23, 29}, `2026-11-01, "  ",3,`: {13, 17},
	} {
		_, bad := ParseWeights("# first\n" + line + "\n")
		if len(bad) != 1 || bad[0].Line != 2 || bad[0].Col != place[0] || bad[0].EndCol != place[1] {
			t.Errorf("%s: %+v", line, bad)
		}
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

func FuzzWeights(f *testing.F) {
	f.Add("date,pet,kg,note\n2026-11-01,Marlow,31.5,\n")
	f.Add("2026-11-01,Marlow,31,5\n,,,\n\x00,\xff,1\n")
	f.Add("2026-11-01,\"Old, Tom\",31.5,\"a, \"\"b\"\"\",5,2\n2026-11-02, \"Tom\" ,3.5,say \"hi\", x\n2026-11-03,\"Tom,3.5\n")
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
			w.Kg = math.Max(0.001, math.Round(w.Kg*1000)/1000)
			line := LogLine(w, WeightsHeader)
			again, _ := ParseWeights(WeightsHeader + "\n" + line)
			if len(line) < maxLogLine && (len(again) != 1 || again[0] != w) {
				t.Fatalf("%+v, written %q, reads back as %+v", w, line, again)
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
		p := &household.Pet{Animal: nutrients.Animal{Stage: c.stage, WeightKg: 10}, WeightDate: testDay}
		if _, jump := WeightJump(p, household.WeighIn{Date: testDay.AddDays(c.days), Kg: c.kg}); jump != c.jump {
			t.Errorf("%+v: %v", c, jump)
		}
	}
}
