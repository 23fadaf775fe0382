package reading

import (
	"strings"
	"testing"

	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
)

// TestFloods: files at the size limit that are wrong everywhere are refused with a
// bounded list of faults. Work that grows with the square of the size would run into
// the time limit of the tests.
func TestFloods(t *testing.T) {
	fill := func(s string) string { return strings.Repeat(s, (tomldoc.MaxFile-100)/len(s)) }
	for name, files := range map[string]map[string]string{
		"no TOML":        {"household.toml": fill("x\n")},
		"unknown keys":   {"household.toml": "a = {" + fill("b = 1, ")[:1<<20] + "c = 1}\n" + goodHousehold},
		"dotted key":     {"household.toml": fill("a.") + "a = 1\n"},
		"a long line":    {"household.toml": goodHousehold + "sex = \"" + fill("x") + "\"\n"},
		"open quotes":    {"household.toml": goodHousehold + fill("a = \"\n")},
		"strangers":      {"weights.csv": fill("2026-11-01,Rex,3.0,\n")},
		"bad weights":    {"weights.csv": fill("x\n")},
		"empty pets":     {"household.toml": "base = \"pot\"\n" + fill("[[pet]]\n")[:8*tomldoc.MaxBrackets/4]},
		"bad amounts":    {"bases/pot.toml": fill("[[ingredient]]\nfood=\"kale-raw\"\namount=\"1,0 g\"\n")[:1<<20]},
		"one wrong line": {"household.toml": goodHousehold + "colour = [" + fill("1,") + "]\n"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t, files)
			h, list, err := Load(dir, testDay)
			if err != nil || (h == nil) != list.HasErrors() || !list.HasErrors() && name != "bad weights" && name != "strangers" || len(list) > 2*tomldoc.MaxFaults+2 {
				t.Errorf("household %v, %d faults, %v", h != nil, len(list), err)
			}
			if text := list.Text(80, false, diag.Plain); len(text) > 1<<17 {
				t.Errorf("%d bytes of text", len(text))
			}
		})
	}
}
