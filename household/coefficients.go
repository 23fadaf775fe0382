package household

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Coefficients are the entries of a row, one a column. Nine in ten are 0, and a
// thousand plans hold millions: only the others are kept. In JSON they are one text of
// numbers with spaces between, quantity.Exact to the last bit, which keeps a record small and
// its lines few.
type Coefficients struct {
	// Columns counts the entries.
	Columns int
	// Terms are those that are not 0, by column.
	Terms []Term
}

// Term is one entry of a row.
type Term struct {
	Column int
	Value  float64
}

// CoefficientsOf takes down a row with one entry a column. The row stays the caller's.
func CoefficientsOf(row []float64) Coefficients {
	count := 0
	for _, x := range row {
		if !isZero(x) {
			count++
		}
	}
	c := Coefficients{Columns: len(row), Terms: make([]Term, 0, count)}
	for j, x := range row {
		if !isZero(x) {
			c.Terms = append(c.Terms, Term{j, x})
		}
	}
	return c
}

// isZero says whether a number is written "0": the negative zero is not.
func isZero(x float64) bool { return math.Float64bits(x) == 0 }

// Row returns the entries one a column, in a new slice.
func (c Coefficients) Row() []float64 {
	row := make([]float64, c.Columns)
	for _, t := range c.Terms {
		row[t.Column] = t.Value
	}
	return row
}

// At returns the entry of a column, 0 beyond the last.
func (c Coefficients) At(column int) float64 {
	for _, t := range c.Terms {
		if t.Column == column {
			return t.Value
		}
	}
	return 0
}

// MarshalText writes the numbers.
func (c Coefficients) MarshalText() ([]byte, error) {
	b := make([]byte, 0, 2*c.Columns+16*len(c.Terms))
	rest := c.Terms
	for j := range c.Columns {
		if j > 0 {
			b = append(b, ' ')
		}
		if len(rest) > 0 && rest[0].Column == j {
			b = strconv.AppendFloat(b, rest[0].Value, 'g', -1, 64)
			rest = rest[1:]
		} else {
			b = append(b, '0')
		}
	}
	return b, nil
}

// UnmarshalText reads what MarshalText wrote.
func (c *Coefficients) UnmarshalText(text []byte) error {
	read := Coefficients{}
	for w := range strings.FieldsSeq(string(text)) {
		if w != "0" {
			x, err := strconv.ParseFloat(w, 64)
			if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
				return fmt.Errorf("%q is not a coefficient", w)
			}
			if !isZero(x) {
				read.Terms = append(read.Terms, Term{read.Columns, x})
			}
		}
		read.Columns++
	}
	*c = read
	return nil
}
