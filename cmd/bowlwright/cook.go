package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/records"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func (p *program) cookCommand() *cli.Command {
	return &cli.Command{
		Name: "cook", Usage: "the batch sheet: into the pot, to buy, to fill; records what was cooked",
		Flags: append([]cli.Flag{
			&cli.IntFlag{Name: "days", Usage: "cook for `N` days"},
			&cli.StringFlag{Name: "yield", Usage: "cook so much: `WEIGHT` of the finished batch, for example \"8 kg\""},
			&cli.StringFlag{Name: "cooked", Usage: "record the `WEIGHT` of the finished batch, as the scale showed it"},
			&cli.StringFlag{Name: "on", Usage: "`DATE` of cooking (default: today)"},
			&cli.StringFlag{Name: "note", Usage: "a `REMARK` kept with what was cooked"},
			&cli.StringFlag{Name: "format", Value: "text", Usage: "`LIST` of text, pdf and labels, with commas"},
			&cli.StringFlag{Name: "paper", Value: "a4", Usage: "a4 or letter"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` for the files (default: sheets in the household)"},
		}, labelFlags()...),
		Action: p.cook,
	}
}

type cookJSON struct {
	Format string         `json:"format"`
	Base   string         `json:"base"`
	Code   string         `json:"code"`
	Date   household.Date `json:"date"`
	RawG   float64        `json:"raw_g"`
	// CookedG is the weight expected, or weighed when Record is set.
	CookedG     float64              `json:"cooked_g"`
	Days        int                  `json:"days"`
	DailyG      float64              `json:"daily_g"`
	Ingredients []cookIngredientJSON `json:"ingredients"`
	Shopping    []cookShoppingJSON   `json:"shopping"`
	Containers  []cookContainerJSON  `json:"containers"`
	// Record and ExpectedG are those of --cooked.
	Record    *string  `json:"record"`
	ExpectedG *float64 `json:"expected_g"`
	Files     []string `json:"files"`
}

type cookIngredientJSON struct {
	Name   string  `json:"name"`
	Method string  `json:"method"`
	G      float64 `json:"g"`
}

type cookShoppingJSON struct {
	Name    string   `json:"name"`
	BuyG    float64  `json:"buy_g"`
	RefuseG float64  `json:"refuse_g"`
	Price   *float64 `json:"price"`
}

type cookContainerJSON struct {
	Pet    string  `json:"pet"`
	Count  int     `json:"count"`
	Days   int     `json:"days"`
	G      float64 `json:"g"`
	DailyG float64 `json:"daily_g"`
}

// grams reads a weight typed for an option; 0 when the option is not there.
func grams(c *cli.Context, option string) (float64, error) {
	if !c.IsSet(option) {
		return 0, nil
	}
	kg, err := quantity.Weight(c.String(option))
	var wrong *diag.InputError
	if errors.As(err, &wrong) {
		return 0, badInput("--"+option+": "+wrong.Summary, strings.ReplaceAll(wrong.Advice.Text, "31.5 kg", "8 kg"))
	}
	return 1000 * kg, err
}

// order reads what the options ask for.
func (p *program) order(c *cli.Context, today household.Date) (household.BatchOrder, error) {
	o := household.BatchOrder{Date: today, Days: c.Int("days")}
	if c.IsSet("days") && (o.Days < 1 || o.Days > maxCookDays) {
		return o, badInput(fmt.Sprintf("--days %d cannot be cooked", o.Days), fmt.Sprintf("type a number from 1 to %d", maxCookDays))
	}
	var err error
	if o.YieldG, err = grams(c, "yield"); err != nil {
		return o, err
	}
	if o.Days > 0 && o.YieldG > 0 {
		return o, badInput("--days and --yield are two ways to say how much", "type one of them")
	}
	if s := c.String("on"); s != "" {
		if o.Date, err = household.ParseDate(s); err != nil {
			return o, badInput("--on: "+err.Error(), "type it as --on 2026-11-25")
		}
		if c.IsSet("cooked") && today.Before(o.Date) {
			return o, badInput(fmt.Sprintf("--on %s lies in the future", o.Date), "record what was cooked when it is cooked")
		}
	}
	return o, nil
}

// maxCookDays is far beyond what keeps in a freezer; more is a slip.
const maxCookDays = 366

func (p *program) cook(c *cli.Context) error {
	if err := noMore(c, 0); err != nil {
		return err
	}
	formats := strings.Split(c.String("format"), ",")
	for _, f := range formats {
		if !slices.Contains([]string{"text", "pdf", "labels"}, f) {
			return badInput(fmt.Sprintf("--format %q is not known", f), "type --format text, pdf or labels, or several: --format pdf,labels")
		}
	}
	if err := knownPaper(c.String("paper")); err != nil {
		return err
	}
	labels, err := labelFormat(c, slices.Contains(formats, "labels"))
	if err != nil {
		return err
	}
	h, today, err := p.load(c)
	if err != nil {
		return err
	}
	order, err := p.order(c, today)
	if err != nil {
		return err
	}
	cookedG, err := grams(c, "cooked")
	if err != nil {
		return err
	}
	pairs, err := p.pairsForCooking(h)
	if err != nil {
		return err
	}
	batch, err := household.NewBatchSheet(h.Base, pairs, order)
	if err != nil {
		return err
	}
	sheets := sheetOrder{formats: formats, labels: labels, jars: c.Bool("jars"), text: c.String("out") != "",
		paper: paper.Options{Paper: c.String("paper"), DecimalComma: c.Bool("comma")}}
	out := cookJSON{Format: "bowlwright/cook/1", Files: []string{}}
	if cookedG > 0 {
		// What cannot be printed is said before anything is recorded.
		if _, err := sheetFiles(h, batch, sheets); err != nil {
			return labelFault(err)
		}
		cooking, entry, err := p.records(h.Dir, "cook").RecordCooking(h.Base, order.Date, batch.RawG, cookedG, c.String("note"))
		if err != nil {
			return err
		}
		out.Record, out.ExpectedG = &entry.Ref, &cooking.ExpectedG
		order.Cooked = cooking
		if batch, err = household.NewBatchSheet(h.Base, pairs, order); err != nil {
			return err
		}
	}
	files, err := p.sheets(c, h, batch, sheets)
	if err != nil {
		return err
	}
	p.noteLostCharacters(c, formats, h, pairs)
	for _, f := range files {
		out.Files = append(out.Files, p.shortPath(f))
	}
	if c.Bool("json") {
		return p.printJSON(out.with(h, batch))
	}
	if slices.Contains(formats, "text") && c.String("out") == "" {
		options := p.textOptions(c)
		options.DecimalComma = c.Bool("comma")
		if err := text.Batch(p.env.stdout, batch, options); err != nil {
			return err
		}
	}
	if cooking := order.Cooked; cooking != nil {
		p.say(c, "\nRecorded as %s: %s g cooked, %s g expected.\n", *out.Record, shortFigure(cooking.CookedG), shortFigure(cooking.ExpectedG))
		if f := cooking.Factor(); f != 1 {
			p.say(c, "The batch came out %+.1f %% by weight: portions of this cooking are changed to match.\n", 100*(f-1))
		}
	}
	for _, f := range out.Files {
		p.say(c, "%s\n", f)
	}
	return nil
}

// pairsForCooking are the plans in use of all pets that have one; who has none is
// said, since the pot is too small for them.
func (p *program) pairsForCooking(h *household.Household) ([]household.Paired, error) {
	inUse, _, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, err
	}
	var pets []*household.Pet
	for i := range h.Pets {
		pet := &h.Pets[i]
		record, ok := inUse[pet.Name]
		switch {
		case !ok:
			fmt.Fprintf(p.env.stderr, "note: %s has no plan and is left out of the batch\n", pet.Name)
		case !record.Plan.Pet.Status.Printable():
			fmt.Fprintf(p.env.stderr, "note: the plan of %s holds no amounts that may be fed; the batch is cooked without\n", pet.Name)
		default:
			pets = append(pets, pet)
		}
	}
	if len(pets) == 0 {
		return nil, badInput("no pet has a plan, so nobody knows how much to cook", "make the plans with", "plan")
	}
	pairs, _, err := p.pairsInUse(h, pets)
	return pairs, err
}

// with fills in what the batch holds.
func (out cookJSON) with(h *household.Household, b *household.BatchSheet) cookJSON {
	out.Base, out.Code, out.Date, out.RawG, out.CookedG, out.Days, out.DailyG = h.Base.Name, b.Code, b.Date, b.RawG, b.CookedG, b.Days, b.DailyG
	out.Ingredients, out.Shopping, out.Containers = []cookIngredientJSON{}, []cookShoppingJSON{}, []cookContainerJSON{}
	for _, l := range b.Ingredients {
		out.Ingredients = append(out.Ingredients, cookIngredientJSON{l.Name, l.Method, l.G})
	}
	for _, g := range b.Shopping {
		for _, l := range g.Lines {
			line := cookShoppingJSON{Name: l.Name, BuyG: l.BuyG, RefuseG: l.RefuseG}
			if l.Price > 0 {
				line.Price = &l.Price
			}
			out.Shopping = append(out.Shopping, line)
		}
	}
	for _, k := range b.Containers {
		out.Containers = append(out.Containers, cookContainerJSON{k.Pet, k.Count, k.Days, k.G, k.DailyG})
	}
	return out
}
