package reading

import (
	"strings"
	"testing"

	"bowlwright/household/diag"
)

// TestHints: what is told to type instead, for slips that newcomers make.
func TestHints(t *testing.T) {
	base := func(food, rest string) map[string]string {
		return map[string]string{"bases/pot.toml": goodBase + "[[ingredient]]\nfood = \"" + food + "\"\namount = \"40 g\"\n" + rest}
	}
	home := func(was, now string) map[string]string {
		return map[string]string{"household.toml": strings.Replace(goodHousehold, was, now, 1), "weights.csv": "date,pet,kg,note\n2026-11-20,Marlow,31.0,\n"}
	}
	for name, c := range map[string]struct {
		files map[string]string
		want  string
		not   string
	}{
		"raw fish in the pot":     {base("sardine-raw", ""), `give it a cooking method, such as method = "simmered"`, ""},
		"cooked fish is no fault": {base("sardine-raw", "method = \"boiled\"\n"), "", "sardine"},
		"cooking does not help":   {base("onions-raw", ""), "hint: leave it out\n", "cooking method"},
		"raw fish as an extra":    {home(`weight = "31.5 kg"`, "weight = \"31.5 kg\"\n[[pet.extra]]\nfood = \"sardine-raw\"\namount = \"5 g\""), "or name it as cooked", "cooking method"},
		"raw fish on the shelf":   {home("[[pet]]", "[[addon]]\nfood = \"sardine-raw\"\n[[pet]]"), "cook it in the base", "cooking method"},
		"curly quotes":            {home(`"Marlow"`, "“Marlow”"), `type straight quotes: name = "Marlow"`, "no pet is named"},
		"one bracket for many": {home("[[pet]]", "[pet]\nname = \"Pip\"\nspecies = \"cat\"\nweight = \"4 kg\"\n[[pet]]"),
			"double the brackets: [[pet]]", "already"},
		"a colon":            {home(`name = "H"`, `name: "H"`), `write = in place of the colon: name = "H"`, ""},
		"yes":                {home(`species = "dog"`, "species = \"dog\"\nneutered = yes # spayed"), "write neutered = true", ""},
		"no":                 {home(`species = "dog"`, "species = \"dog\"\nneutered = No"), "write neutered = false", ""},
		"a date with points": {home(`species = "dog"`, "species = \"dog\"\nborn = 12.05.2019"), "write the date as year-month-day without quotes: born = 2019-05-12", ""},
		"no quotes":          {home(`"Marlow"`, "Marlow the Great"), `put it in quotes: name = "Marlow the Great"`, ""},
		"a path to the base": {home(`"pot"`, `"bases/pot.toml"`), `did you mean "pot"?`, ""},
		"a misspelt list":    {home("[[pet]]", "[[pett]]\nname = \"x\"\n[[pet]]"), "household.toml:3:", "household.toml:1:"},
		"one bracket alone":  {home("[[pet]]", "[pet]"), "[[pet]]", ""},
	} {
		_, list, err := Load(folder(t, c.files), testDay)
		if err != nil {
			t.Fatal(name, err)
		}
		text := list.Text(0, false, diag.Plain)
		if !strings.Contains(text, c.want) || c.not != "" && strings.Contains(text, c.not) {
			t.Errorf("%s: want %q, not %q, in\n%s", name, c.want, c.not, text)
		}
		if strings.HasPrefix(name, "one bracket") && strings.Count(text, "error:") != 1 {
			t.Errorf("%s is said more than once:\n%s", name, text)
		}
	}
}
