package nutrients

import "fmt"

// dilutedTo is how many grams one gram becomes in a step of a dilution.
const dilutedTo = 100

// Share is how much of a gram of the dilution is the pure compound.
func (d *Dilution) Share() float64 {
	share := 1.0
	for range d.Times {
		share /= dilutedTo
	}
	return share
}

// Recipe says how a dilution is made and what goes on its label, a sentence each.
func (d *Dilution) Recipe(f *Food) []string {
	pure := d.Of
	if p, ok := Default().Food(d.Of); ok {
		pure = p.Name
	}
	lines := []string{fmt.Sprintf("Weigh 1 g of %s and %d g of corn starch on a scale with steps of 0.01 g. Rub the powder with a spoonful of the starch, add the rest by doubling, sieve twice.", pure, dilutedTo-1)}
	for step := 1; step < d.Times; step++ {
		lines = append(lines, fmt.Sprintf("Weigh 1 g of that mixture and %d g of fresh starch, and mix in the same way. Throw the first mixture away or label it as what it is.", dilutedTo-1))
	}
	one := "1 in 100"
	if d.Times == 2 {
		one = "1 in 10,000"
	}
	return append(lines, fmt.Sprintf("Label: \"%s. %s in starch, %s. Made on …, keep dry and dark, use within 6 months.\"", f.Name, pure, one))
}
