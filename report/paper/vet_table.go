package paper

import (
	"strconv"

	"bowlwright/report"
)

// Type of the second side in points: from the first down to the second, until everything
// stands on one page. Where even that is not enough, it goes on on the next.
const leastVetPoints = 6.5

// vetLine is the height of a line in millimetres.
func vetLine(points float64) float64 { return points * pointInMM * 1.2 }

// vetTop is the height in millimetres that a line of the table takes beyond its type.
const vetTop = 0.4

// vetSecond is the side with every figure.
func (p *page) vetSecond(v *report.Vet) {
	p.vetHead(v, "side 2 of 2")
	points := vetPoints
	fits := func() bool {
		table := float64(len(v.Rows)+1)*(vetLine(points)+vetTop) + 2
		return p.y+table+columnsHeight(p.vetLines(v, points), points) <= p.bottom
	}
	for points > leastVetPoints && !fits() {
		points -= 0.1
	}
	if !fits() {
		points = vetPoints
	}
	p.table(v, points)
	p.columns(p.vetLines(v, points), points)
}

// vetColumns are the shares of the width, which sum to one.
var vetColumns = []float64{0.2, 0.085, 0.085, 0.085, 0.095, 0.09, 0.085, 0.06, 0.165, 0.05}

// table draws the nutrients under a head in one size of type.
func (p *page) table(v *report.Vet, points float64) {
	row := vetLine(points) + vetTop
	head := []string{"Nutrient", "a day", "minimum", "maximum", "1000 kcal", "minimum", "maximum", "known", "state", "src"}
	headPoints := points
	for i, h := range head {
		for headPoints > leastFit && p.widthOf(h, "B", headPoints) > vetColumns[i]*p.inner-cellGapMM {
			headPoints -= 0.25
		}
	}
	all := map[int]bool{}
	for i := range head {
		all[i] = true
	}
	p.cells(vetColumns, head, all, row, headPoints)
	for _, r := range v.Rows {
		before := p.area
		if p.need(row); p.area != before {
			p.cells(vetColumns, head, all, row, headPoints)
		}
		bold := map[int]bool{1: true, 4: true}
		if !r.Inside {
			bold = all
		}
		p.cells(vetColumns, []string{r.Name, r.Day, r.Minimum, r.Maximum, r.Per1000, r.Minimum1000, r.Maximum1000, r.Known, r.State, r.Source}, bold, row, points)
	}
	p.y += 2
}

// vetLines are what stands below the table.
func (p *page) vetLines(v *report.Vet, points float64) []columnLine {
	l := lister{page: p, points: points}
	if len(v.Ratios) > 0 {
		l.head("Ratios")
		for _, r := range v.Ratios {
			l.text(r)
		}
	}
	l.head("How to read it")
	for _, m := range v.Marks {
		l.text(m)
	}
	l.text(v.KeyNote)
	l.head("Sources of the limits (src)")
	var sources []report.Item
	for i, s := range v.Sources {
		sources = append(sources, report.Item{Amount: strconv.Itoa(i + 1), Name: s})
	}
	l.items(sources)
	l.head("The base, by raw weight (food id, cooking)")
	var foods []report.Item
	for _, i := range v.Ingredients {
		foods = append(foods, report.Item{Amount: i.Amount, Name: i.Name + " (" + i.Remark + ")"})
	}
	l.items(foods)
	if len(v.Cooking) > 0 {
		l.head("Cooking losses")
		var notes []report.Item
		for _, s := range v.Cooking {
			notes = append(notes, report.Item{Amount: "•", Name: s})
		}
		l.items(notes)
	}
	if len(v.Mind) > 0 {
		l.head(report.NoteTitle)
		var notes []report.Item
		for _, s := range v.Mind {
			notes = append(notes, report.Item{Amount: "•", Name: s})
		}
		l.items(notes)
	}
	l.head("Identity")
	l.text(v.Identity)
	return l.lines
}
