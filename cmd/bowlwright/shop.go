package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bowlwright/cmd/bowlwright/internal/sheet"
	"bowlwright/household/diag"
	"bowlwright/household/supplies"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"

	"github.com/urfave/cli/v2"
)

// shopDays is how many days are bought for where nothing is said.
const shopDays = 7

func shopCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "shop", Usage: "everything to buy for some days, less what is in the cupboard", ArgsUsage: "[PET…]",
		Description: "One list over the base with its batches, treats, add-ons, premixes and jars of the\n" +
			"plans in use. Beside an ingredient or an add-on, have = \"300 g\" says what is in the\n" +
			"cupboard and pack = \"500 g\" how it is sold; waste is counted, eggs come by number.",
		Flags: []cli.Flag{
			&cli.IntFlag{Name: "days", Value: shopDays, Usage: "buy for `N` days"},
			&cli.StringFlag{Name: "format", Value: "text", Usage: "text or csv"},
			&cli.BoolFlag{Name: "comma", Usage: "write numbers with a decimal comma"},
		},
		Action: func(c *cli.Context) error {
			return shopOptions{pets: c.Args().Slice(), days: c.Int("days"), format: c.String("format"), comma: c.Bool("comma")}.run(p)
		},
	}
}

// shopOptions are what `shop` takes.
type shopOptions struct {
	pets   []string
	days   int
	format string
	comma  bool
}

type shopJSON struct {
	Format string         `json:"format"`
	Days   int            `json:"days"`
	Items  []shopItemJSON `json:"items"`
	// Total is the sum of the prices known; Unpriced names what has none.
	Total    float64  `json:"total"`
	Unpriced []string `json:"unpriced"`
}

type shopItemJSON struct {
	Food   string   `json:"food"`
	Name   string   `json:"name"`
	Kind   string   `json:"kind"`
	G      float64  `json:"g"`
	HaveG  float64  `json:"have_g"`
	BuyG   float64  `json:"buy_g"`
	Packs  int      `json:"packs,omitempty"`
	Pieces int      `json:"pieces,omitempty"`
	Price  *float64 `json:"price"`
}

func (o shopOptions) run(p *program) error {
	if o.days < 1 || o.days > maxCookDays {
		return badInput(fmt.Sprintf("--days %d is out of range", o.days), fmt.Sprintf("type a number from 1 to %d", maxCookDays))
	}
	if o.format != "text" && o.format != "csv" {
		return badInput(fmt.Sprintf("--format %q is not known", o.format), "type --format text or --format csv")
	}
	h, _, err := p.load()
	if err != nil {
		return err
	}
	pets, err := petsNamed(h, o.pets)
	if err != nil {
		return err
	}
	pairs, _, err := pairsInUse(p, h, pets)
	if err != nil {
		return err
	}
	out := shopJSON{Format: "bowlwright/shop/1", Days: o.days, Items: []shopItemJSON{}, Unpriced: []string{}}
	for _, x := range supplies.Shopping(h, pairs, o.days) {
		item := shopItemJSON{Food: x.Food.ID, Name: x.Food.Name, Kind: x.Food.Group, G: x.NeedG, HaveG: x.Stock.HaveG, BuyG: x.BuyG, Packs: x.Packs, Pieces: x.Pieces}
		switch {
		case x.Price > 0:
			item.Price = &x.Price
			out.Total += x.Price
		case x.BuyG > 0:
			out.Unpriced = append(out.Unpriced, x.Food.Name)
		}
		out.Items = append(out.Items, item)
	}
	switch {
	case p.json:
		return p.printJSON(out)
	case o.format == "csv":
		_, err := p.verbatim.Write(sheet.CSV(out.rows(), o.comma))
		return err
	}
	out.print(p)
	return nil
}

// rows are the list as a table.
func (s *shopJSON) rows() [][]string {
	rows := [][]string{{"food", "name", "kind", "needed_g", "have_g", "buy_g", "packs", "pieces", "price"}}
	count := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	for _, i := range s.Items {
		price := ""
		if i.Price != nil {
			price = sheet.Cell(hundredths(*i.Price))
		}
		rows = append(rows, []string{i.Food, i.Name, i.Kind, sheet.Cell(hundredths(i.G)), sheet.Cell(i.HaveG), sheet.Cell(hundredths(i.BuyG)), count(i.Packs), count(i.Pieces), price})
	}
	return rows
}

func (s *shopJSON) print(p *program) {
	w := p.env.stdout
	kind, there := "", []string{}
	fmt.Fprintf(w, "To buy for %d days\n", s.Days)
	for _, i := range s.Items {
		if i.BuyG == 0 {
			there = append(there, i.Name)
			continue
		}
		if i.Kind != kind {
			kind = i.Kind
			fmt.Fprintf(w, "\n%s\n", nutrients.Capital(kindWords(kind)))
		}
		price := ""
		if i.Price != nil {
			price = fmt.Sprintf("  %.2f", *i.Price)
		}
		fmt.Fprintf(w, "  %s%s%s\n", padded(i.amount(), 22), i.Name, price)
	}
	if len(there) > 0 {
		fmt.Fprintf(w, "\nThere is enough of %s.\n", strings.Join(there, ", "))
	}
	if s.Total > 0 {
		fmt.Fprintf(w, "\nTotal %.2f", s.Total)
		if len(s.Unpriced) > 0 {
			fmt.Fprintf(w, ", without %s", diag.JoinSome(s.Unpriced))
		}
		fmt.Fprintln(w)
	}
}

// amount is what to buy, the way a shop sells it.
func (i *shopItemJSON) amount() string {
	weight := number.Decimals(i.BuyG, 0) + " g"
	if i.BuyG >= 1000 {
		weight = number.Decimals(i.BuyG/1000, 2) + " kg"
	}
	switch {
	case i.Pieces > 0:
		return strconv.Itoa(i.Pieces)
	case i.Packs == 1:
		return "1 pack of " + weight
	case i.Packs > 1:
		return fmt.Sprintf("%d packs (%s)", i.Packs, weight)
	}
	return weight
}

// kindWords names a group of the catalogue on a shopping list.
func kindWords(group string) string {
	switch group {
	case "supplement":
		return "powders and supplements"
	case "fat-oil":
		return "fats and oils"
	case "seed-nut":
		return "seeds and nuts"
	case "starch-root":
		return "roots"
	}
	return group
}

func padded(s string, width int) string {
	return s + strings.Repeat(" ", max(2, width-len(s)))
}

// hundredths rounds a price or a weight for a table.
func hundredths(x float64) float64 { return math.Round(100*x) / 100 }
