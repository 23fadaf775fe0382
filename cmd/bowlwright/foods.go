package main

import (
	"errors"
	"fmt"
	"strings"

	"bowlwright/cmd/bowlwright/internal/ask"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
	"bowlwright/nutrients"
	"bowlwright/nutrients/number"

	"github.com/urfave/cli/v2"
)

func foodsCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "foods", Usage: "find, show and import foods and their figures",
		Subcommands: []*cli.Command{
			{Name: "find", Usage: "list foods whose id, name or group contains every word", ArgsUsage: "WORDS", Action: func(c *cli.Context) error {
				return foodsFindOptions{words: c.Args().Slice()}.run(p)
			}},
			{Name: "show", Usage: "show show one food with every figure and its source", ArgsUsage: "ID", Action: func(c *cli.Context) error {
				return foodsShowOptions{id: c.Args().First()}.run(p)
			}},
			foodsImportCommand(p),
		},
		Action: func(c *cli.Context) error {
			if c.NArg() > 0 {
				return unknownCommand(c.Command, c.Command.Subcommands, c.Args().First())
			}
			return badInput("foods takes find, show or import", "for example", "foods", "find", "turkey", "thigh")
		},
	}
}

// catalogue is the household's where there is one, else the embedded one. A faulty
// household does not stand in the way of the id that would mend it.
func (p *program) catalogue() (*nutrients.Catalogue, error) {
	if _, ok := reading.FindDir(p.env.workDir); !ok && p.householdDir == "" {
		return nutrients.Default(), nil
	}
	h, _, err := p.load()
	var faults *diagnosticsError
	if errors.As(err, &faults) {
		fmt.Fprintf(p.env.stderr, "note: errors in your files: your own foods were left out\nhint: %s\n", p.hint(diag.Command("list the faults with", "check")))
		return nutrients.Default(), nil
	}
	if err != nil {
		return nil, err
	}
	return h.Catalogue, nil
}

type foodLineJSON struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Group string `json:"group"`
	State string `json:"state"`
}

// foodsFindOptions are the words to look for.
type foodsFindOptions struct {
	words []string
}

func (o foodsFindOptions) run(p *program) error {
	if strings.TrimSpace(strings.Join(o.words, "")) == "" {
		return badInput("foods find takes words to look for", "for example", "foods", "find", "turkey", "thigh")
	}
	cat, err := p.catalogue()
	if err != nil {
		return err
	}
	var words []string
	for _, a := range o.words {
		words = append(words, strings.Fields(a)...)
	}
	found := cat.Find(words...)
	lines := []foodLineJSON{}
	for _, f := range found {
		lines = append(lines, foodLineJSON{f.ID, f.Name, f.Group, f.State})
	}
	if p.json {
		return p.printJSON(map[string]any{"format": "bowlwright/foods/1", "foods": lines})
	}
	if len(lines) == 0 {
		return ask.NothingFound(cat, words)
	}
	for _, l := range lines {
		fmt.Fprintf(p.env.stdout, "%-42s %s\n", l.ID, l.Name)
	}
	return nil
}

// foodJSON is the contract of `foods show ID --json`.
type foodJSON struct {
	Format    string                 `json:"format"`
	ID        string                 `json:"id"`
	Name      string                 `json:"name"`
	Group     string                 `json:"group"`
	State     string                 `json:"state"`
	Source    string                 `json:"source"`
	Recalled  bool                   `json:"recalled"`
	Per100g   map[string]*float64    `json:"per_100g"`
	High      map[string]float64     `json:"per_100g_high,omitempty"`
	PerUnit   map[string]*float64    `json:"per_unit,omitempty"`
	Unit      string                 `json:"unit,omitempty"`
	Units     map[string]string      `json:"units"`
	Measures  []measureJSON          `json:"measures"`
	Refuse    float64                `json:"refuse"`
	Figures   map[string]figureNotes `json:"figure_sources,omitempty"`
	Cautions  []string               `json:"cautions"`
	KcalPerG  map[string]float64     `json:"energy_kcal_per_g"`
	VitaminAs map[string]*float64    `json:"vitamin_a_by_species"`
	// Kitchen is what a kitchen gives of it, left out where there is no such cap.
	Kitchen *kitchenJSON `json:"kitchen_cap,omitempty"`
}

