package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// topic is a page of `help` that is about no single command.
type topic struct{ name, about, text string }

// topics are the pages of `help` and the sections of the manual page.
func topics() []topic {
	return []topic{
		{"files", "what a household's folder holds and which words its files know", filesTopic},
		{"units", "how amounts are written", unitsTopic},
		{"base-code", "what the code on a container stands for", codeTopic},
		{"standards", "where the limits come from", standardsTopic()},
		{"veterinarian", "when this program is not enough", veterinarianTopic},
		{"body-condition", "the nine points, and the ideal weight", conditionTopic},
		{"labels", "sheets of labels by their dimensions", labelsTopic},
		{"exit-codes", "what the program tells a script", strings.Join(exitMeanings, "\n") + "\n\nA command that fails leaves the household's folder as it was. With --json the\nstandard output is one object or nothing; what is wrong stands on the error\noutput, and the exit code says the same.\n"},
	}
}

const filesTopic = `household.toml   written by you
  name, base (a file of bases/), standard
  [kitchen]     meals, scale, fine_scale, premix_days, energy_slack,
                addon_energy, weight_moved
  [[pet]]       name, species, born, sex, neutered, weight, ideal_weight,
                adult_weight, condition, activity, stage, week, litter,
                standard, energy, avoid, prefer
  [[pet.extra]] food, amount: always given, counted before all else
  [[addon]]     food, step, unit, unit_grams, max, price, pets: on the shelf

bases/*.toml     written by you: one cooked batch a file
  name, yield or loss, days, liquid: "kept" or "poured" off after cooking
  [[ingredient]] food or batch, amount, method, price

foods/*.toml     written by you or by bowlwright foods import: foods of your own
  id, name, group, state, per, unit_grams, energy, source, powder, carrier,
  caution, fiber_apart
  [figures]     a line for each nutrient that is known; no line is unknown
  [[compound]]  food, amount: what a label gives as a compound

weights.csv      date,pet,kg,note: bowlwright weigh adds a line, none is
                 ever changed
records/         written by the program: every plan with the base as it was, and
                 what was cooked. An edited record is noticed and not used.

The program never rewrites a file of yours. A fault in a file is shown with its
line and what to type instead; nothing is worked out from a file that has one.
`

const unitsTopic = `An amount is a number with a decimal point, and a unit: "24.6 kg", "54 lb".

  weights      kg, g, mg, lb, oz
  energy       kcal, kJ
  shares       %
  volumes      tsp, tbsp, cup, ml: only for foods whose weight per measure is
               published, never for powders of minerals or vitamins, which must
               be weighed
  caps         "2 g", or "0.3 g per kg" of body weight
  prices       "7.90 per kg", "4.20 per 100 g", in your own money

A decimal comma is refused, so that "1,500 g" is never read two ways.
On screen each nutrient has one unit of its own: g, mg or µg.
`

const codeTopic = `Every base has a code such as K7Q-2MX-K: six symbols from what was cooked, and
a seventh that catches a slip of the hand.

  It changes with    an ingredient, its share of the raw weight, its cooking
                     method, whether the liquid is kept, the yield, a batch
                     within the batch
  It stays with      the size of the batch, the order of the ingredients,
                     names, comments, prices, units

The code stands on containers, batch sheets, cards and records. When the code
on the container is not the code on the card, do not feed them together. Ask
with
  bowlwright check-code K7Q-2MX-K
The letters I, L, O and U are never used; o is read as 0, i and l as 1.
`

func standardsTopic() string {
	var b strings.Builder
	about := map[nutrients.StandardID]string{
		nutrients.NRC2006:    "National Research Council, Nutrient Requirements of Dogs\n              and Cats, 2006",
		nutrients.FEDIAF2021: "FEDIAF, Nutritional Guidelines for Complete and Complementary\n              Pet Food, 2021",
		nutrients.AAFCO2016:  "AAFCO, Dog and Cat Food Nutrient Profiles, 2016",
	}
	for _, id := range nutrients.Standards() {
		fmt.Fprintf(&b, "  %-11s %s\n", id, about[id])
	}
	return b.String() + `
Set one for the household, or one for a pet, with standard = "…". Lower limits
do not shrink when a pet gets less energy than is usual; upper limits go by
what it really eats and are never exceeded. Where a standard prints no upper
limit, no supplement or seaweed brings more than 5 times the lower limit of a
mineral, an amino acid or choline, and 20 times that of vitamin E, K or a B
vitamin. bowlwright targets PET shows every limit, its arithmetic and its
source. Figures that were recalled and not read in a copy of the standard are
marked: † in plans, (recalled) in targets.
`
}

func topicNamed(name string) (topic, bool) {
	for _, t := range topics() {
		if t.name == name {
			return t, true
		}
	}
	return topic{}, false
}

// manTopic is the word for the manual page: bowlwright help man > bowlwright.1
const manTopic = "man"

// helpCommand shows a topic. Help on a command goes through the command itself, see
// reorder.
func (p *program) helpCommand() *cli.Command {
	return &cli.Command{
		Name: "help", Usage: "help on a command or a topic: " + strings.Join(topicNames(), ", ") + "; man for the manual page", ArgsUsage: "[COMMAND|TOPIC]",
		Action: func(c *cli.Context) error {
			name := c.Args().First()
			if t, ok := topicNamed(name); ok {
				return p.showHelp(c, t.name, fmt.Sprintf("%s: %s\n\n%s", t.name, t.about, t.text))
			}
			if name == manTopic {
				return p.showHelp(c, name, manPage(c.App))
			}
			return cli.ShowAppHelp(c)
		},
	}
}

// showHelp prints a topic, as one object when that is asked for.
func (p *program) showHelp(c *cli.Context, topic, text string) error {
	if c.Bool("json") {
		return p.printJSON(map[string]string{"format": "bowlwright/help/1", "topic": topic, "text": text})
	}
	_, err := io.WriteString(p.env.stdout, text)
	return err
}

func topicNames() []string {
	var names []string
	for _, t := range topics() {
		names = append(names, t.name)
	}
	return names
}

// helpWords turns the words after `help` into the arguments that show it. A topic can
// be had as an object, too; the page of a command is for people.
func helpWords(app *cli.App, options, words []string) ([]string, error) {
	if len(words) == 0 {
		return []string{app.Name, "--help"}, nil
	}
	if _, ok := topicNamed(words[0]); len(words) == 1 && (ok || words[0] == manTopic) {
		args := []string{app.Name, "help"}
		if slices.Contains(options, "--json") {
			args = append(args, "--json")
		}
		return append(args, words[0]), nil
	}
	commands, path := app.Commands, []string{app.Name}
	for _, w := range words {
		c := findCommand(commands, w)
		if c == nil {
			known := topicNames()
			for _, c := range commands {
				known = append(known, c.Name)
			}
			unknown := badInput(fmt.Sprintf("there is no help on %q", w), "the topics are: "+strings.Join(topicNames(), ", "))
			if near, ok := diag.Nearest(w, known); ok {
				unknown = badInput(unknown.message, "did you mean", append(append([]string{"help"}, path[1:]...), near)...)
			}
			return nil, unknown
		}
		path, commands = append(path, c.Name), c.Subcommands
	}
	return append(path, "--help"), nil
}
