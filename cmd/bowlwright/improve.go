package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/urfave/cli/v2"

	"bowlwright/household"
	"bowlwright/optimize"
	"bowlwright/report"
)

func (p *program) improveCommand() *cli.Command {
	return &cli.Command{
		Name: "improve", Usage: "how to change the base so that all pets together need the least add-on", ArgsUsage: " ",
		Description: "Looks at every food of the catalogue that nobody at the table must avoid, at the\npowders on the shelf, and at less of what is in the pot. No change leaves a pet\nwith more missed than before. Nothing is changed or recorded: the base is yours\nto write.",
		Action:      p.improve,
	}
}

type improveJSON struct {
	Format    string `json:"format"`
	Household string `json:"household"`
	Base      struct {
		Name string `json:"name"`
		household.Identity
		RawG float64 `json:"raw_g"`
	} `json:"base"`
	Improvements []optimize.Improvement `json:"improvements"`
}

func (p *program) improve(c *cli.Context) error {
	if err := noMore(c, 0); err != nil {
		return err
	}
	h, _, err := p.load(c)
	if err != nil {
		return err
	}
	ctx, cancel := limited(len(h.Pets))
	defer cancel()
	done := func() {}
	if !c.Bool("quiet") && !c.Bool("json") {
		done = p.progress("trying other bases", progressDelay)
	}
	found, err := optimize.Improve(ctx, h)
	done()
	if err != nil {
		return err
	}
	if c.Bool("json") {
		out := improveJSON{Format: "bowlwright/improve/1", Household: h.Name, Improvements: []optimize.Improvement{}}
		out.Base.Name, out.Base.Identity, out.Base.RawG = h.Base.Name, h.Base.Identity(), h.Base.RawGrams()
		out.Improvements = append(out.Improvements, found...)
		return p.printJSON(out)
	}
	p.say(c, "%s: base %s, %s, %s g raw\n", h.Name, h.Base.Identity().Code, h.Base.Name, shortFigure(h.Base.RawGrams()))
	if len(found) == 0 {
		p.say(c, "No change of this base is worth a new one: nothing in the catalogue, in more or\nin less, saves two hundredths of all pets' add-on or of what is missed.\n")
		return nil
	}
	p.say(c, "All pets together need %s g of add-on a day. What would change that, best first:\n", shortFigure(found[0].BeforeG))
	for i, one := range found {
		p.printImprovement(i+1, &one)
	}
	p.say(c, "\nA changed pot is another base: it gets a new code, and every pet a new plan.\nWhat is in the freezer keeps its code and its own add-ons. Amounts of add-on are\nexact here; the plans round them to what the scales can weigh.\n")
	p.say(c, "\nFor the first, write into bases/%s.toml, then: bowlwright plan\n%s", h.Base.File, inToml(&found[0]))
	return nil
}

func (p *program) printImprovement(number int, one *optimize.Improvement) {
	w := p.env.stdout
	for i, ch := range one.Changes {
		lead := fmt.Sprintf("%d. ", number)
		if i == 0 {
			fmt.Fprintln(w)
		} else {
			lead = strings.Repeat(" ", len(lead))
		}
		fmt.Fprintf(w, "%s%s\n", lead, inThePot(ch))
	}
	code := "base code " + one.Base.Code
	if !one.CodeSettled {
		code = "the base code follows from the yield"
	}
	p.line("all pets", fmt.Sprintf("%s; %s", gramsText(one.BeforeG, one.AfterG), code))
	for _, e := range one.Pets {
		p.line(e.Pet, effectText(e, number <= detailed))
	}
	if ceiling := one.Ceiling; ceiling != nil {
		amount := shortFigure(ceiling.G) + " g more"
		if ceiling.G < 0 {
			amount = shortFigure(-ceiling.G) + " g less"
		}
		p.line("not beyond", fmt.Sprintf("from %s on %s would miss %s", amount, ceiling.Pet, strings.Join(ceiling.Limits, "; ")))
	}
	for _, ch := range one.Changes {
		for _, caution := range ch.Cautions {
			p.line("mind", caution)
		}
	}
}

// detailed is how many improvements are shown with what each pet needs no longer.
const detailed = 3

// line writes a text beside a name, in the width of the terminal.
func (p *program) line(name, text string) {
	const lead = 14
	name = "   " + name
	if utf8.RuneCountInString(name) >= lead {
		fmt.Fprintln(p.env.stdout, name)
		name = ""
	}
	for _, l := range report.Wrap(inPrint(text), min(p.columns(), 100)-lead) {
		fmt.Fprintf(p.env.stdout, "%-*s%s\n", lead, name, l)
		name = ""
	}
}

func gramsText(before, after float64) string {
	return fmt.Sprintf("%s g -> %s g a day", shortFigure(before), shortFigure(after))
}

// inThePot says one change in words.
func inThePot(ch optimize.BaseChange) string {
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
		return "leave out " + what
	case ch.WasG > 0:
		return fmt.Sprintf("%s g in place of %s g of %s", shortFigure(ch.WasG+ch.G), shortFigure(ch.WasG), what)
	}
	return fmt.Sprintf("add %s g of %s", shortFigure(ch.G), what)
}

// effectText says what a change means for one pet.
func effectText(e optimize.PetEffect, detailed bool) string {
	var parts []string
	switch {
	case e.AfterImpossible:
		parts = append(parts, "still impossible")
	case e.BeforeImpossible:
		parts = append(parts, fmt.Sprintf("impossible -> %s, with %s g a day", metText(e.AfterMissing), shortFigure(e.AfterG)))
	case e.BeforeMissing > 0:
		parts = append(parts, gramsText(e.BeforeG, e.AfterG), metText(e.BeforeMissing)+" -> "+metText(e.AfterMissing))
	default:
		parts = append(parts, gramsText(e.BeforeG, e.AfterG))
	}
	if len(e.NotNeeded) > 0 && detailed {
		parts = append(parts, "No longer: "+strings.Join(e.NotNeeded, "; "))
	}
	if len(e.AtLimit) > 0 {
		parts = append(parts, "Then stands at a limit: "+strings.Join(e.AtLimit, "; "))
	}
	return strings.Join(parts, ". ")
}

func metText(missing float64) string {
	if missing > 0 {
		return fmt.Sprintf("short by %.0f %% of a limit in all", 100*missing)
	}
	return "met"
}

// inToml writes the ingredients of a change as they stand in the file of a base.
func inToml(one *optimize.Improvement) string {
	var b strings.Builder
	for _, ch := range one.Changes {
		amount := shortFigure(ch.WasG + ch.G)
		switch {
		case ch.WasG+ch.G <= 0:
			fmt.Fprintf(&b, "  take out the [[ingredient]] with food = %q\n", ch.Food)
			continue
		case ch.WasG > 0:
			fmt.Fprintf(&b, "  in the [[ingredient]] with food = %q\n  amount = \"%s g\"\n", ch.Food, amount)
			continue
		}
		fmt.Fprintf(&b, "  [[ingredient]]\n  food = %q\n  amount = \"%s g\"\n", ch.Food, amount)
		if ch.Method != "" {
			fmt.Fprintf(&b, "  method = %q\n", ch.Method)
		}
	}
	if !one.CodeSettled {
		b.WriteString("  and the new weight of the cooked pot as yield\n")
	}
	return b.String()
}
