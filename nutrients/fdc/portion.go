package fdc

import (
	"strconv"
	"strings"

	"bowlwright/nutrients"
)

// portion adds a household measure; one without a weight is noted.
func (c *collector) portion(f *nutrients.Food, amount float64, unit, modifier, description string, grams float64) {
	if !(grams > 0) {
		c.note("portion", "no weight given")
		return
	}
	if amount <= 0 {
		amount = 1
	}
	parts := []string{strconv.FormatFloat(amount, 'g', 4, 64)}
	for _, s := range []string{unit, description, modifier} {
		if s = strings.TrimSpace(s); s != "" && s != "undetermined" {
			parts = append(parts, s)
		}
	}
	if len(parts) == 1 {
		c.note("portion", "no name given")
		return
	}
	f.Measures = append(f.Measures, nutrients.Measure{Name: strings.Join(parts, " "), Grams: grams})
}