type kitchenJSON struct {
	What         string  `json:"what"`
	GramsPerKg75 float64 `json:"g_per_kg75"`
	Instead      string  `json:"instead"`
	Source       string  `json:"source"`
	Recalled     bool    `json:"recalled"`
}

type measureJSON struct {
	Name  string  `json:"name"`
	Grams float64 `json:"grams"`
}

type figureNotes struct {
	Source   string `json:"source"`
	Recalled bool   `json:"recalled"`
	Note     string `json:"note,omitempty"`
}

// foodsShowOptions name the food.
type foodsShowOptions struct {
	id string
}

func (o foodsShowOptions) run(p *program) error {
	if o.id == "" {
		return badInput("foods show takes the id of a food", "find ids with", "foods", "find", "turkey")
	}
	if err := p.noMore(1); err != nil {
		return err
	}
	cat, err := p.catalogue()
	if err != nil {
		return err
	}
	id := o.id
	f, ok := cat.Food(id)
	if !ok {
		unknown := badInput(fmt.Sprintf("no food has the id %q", id), "find ids with", "foods", "find", "WORDS")
		if near, ok := cat.Nearest(id); ok {
			unknown = badInput(unknown.message, fmt.Sprintf("did you mean %s? find others with", near), append([]string{"foods", "find"}, ask.NameWord.FindAllString(id, -1)...)...)
		}
		return unknown
	}
	if p.json {
		return p.printJSON(foodObject(f))
	}
	printFood(p, f)
	return nil
}

// shownIDs are the stored nutrients and those sums that are the same for every
// species.
func shownIDs() []nutrients.ID {
	var ids []nutrients.ID
	for id := nutrients.ID(0); id < nutrients.Count; id++ {
		if !id.Derived() {
			ids = append(ids, id)
		}
	}
	return append(ids, nutrients.MethionineCystine, nutrients.PhenylalanineTyrosine, nutrients.EPADHA, nutrients.VitaminK)
}

func numbers(profile *nutrients.Profile) (low map[string]*float64, high map[string]float64) {
	low, high = map[string]*float64{}, map[string]float64{}
	full := profile.For(nutrients.Cat)
	// Vitamin A stands here as every species can use it, preformed; what dogs make
	// of carotene is in vitamin_a_by_species.
	for _, id := range append(shownIDs(), nutrients.VitaminA) {
		low[id.String()] = nil
		if f := full[id]; f.IsKnown() {
			low[id.String()] = &f.Lo
			if f.Hi != f.Lo {
				high[id.String()] = f.Hi
			}
		}
	}
	return low, high
}

func foodObject(f *nutrients.Food) foodJSON {
	out := foodJSON{Format: "bowlwright/food/1", ID: f.ID, Name: f.Name, Group: f.Group, State: f.State,
		Source: f.Source.Text, Recalled: f.Source.Recalled, Units: map[string]string{}, Measures: []measureJSON{},
		Refuse: f.Refuse, Figures: map[string]figureNotes{}, Cautions: append([]string{}, f.Cautions...),
		KcalPerG: map[string]float64{}, VitaminAs: map[string]*float64{}, Unit: f.UnitName}
	out.Per100g, out.High = numbers(&f.Per100g)
	if f.PerUnit != nil {
		out.PerUnit, _ = numbers(f.PerUnit)
	}
	for _, id := range append(shownIDs(), nutrients.VitaminA) {
		out.Units[id.String()] = string(id.Info().Unit)
	}
	for id, s := range f.Figures {
		s = f.SourceOf(id)
		out.Figures[id.String()] = figureNotes{s.Text, s.Recalled, s.Note}
	}
	for _, m := range f.Measures {
		out.Measures = append(out.Measures, measureJSON{m.Name, m.Grams})
	}
	if c, ok := nutrients.KitchenCapOf(f); ok {
		out.Kitchen = &kitchenJSON{c.What, c.GramsPerKg75, c.Instead, c.Source.Text, c.Source.Recalled}
	}
	for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
		full := f.Per100g.For(sp)
		out.KcalPerG[string(sp)] = full[nutrients.Energy].Lo / 100
		out.VitaminAs[string(sp)] = nil
		if a := full[nutrients.VitaminA]; a.IsKnown() {
			out.VitaminAs[string(sp)] = &a.Lo
		}
	}
	return out
}

