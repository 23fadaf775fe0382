package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/reading"
	"bowlwright/household/safefile"
	"bowlwright/household/visible"
	"bowlwright/nutrients"
	"bowlwright/nutrients/fdc"

	"github.com/urfave/cli/v2"
)

func foodsImportCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "import", Usage: "import foods from a table or a download into foods/", ArgsUsage: "FILE|FOLDER",
		Description: "FILE is a table with one food a line (columns name, protein_g, \"vitamin-d (IU)\", …) or\na FoodData Central download in JSON; FOLDER is such a download in CSV. What is empty\nor not understood is unknown, never zero. No file that is there is changed.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "only", Usage: "take only foods whose name or id holds all these `WORDS`"},
			&cli.BoolFlag{Name: "dry-run", Usage: "write nothing, say what would be written"},
		},
		Action: func(c *cli.Context) error {
			return foodsImportOptions{path: c.Args().First(), only: c.String("only"), dryRun: c.Bool("dry-run")}.run(p)
		},
	}
}

// mostImported keeps foods/ a folder that a person can read; the household's reader
// has a bound of its own.
const mostImported = 500

type importJSON struct {
	Format  string         `json:"format"`
	Written []string       `json:"written"`
	There   []string       `json:"already_there"`
	Refused []refusedFood  `json:"refused"`
	Skipped map[string]int `json:"skipped"`
	Unused  []fdc.Unused   `json:"unused"`
}

type refusedFood struct {
	ID     string `json:"id"`
	Reason string `json:"reason"`
}

// foodsImportOptions are what `foods import` takes.
type foodsImportOptions struct {
	path string
	// only are words that a food must hold.
	only   string
	dryRun bool
}

func (o foodsImportOptions) run(p *program) error {
	if o.path == "" {
		return badInput("foods import takes a file", "for example", "foods", "import", "label.csv")
	}
	if err := p.noMore(1); err != nil {
		return err
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	read, err := readFoods(p.absolute(o.path))
	if err != nil {
		return err
	}
	for _, f := range read.Foods {
		f.Name, f.Source.Text = visible.Strip(f.Name), visible.Strip(f.Source.Text)
	}
	foods := slices.DeleteFunc(read.Foods, func(f *nutrients.Food) bool { return !holdsAll(f, o.only) })
	if len(foods) == 0 {
		return badInput(fmt.Sprintf("%s holds no food that can be used", o.path), "which tables can be read", "foods", "import", "--help")
	}
	if len(foods) > mostImported {
		return badInput(fmt.Sprintf("%s holds %d foods, which is more than %d", o.path, len(foods), mostImported), "choose some with --only WORDS, for example --only \"turkey thigh\"")
	}
	out := importJSON{Format: "bowlwright/foods-import/1", Written: []string{}, There: []string{}, Refused: []refusedFood{}, Skipped: read.Skipped, Unused: append([]fdc.Unused{}, read.Unused...)}
	fresh, err := newFoods(h, foods, today, &out)
	if err != nil {
		return err
	}
	if !o.dryRun && len(fresh) > 0 {
		if _, err := p.records(h.Dir, "foods import").ImportFoods(h, fresh); err != nil {
			return err
		}
	}
	if p.json {
		return p.printJSON(out)
	}
	printImport(p, o.dryRun, out)
	return nil
}

// largestFoods bounds a table with one food a line; downloads are larger and read as
// they come.
const largestFoods = 16 << 20

// readFoods reads a file or a folder by what it is.
func readFoods(path string) (fdc.Result, error) {
	info, err := os.Stat(path)
	if err != nil {
		return fdc.Result{}, badInput(fmt.Sprintf("cannot read %s: %v", path, errors.Unwrap(err)), "name a table, a JSON download or the folder of a CSV download")
	}
	if info.IsDir() {
		return readDownload(path)
	}
	f, info, err := safefile.Open(path)
	if err != nil {
		return fdc.Result{}, badInput(fmt.Sprintf("cannot read %s: %v", path, withoutOp(err)), "name a table, a JSON download or the folder of a CSV download")
	}
	defer f.Close()
	read := fdc.ReadPlain
	if strings.EqualFold(filepath.Ext(path), ".json") {
		read = fdc.ReadJSON
	} else if info.Size() > largestFoods {
		return fdc.Result{}, badInput(fmt.Sprintf("%s is larger than a table of foods can be (%d MB)", path, largestFoods>>20), "cut the table into parts")
	}
	result, err := read(f)
	if err != nil {
		return result, badInput(fmt.Sprintf("cannot use %s: %v", filepath.Base(path), err), "which tables can be read", "foods", "import", "--help")
	}
	return result, nil
}

// readDownload reads the tables of a download in CSV.
func readDownload(dir string) (fdc.Result, error) {
	var in fdc.Files
	for name, at := range map[string]*io.Reader{"food.csv": &in.Food, "nutrient.csv": &in.Nutrient, "food_nutrient.csv": &in.FoodNutrient,
		"food_category.csv": &in.Category, "food_portion.csv": &in.Portion, "measure_unit.csv": &in.MeasureUnit,
		"food_nutrient_derivation.csv": &in.Derivation} {
		f, _, err := safefile.Open(filepath.Join(dir, name))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return fdc.Result{}, badInput(fmt.Sprintf("cannot read %s: %v", filepath.Join(dir, name), withoutOp(err)), "unpack the download again")
		}
		defer f.Close()
		*at = f
	}
	if in.Food == nil || in.Nutrient == nil || in.FoodNutrient == nil {
		return fdc.Result{}, badInput(fmt.Sprintf("%s does not hold food.csv, nutrient.csv and food_nutrient.csv", dir), "unpack the download and name its folder")
	}
	result, err := fdc.ReadCSV(in)
	if err != nil {
		return result, badInput(fmt.Sprintf("cannot use %s: %v", dir, err), "unpack the download again")
	}
	return result, nil
}

