package text

import (
	"fmt"
	"io"

	"bowlwright/household"
	"bowlwright/report"
)

// Mix writes a mixing sheet for the terminal.
func Mix(w io.Writer, s *household.MixSheet, o Options) error {
	m := report.NewMix(s)
	t := newTextWriter(o)
	t.title("Mixing sheet: " + m.Title)
	t.line("", "Write on the jar: "+m.Code)
	t.line("", m.For+"; "+m.Scale+"; good for "+m.Good)
	if m.InHand != "" {
		t.line("", m.InHand)
	}
	for _, section := range m.Sections {
		t.head(section.Head)
		t.line("  ", section.About)
		for _, l := range section.Lines {
			name := l.Name
			if l.Remark != "" {
				name += " (" + l.Remark + ")"
			}
			t.listed("  ", fmt.Sprintf("%2d  %10s", l.Number, l.Amount), fmt.Sprintf("%s; scale then shows %s g", name, l.Shows), mixColumn)
		}
		if section.After != "" {
			t.listed("  ", "", section.After, mixColumn)
		}
	}
	t.listed("  ", fmt.Sprintf("%14s", m.Total), "in the jar, "+m.Range, mixColumn)
	t.head("Doses from this jar, once a day")
	for _, d := range m.Doses {
		t.listed("  ", fmt.Sprintf("%10s", d.Dose), fmt.Sprintf("%s, %s; %s days, %s", d.Pet, d.Kind, d.Days, d.InAll), mixColumn)
	}
	t.line("  ", m.Taken)
	if len(m.Buy) > 0 {
		t.head(fmt.Sprintf("Given beside the jar, for %s", m.Good))
		for _, i := range m.Buy {
			t.listed("  ", i.Amount, i.Name, mixColumn)
		}
	}
	t.head("Please note")
	for _, n := range m.Notes {
		t.line("  ", n)
	}
	t.line("", "")
	t.line("", m.Foot)
	return t.writeTo(w)
}

// mixColumn is where names begin on a mixing sheet.
const mixColumn = 18