func printFood(p *program, f *nutrients.Food) {
	w := p.env.stdout
	fmt.Fprintf(w, "%s\n%s (%s, %s)\nsource: %s%s\n", f.ID, f.Name, f.Group, f.State, f.Source.Text, recalledMark(f.Source.Recalled))
	profile, per := &f.Per100g, "per 100 g"
	if f.PerUnit != nil {
		profile, per = f.PerUnit, "per "+f.UnitName
	}
	fmt.Fprintf(w, "\n%s\n", per)
	full := profile.For(nutrients.Dog)
	for _, id := range shownIDs() {
		info, x := id.Info(), full[id]
		amount := "unknown"
		switch {
		case x.IsKnown() && x.Coverage < 1 && !id.Derived():
			amount = fmt.Sprintf("at least %s %s", figure(x.Lo), shownUnit(string(info.Unit)))
		case x.IsKnown() && x.Lo != x.Hi:
			amount = fmt.Sprintf("%s to %s %s", figure(x.Lo), figure(x.Hi), shownUnit(string(info.Unit)))
		case x.IsKnown():
			amount = fmt.Sprintf("%s %s", figure(x.Lo), shownUnit(string(info.Unit)))
		}
		if s, ok := nutrients.SpreadOf(f, id); ok {
			amount += fmt.Sprintf(" (%d samples, standard deviation %s)", s.N, figure(s.SD))
		}
		fmt.Fprintf(w, "  %-28s %s", info.Name, amount)
		if s, own := f.Figures[id]; own {
			if s.Text != "" && s.Text != f.Source.Text {
				fmt.Fprintf(w, "  [%s%s]", s.Text, recalledMark(s.Recalled))
			}
			if s.Note != "" {
				fmt.Fprintf(w, "\n  %-28s   %s", "", s.Note)
			}
		}
		fmt.Fprintln(w)
	}
	if f.Rest.Grams > 0 {
		fmt.Fprintf(w, "  %-28s %s g, no nutrient\n", nutrients.Capital(f.Rest.What), figure(f.Rest.Grams))
	}
	printFoodEnergy(p, profile)
	if f.Refuse > 0 {
		fmt.Fprintf(w, "\nwaste: %.0f %% of what is bought\n", 100*f.Refuse)
	}
	for _, m := range f.Measures {
		fmt.Fprintf(w, "%g g = %s\n", m.Grams, m.Name)
	}
	if c, ok := nutrients.KitchenCapOf(f); ok {
		fmt.Fprintf(w, "A kitchen gives at most %g g per kg^0.75 and day (%s) [%s%s]; max on the shelf says otherwise. In place of more: %s\n",
			c.GramsPerKg75, c.What, c.Source.Text, recalledMark(c.Source.Recalled), c.Instead)
	}
	if f.Dilution != nil {
		fmt.Fprintf(w, "Made at home: %s\n", strings.Join(f.Dilution.Recipe(f), " "))
	}
	for _, s := range f.Cautions {
		fmt.Fprintf(w, "Caution: %s\n", s)
	}
	for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
		for _, h := range nutrients.Hazards(f, sp) {
			kind := "Warning"
			if h.Blocked {
				kind = "Refused"
			}
			fmt.Fprintf(w, "%s for a %s: %s [%s%s]\n", kind, sp, h.Text, h.Source.Text, recalledMark(h.Source.Recalled))
		}
	}
}

// figure writes a figure of the catalogue with up to five digits and no exponent.
func figure(x float64) string { return number.Digits(x, 5) }

// printFoodEnergy shows the energy by each method and species.
func printFoodEnergy(p *program, profile *nutrients.Profile) {
	for _, sp := range []nutrients.Species{nutrients.Dog, nutrients.Cat} {
		for _, e := range profile.EnergyOfFood(sp) {
			use := ""
			if e.InUse {
				use = ", used for plans"
			}
			fmt.Fprintf(p.env.stdout, "energy for a %s: %.0f kcal by %s%s [%s%s]\n", sp, e.Kcal, e.Method, use, e.Source.Text, recalledMark(e.Source.Recalled))
		}
	}
}
