package foodfile

import (
	"fmt"
	"strings"

	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

// TOML writes a food as a file of foods/, such that reading it gives the same
// figures. Figures that the source does not know are left out.
func TOML(f *nutrients.Food) string {
	var b strings.Builder
	line := func(key, value string) {
		if strings.TrimSpace(value) != "" {
			fmt.Fprintf(&b, "%s = %s\n", key, tomldoc.Quote(value))
		}
	}
	line("id", f.ID)
	line("name", f.Name)
	line("group", f.Group)
	line("state", f.State)
	line("source", f.Source.Text)
	if f.Carrier {
		b.WriteString("carrier = true\n")
	} else if f.Powder {
		b.WriteString("powder = true\n")
	}
	profile := &f.Per100g
	if f.PerUnit != nil {
		profile = f.PerUnit
		line("per", "1 "+f.UnitName)
		if f.UnitGrams > 0 {
			line("unit_grams", number.Exact(f.UnitGrams)+" g")
		}
	}
	b.WriteString("\n[figures]\n")
	for id, figure := range profile {
		id := nutrients.ID(id)
		if id.Derived() || !figure.IsKnown() {
			continue
		}
		line(id.String(), labelText(figure, id.Info().Unit))
	}
	return b.String()
}
