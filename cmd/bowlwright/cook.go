package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/records"
	"bowlwright/household/supplies"
	"bowlwright/household/upkeep"
	"bowlwright/household/visible"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

func cookCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "cook", Usage: "the batch sheet: into the pot, to buy, to fill; records what was cooked",
		Flags: append([]cli.Flag{
			&cli.IntFlag{Name: "days", Usage: "cook for `N` days"},
			&cli.StringFlag{Name: "yield", Usage: "cook enough for this `WEIGHT` of the finished batch, for example \"8 kg\""},
			&cli.StringFlag{Name: "cooked", Usage: "record the `WEIGHT` of the finished batch, as the scale showed it"},
			&cli.StringFlag{Name: "on", Usage: "`DATE` of cooking (default: today)"},
			&cli.StringFlag{Name: "note", Usage: "a `REMARK` kept with what was cooked"},
			&cli.StringFlag{Name: "format", Value: "text", Usage: "`LIST` of formats, separated by commas: text, pdf, labels"},
			&cli.StringFlag{Name: "paper", Value: "a4", Usage: "a4 or letter"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` for the files (default: sheets in the household)"},
		}, labelFlags()...),
		Action: func(c *cli.Context) error {
			return cookOptions{days: given(c, "days", c.Int), yield: given(c, "yield", c.String), cooked: given(c, "cooked", c.String), on: c.String("on"), note: visible.Strip(c.String("note")),
				formats: strings.Split(c.String("format"), ","), paper: c.String("paper"), comma: c.Bool("comma"), jars: c.Bool("jars"), out: c.String("out"), labels: labelsFrom(c)}.run(p)
		},
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

// given is the value of an option, nil when it is not on the command line.
func given[T any](c *cli.Context, option string, value func(string) T) *T {
	if !c.IsSet(option) {
		return nil
	}
	v := value(option)
	return &v
}

// grams reads a weight typed for an option; 0 when the option is not there.
func grams(option string, typed *string) (float64, error) {
	if typed == nil {
		return 0, nil
	}
	kg, err := quantity.Weight(*typed)
	var wrong *diag.InputError
	if errors.As(err, &wrong) {
		return 0, badInput("--"+option+": "+wrong.Summary, strings.ReplaceAll(wrong.Advice.Text, "31.5 kg", "8 kg"))
	}
	return 1000 * kg, err
}

// order reads what the options ask for.
func (o cookOptions) order(today household.Date) (supplies.BatchOrder, error) {
	order := supplies.BatchOrder{Date: today}
	if o.days != nil {
		order.Days = *o.days
		if order.Days < 1 || order.Days > maxCookDays {
			return order, badInput(fmt.Sprintf("--days %d is out of range", order.Days), fmt.Sprintf("type a number from 1 to %d", maxCookDays))
		}
	}
	var err error
	if order.YieldG, err = grams("yield", o.yield); err != nil {
		return order, err
	}
	if order.Days > 0 && order.YieldG > 0 {
		return order, badInput("--days and --yield are two ways to say how much", "type one of them")
	}
	if o.on != "" {
		if order.Date, err = household.ParseDate(o.on); err != nil {
			return order, badInput("--on: "+err.Error(), "type it as --on 2026-11-25")
		}
		if o.cooked != nil && today.Before(order.Date) {
			return order, badInput(fmt.Sprintf("--on %s lies in the future", order.Date), "record what was cooked when it is cooked")
		}
	}
	return order, nil
}

// maxCookDays is far beyond what keeps in a freezer; more is a slip.
const maxCookDays = 366

// cookOptions are what `cook` takes.
type cookOptions struct {
	// days is how long the batch shall last, nil for what the base says.
	days *int
	// yield and cooked are weights as they were typed, nil when they were not.
	yield, cooked *string
	on, note      string
	formats       []string
	paper         string
	comma, jars   bool
	out           string
	labels        labelOptions
}

func (o cookOptions) run(p *program) error {
	if err := p.noMore(0); err != nil {
		return err
	}
	for _, f := range o.formats {
		if !slices.Contains([]string{"text", "pdf", "labels"}, f) {
			return badInput(fmt.Sprintf("--format %q is not known", f), "type --format text, pdf or labels, or several: --format pdf,labels")
		}
	}
	if err := knownPaper(o.paper); err != nil {
		return err
	}
	labels, err := o.labels.format(slices.Contains(o.formats, "labels"), o.paper)
	if err != nil {
		return err
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	order, err := o.order(today)
	if err != nil {
		return err
	}
	cookedG, err := grams("cooked", o.cooked)
	if err != nil {
		return err
	}
	pairs, outOfDate, err := pairsForCooking(p, h, today)
	if err != nil {
		return err
	}
	order.OutOfDate = outOfDate
	batch, err := supplies.NewBatchSheet(h.Base, pairs, order)
	if err != nil {
		return err
	}
	sheets := sheetOrder{formats: o.formats, labels: labels, jars: o.jars, text: o.out != "",
		paper: paper.Options{Paper: o.paper, DecimalComma: o.comma}}
	out := cookJSON{Format: "bowlwright/cook/1", Files: []string{}}
	if cookedG > 0 {
		// What cannot be printed is said before anything is recorded.
		if _, err := sheetFiles(h, batch, sheets); err != nil {
			return labelFault(err)
		}
		cooking, entry, err := p.records(h.Dir, "cook").RecordCooking(h.Base, order.Date, batch.RawG, cookedG, o.note)
		if err != nil {
			return err
		}
		out.Record, out.ExpectedG = &entry.Ref, &cooking.ExpectedG
		order.Cooked = cooking
		if batch, err = supplies.NewBatchSheet(h.Base, pairs, order); err != nil {
			return err
		}
	}
	files, err := writeSheets(p, o.out, h, batch, sheets)
	if err != nil {
		return err
	}
	noteLostCharacters(p, o.formats, h, pairs)
	for _, f := range files {
		out.Files = append(out.Files, p.shortPath(f))
	}
	if p.json {
		return p.printJSON(out.with(h, batch))
	}
	if slices.Contains(o.formats, "text") && o.out == "" {
		options := p.textOptions()
		options.DecimalComma = o.comma
		if err := text.Batch(p.env.stdout, batch, options); err != nil {
			return err
		}
	}
	if cooking := order.Cooked; cooking != nil {
		p.say("\nRecorded as %s: %s g cooked, %s g expected.\n", *out.Record, shortFigure(cooking.CookedG), shortFigure(cooking.ExpectedG))
		if f := cooking.Factor(); f != 1 {
			more := "more"
			if f < 1 {
				more = "less"
			}
			p.say("The pot weighed %.1f %% %s than expected: the portions of this batch are adjusted.\n", 100*math.Abs(f-1), more)
		}
	}
	for _, f := range out.Files {
		p.say("%s\n", f)
	}
	return nil
}

// pairsForCooking are the plans in use of all pets that have one, and why some are out of
// date; who has none is said, since the pot is too small for them.
func pairsForCooking(p *program, h *household.Household, today household.Date) (pairs []household.Paired, outOfDate []string, err error) {
	inUse, _, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, nil, err
	}
	checks := upkeep.NewChecks(h, today)
	var pets []*household.Pet
	for i := range h.Pets {
		pet := &h.Pets[i]
		record, ok := inUse[pet.Name]
		switch {
		case !ok:
			fmt.Fprintf(p.env.stderr, "note: %s has no plan and is left out of the batch\n", pet.Name)
		case !record.Plan.Pet.Status.Printable():
			fmt.Fprintf(p.env.stderr, "note: the plan of %s holds no amounts that may be fed; it is left out of the batch\n", pet.Name)
		default:
			pets = append(pets, pet)
			for _, reason := range household.OutOfDate(checks.Pet(pet, record.Plan)) {
				outOfDate = append(outOfDate, pet.Name+": "+reason.Message+".")
			}
		}
	}
	if len(pets) == 0 {
		return nil, nil, badInput("no pet has a plan, so the amount to cook is unknown", "make the plans with", "plan")
	}
	pairs, _, err = pairsInUse(p, h, pets)
	return pairs, outOfDate, err
}

// with fills in what the batch holds.
func (out cookJSON) with(h *household.Household, b *supplies.BatchSheet) cookJSON {
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
