package text

import (
	"fmt"
	"io"
	"math"
	"strings"

	"bowlwright/household"
)

// The field of the plot in characters.
const (
	plotRows, plotColumns = 12, 56
	leastSpan             = 0.06 // of the weight: less would make a trend of the scale's noise
)

// Weights draws a pet's weighings over time for the terminal: the goal as a band, the rate
// that is aimed at, what is expected, both axes, and the same in words below. With fewer
// than two weighings there are only the words.
func Weights(w io.Writer, c household.WeightCourse, o Options) error {
	t := newTextWriter(o)
	if len(c.Weighings) > 1 {
		t.plot(c)
	}
	for _, s := range c.Words() {
		t.line("", s+".")
	}
	return t.writeTo(w)
}

// plot draws the field: a later sign stands over an earlier one.
func (t *textWriter) plot(c household.WeightCourse) {
	from, to := c.Weighings[0].Date, c.Weighings[len(c.Weighings)-1].Date
	low, high := math.Inf(1), math.Inf(-1)
	take := func(day household.Date, kg float64) {
		low, high = math.Min(low, kg), math.Max(high, kg)
		if day.Before(from) {
			from = day
		}
		if to.Before(day) {
			to = day
		}
	}
	for _, w := range c.Weighings {
		take(w.Date, w.Kg)
	}
	for _, q := range c.Projection {
		take(q.Date, q.Kg)
	}
	if c.GoalKg > 0 {
		low, high = math.Min(low, c.LowKg), math.Max(high, c.HighKg)
	}
	if least := leastSpan * high; high-low < least {
		middle := (high + low) / 2
		low, high = middle-least/2, middle+least/2
	}
	field := make([][]rune, plotRows)
	for i := range field {
		field[i] = []rune(strings.Repeat(" ", plotColumns))
	}
	row := func(kg float64) int { return int(math.Round((high - kg) / (high - low) * (plotRows - 1))) }
	put := func(day household.Date, kg float64, sign rune) {
		r := row(kg)
		if days := to.DaysSince(from); r >= 0 && r < plotRows && days > 0 && !day.Before(from) && !to.Before(day) {
			field[r][int(math.Round(float64(day.DaysSince(from))/float64(days)*(plotColumns-1)))] = sign
		}
	}
	if c.GoalKg > 0 {
		for r := row(c.HighKg); r <= row(c.LowKg); r++ {
			field[r] = []rune(strings.Repeat(":", plotColumns))
		}
	}
	for _, q := range c.Planned {
		put(q.Date, q.Kg, '-')
	}
	for _, q := range c.Projection {
		put(q.Date, q.Kg, '+')
	}
	for _, w := range c.Weighings {
		put(w.Date, w.Kg, 'o')
	}
	for r, line := range field {
		kg := high - float64(r)/(plotRows-1)*(high-low)
		label := strings.Repeat(" ", 8)
		if r%3 == 0 || r == plotRows-1 {
			label = fmt.Sprintf("%5.*f kg", decimals(high-low), kg)
		}
		t.b.WriteString(strings.TrimRight(label+" |"+string(line), " ") + "\n")
	}
	t.b.WriteString(strings.Repeat(" ", 9) + "+" + strings.Repeat("-", plotColumns) + "\n")
	gap := strings.Repeat(" ", plotColumns-len(from.String())-len(to.String()))
	t.b.WriteString(strings.Repeat(" ", 10) + from.String() + gap + to.String() + "\n")
	t.line("", "o weighed   : goal   - rate that is aimed at   + expected on the plan as it is")
}

// decimals is how many decimals tell the rows of a span apart.
func decimals(span float64) int {
	if span < 2 {
		return 2
	}
	return 1
}
