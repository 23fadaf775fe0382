package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/mattn/go-runewidth"

	"bowlwright/cmd/bowlwright/internal/sheet"
	"bowlwright/household"
	"bowlwright/optimize/advice"
	"bowlwright/report/text"
)

// detailed is how many improvements are shown with a table of the pets; of the others
// it is enough to know that they are there.
const detailed = 3

func printImprovement(p *program, number int, one *advice.Improvement) {
	fmt.Fprintln(p.env.stdout)
	lead := fmt.Sprintf("%d. ", number)
	for _, ch := range one.Changes {
		p.hanging(lead, inThePot(ch))
		lead = strings.Repeat(" ", len(lead))
	}
	if number <= detailed {
		petTable(p, one)
		p.line("No longer needed: ", strings.Join(notNeeded(one.Pets), "; "))
	} else {
		p.line("", shortEffects(one))
	}
	for _, e := range one.Pets {
		if len(e.AtLimit) > 0 {
			p.line("Note: ", fmt.Sprintf("%s would stand at a limit: %s", e.Pet, strings.Join(e.AtLimit, ", ")))
		}
	}
	if ceiling := one.Ceiling; ceiling != nil {
		first := one.Changes[0]
		p.line("Note: ", fmt.Sprintf("do not go up to %s g: %s would break a limit: %s", potGrams(max(0, first.WasG+ceiling.G)), ceiling.Pet, strings.Join(ceiling.Limits, ", ")))
	}
	for _, ch := range one.Changes {
		for _, caution := range ch.Cautions {
			p.line("Note: ", caution)
		}
	}
	if one.CodeSettled {
		p.line("", "New base code: "+one.Base.Code)
	} else {
		p.line("", "The new base code follows from the yield: weigh the cooked pot.")
	}
}

// line writes a text behind a head, in the width of the terminal; no text, no line.
func (p *program) line(head, text string) {
	if text != "" {
		p.hanging("   ", head+text)
	}
}

// hanging writes a text behind a lead, its further lines a little to the right.
func (p *program) hanging(lead, s string) {
	const further = "      "
	for _, l := range text.Wrap(inPrint(s), min(p.columns(), 100)-len(further)) {
		fmt.Fprintln(p.env.stdout, lead+l)
		lead = further
	}
}

// petTable shows the add-on of each pet a day, now and then.
func petTable(p *program, one *advice.Improvement) {
	const head, all = "add-on a day", "all pets"
	width := len(head)
	for _, e := range one.Pets {
		width = max(width, runewidth.StringWidth(inPrint(e.Pet)))
	}
	row := func(name, now, then, remark string) {
		line := "   " + name + strings.Repeat(" ", width-runewidth.StringWidth(name)) + fmt.Sprintf("  %9s  %9s  %s", now, then, remark)
		fmt.Fprintln(p.env.stdout, strings.TrimRight(line, " "))
	}
	row(head, "now", "then", "")
	if len(one.Pets) > 1 {
		row(all, shortFigure(one.BeforeG)+" g", shortFigure(one.AfterG)+" g", notCounted(one.Pets))
	}
	for _, e := range one.Pets {
		row(inPrint(e.Pet), addonOrNone(e.BeforeImpossible, e.BeforeG), addonOrNone(e.AfterImpossible, e.AfterG), effectRemark(e))
	}
}

// notCounted names those who have no add-on in a sum of all, because nothing is met
// for them: with them the sum would grow where things get better.
func notCounted(pets []advice.PetEffect) string {
	var now, then []string
	for _, e := range pets {
		if e.BeforeImpossible {
			now = append(now, e.Pet)
		}
		if e.AfterImpossible {
			then = append(then, e.Pet)
		}
	}
	switch {
	case len(now) == 0 && len(then) == 0:
		return ""
	case slices.Equal(now, then):
		return "without " + strings.Join(now, ", ")
	case len(then) == 0:
		return "now without " + strings.Join(now, ", ")
	}
	return "now without " + strings.Join(now, ", ") + ", then without " + strings.Join(then, ", ")
}

func addonOrNone(impossible bool, g float64) string {
	if impossible {
		return "none"
	}
	return shortFigure(g) + " g"
}

// effectRemark says what the grams do not: what is missed, and who is worse off.
func effectRemark(e advice.PetEffect) string {
	was, is := metText(e.BeforeImpossible, e.BeforeMissing), metText(e.AfterImpossible, e.AfterMissing)
	switch {
	case was != is:
		return was + ", then " + is
	case was != metWord:
		return "still " + was
	case shortFigure(e.AfterG) != shortFigure(e.BeforeG) && e.AfterG > e.BeforeG:
		return "more than now"
	}
	return ""
}

const metWord = "met"

func metText(impossible bool, missing float64) string {
	switch {
	case impossible:
		return "impossible"
	case missing > 0:
		return fmt.Sprintf("below minimum by %.0f %% in all", 100*missing)
	}
	return metWord
}

