package household

import (
	"strings"
	"testing"
	"time"

	"bowlwright/household/diag"
)

// TestFloods: files at the size limit that are wrong everywhere are refused in
// seconds, with a bounded list of faults.
func TestFloods(t *testing.T) {
	fill := func(s string) string { return strings.Repeat(s, (maxFile-100)/len(s)) }
	for name, files := range map[string]map[string]string{
		"no TOML":        {"household.toml": fill("x\n")},
		"unknown keys":   {"household.toml": "a = {" + fill("b = 1, ")[:1<<20] + "c = 1}\n" + goodHousehold},
		"dotted key":     {"household.toml": fill("a.") + "a = 1\n"},
		"a long line":    {"household.toml": goodHousehold + "sex = \"" + fill("x") + "\"\n"},
		"open quotes":    {"household.toml": goodHousehold + fill("a = \"\n")},
		"strangers":      {"weights.csv": fill("2026-11-01,Rex,3.0,\n")},
		"bad weights":    {"weights.csv": fill("x\n")},
		"empty pets":     {"household.toml": "base = \"pot\"\n" + fill("[[pet]]\n")[:8*maxBrackets/4]},
		"bad amounts":    {"bases/pot.toml": fill("[[ingredient]]\nfood=\"kale-raw\"\namount=\"1,0 g\"\n")[:1<<20]},
		"one wrong line": {"household.toml": goodHousehold + "colour = [" + fill("1,") + "]\n"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t, files)
			start := time.Now()
			h, list, err := Load(dir, testDay)
			if err != nil || (h == nil) != list.HasErrors() || !list.HasErrors() && name != "bad weights" && name != "strangers" || len(list) > 2*maxFaults+2 {
				t.Errorf("household %v, %d faults, %v", h != nil, len(list), err)
			}
			if text := list.Text(80, false, diag.Plain); len(text) > 1<<17 {
				t.Errorf("%d bytes of text", len(text))
			}
			// A hang would be minutes; the bound only has to tell the two apart.
			if took := time.Since(start); took > 20*time.Second {
				t.Errorf("took %v", took)
			} else {
				t.Logf("%v", took)
			}
		})
	}
}