func holdsAll(f *nutrients.Food, words string) bool {
	text := strings.ToLower(f.Name + " " + f.ID)
	for _, w := range strings.Fields(strings.ToLower(words)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// newFoods returns the foods that the household does not have and its own reader
// accepts; out tells of the others.
func newFoods(h *household.Household, foods []*nutrients.Food, today household.Date, out *importJSON) ([]*nutrients.Food, error) {
	var fresh []*nutrients.Food
	for _, f := range foods {
		_, known := h.Catalogue.Food(f.ID)
		if _, err := os.Lstat(filepath.Join(h.Dir, "foods", f.ID+".toml")); err == nil || known {
			out.There = append(out.There, f.ID)
			continue
		}
		fresh = append(fresh, f)
	}
	faults, err := tryFoods(fresh, today)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(fresh, func(f *nutrients.Food) bool {
		if reason, bad := faults["foods/"+f.ID+".toml"]; bad {
			out.Refused = append(out.Refused, refusedFood{f.ID, reason})
			return true
		}
		out.Written = append(out.Written, f.ID)
		return false
	}), nil
}

// tryFoods reads the files as part of a household that is made for it and returns
// the first fault of each.
func tryFoods(foods []*nutrients.Food, today household.Date) (map[string]string, error) {
	dir, err := os.MkdirTemp("", "bowlwright")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if err := os.Mkdir(filepath.Join(dir, "foods"), 0o755); err != nil {
		return nil, err
	}
	for _, f := range foods {
		if err := os.WriteFile(filepath.Join(dir, "foods", f.ID+".toml"), []byte(foodfile.TOML(f)), 0o644); err != nil {
			return nil, &safefile.CannotWriteError{Path: dir, Err: err}
		}
	}
	_, list, err := reading.Load(dir, today)
	if err != nil {
		return nil, err
	}
	faults := map[string]string{}
	for _, d := range list {
		at := filepath.ToSlash(d.At.File)
		if _, known := faults[at]; !known && d.Severity == diag.Error {
			faults[at] = d.Summary
		}
	}
	return faults, nil
}

// unusedShown bounds the list of what was not taken over.
const unusedShown = 12

func printImport(p *program, dryRun bool, out importJSON) {
	verb := "Wrote"
	if dryRun {
		verb = "Would write"
	}
	for _, id := range out.Written {
		p.say("%s foods/%s.toml\n", verb, id)
	}
	for _, id := range out.There {
		p.say("%s is there already and was left unchanged\n", id)
	}
	for _, r := range out.Refused {
		fmt.Fprintf(p.env.stderr, "warning: %s is left out: %s\n", r.ID, r.Reason)
	}
	for kind, n := range out.Skipped {
		p.say("Left out: %d of kind %s\n", n, kind)
	}
	for i, u := range out.Unused {
		if i == unusedShown {
			p.say("Not imported: %d more, see --json\n", len(out.Unused)-i)
			break
		}
		times := ""
		if u.Count > 1 {
			times = fmt.Sprintf(", %d times", u.Count)
		}
		p.say("Not imported: %s%s: %s\n", u.What, times, u.Reason)
	}
	if len(out.Written) > 0 {
		p.say("See one with: %s\n", p.command("foods", "show", out.Written[0]))
	}
}