// shortEffects says in one paragraph what a change means for all.
func shortEffects(one *advice.Improvement) string {
	var pets []string
	for _, e := range one.Pets {
		s := e.Pet + " " + addonOrNone(e.AfterImpossible, e.AfterG)
		if remark := effectRemark(e); remark != "" {
			s += " (" + remark + ")"
		}
		pets = append(pets, s)
	}
	if len(pets) == 1 {
		return "Then a day: " + pets[0]
	}
	return fmt.Sprintf("Then a day: all pets %s g: %s", shortFigure(one.AfterG), strings.Join(pets, "; "))
}

// notNeeded names each add-on once, with those who need it no longer.
func notNeeded(pets []advice.PetEffect) []string {
	var names []string
	who := map[string][]string{}
	for _, e := range pets {
		for _, name := range e.NotNeeded {
			if who[name] == nil {
				names = append(names, name)
			}
			who[name] = append(who[name], e.Pet)
		}
	}
	for i, name := range names {
		if len(pets) == 1 {
			break
		}
		names[i] = fmt.Sprintf("%s (%s)", name, strings.Join(who[name], ", "))
	}
	return names
}

// inThePot says one change in words.
func inThePot(ch advice.BaseChange) string {
	how := ""
	if ch.Method != "" {
		how = ", " + ch.Method
	}
	if ch.StirredIn {
		how = ", stirred in well when the pot has cooled"
	}
	what := fmt.Sprintf("%s (%s)%s", ch.Name, ch.Food, how)
	switch {
	case ch.G < 0 && ch.WasG+ch.G <= 0:
		return fmt.Sprintf("%s: leave out all %s g", what, potGrams(ch.WasG))
	case ch.WasG > 0:
		return fmt.Sprintf("%s: %s g in place of %s g", what, potGrams(ch.WasG+ch.G), potGrams(ch.WasG))
	}
	return fmt.Sprintf("%s: add %s g", what, potGrams(ch.G))
}

// potGrams writes an amount of an ingredient in full: the new base code holds for the
// pot as it is written here, and a pot weighed in pounds has no whole grams.
func potGrams(g float64) string { return sheet.Cell(math.Round(g*1e9) / 1e9) }

// nextSteps says what to do with the best change, and with what is in the freezer.
func nextSteps(p *program, base *household.Batch, best *advice.Improvement) {
	code := base.Identity().Code
	newCode := "a code of its own, known when the cooked pot is weighed"
	if best.CodeSettled {
		newCode = "the code " + best.Base.Code
	}
	p.say("\n%s", p.paragraph(fmt.Sprintf("A changed pot is another base, with other add-ons. What is in the freezer keeps its code %s, its own add-ons and its printed cards until it is eaten: never mix.", code)))
	p.say("\n%s%s", p.paragraph(fmt.Sprintf("To take the first, print the cards for what is in the freezer (%s), then write into bases/%s.toml:", p.command("card"), base.File)), inToml(base, best))
	p.say("%s", p.paragraph(fmt.Sprintf("and type: %s. The new pot gets %s, and every pet a new plan, its grams rounded to what the scales can weigh; above they are exact.", p.command("plan"), newCode)))
}

// inToml writes the ingredients of a change as they stand in the file of a base.
func inToml(base *household.Batch, one *advice.Improvement) string {
	var b strings.Builder
	for _, ch := range one.Changes {
		amount := potGrams(ch.WasG + ch.G)
		if ch.WasG == 0 {
			fmt.Fprintf(&b, "  [[ingredient]]\n  food = %q\n  amount = \"%s g\"\n", ch.Food, amount)
			if ch.Method != "" {
				fmt.Fprintf(&b, "  method = %q\n", ch.Method)
			}
			continue
		}
		entry, entries := entryOf(base, ch)
		switch {
		case ch.WasG+ch.G > 0:
			fmt.Fprintf(&b, "  in the [[ingredient]] with %s\n  amount = \"%s g\"\n", entry, amount)
			if entries > 1 {
				fmt.Fprintf(&b, "  and take out any other [[ingredient]] with %s\n", entry)
			}
		case entries > 1:
			fmt.Fprintf(&b, "  take out every [[ingredient]] with %s\n", entry)
		default:
			fmt.Fprintf(&b, "  take out the [[ingredient]] with %s\n", entry)
		}
	}
	if !one.CodeSettled {
		b.WriteString("  and set yield to what the new pot weighs when cooked; until then leave out yield and loss\n")
	}
	return b.String()
}

// entryOf says in words which entry of a base a change is about, by the method as well
// where the food stands there with two, and how many such entries there are.
func entryOf(base *household.Batch, ch advice.BaseChange) (words string, entries int) {
	words = fmt.Sprintf("food = %q", ch.Food)
	otherwise := false
	for _, in := range base.Ingredients {
		if in.Food == nil || in.Food.ID != ch.Food {
			continue
		}
		if in.Method == ch.Method {
			entries++
		} else {
			otherwise = true
		}
	}
	switch {
	case otherwise && ch.Method == "":
		words += " and no method"
	case otherwise:
		words += fmt.Sprintf(" and method = %q", ch.Method)
	}
	return words, entries
}
