package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/cmd/bowlwright/internal/shell"
	"bowlwright/fixtures"
	"bowlwright/household"
	"bowlwright/household/reading"
	"bowlwright/household/records"
	"bowlwright/household/safefile"
	"bowlwright/household/supplies"
	"bowlwright/household/upkeep"
	"bowlwright/report"
	"bowlwright/report/paper"

	"github.com/urfave/cli/v2"
)

func demoCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "demo", Usage: "write the example household, plan, check and print it: everything once, offline", ArgsUsage: "[DIR]",
		Action: func(c *cli.Context) error {
			return demoOptions{dir: c.Args().First()}.run(p)
		},
	}
}

// demoOptions are what `demo` takes.
type demoOptions struct {
	// dir is where the example goes, empty for the usual name.
	dir string
}

func (o demoOptions) run(p *program) error {
	if err := p.noMore(1); err != nil {
		return err
	}
	dir := o.dir
	if dir == "" {
		dir = fixtures.DemoName
	}
	dir = p.absolute(dir)
	today, err := p.today()
	if err != nil {
		return err
	}
	if err := freeForDemo(dir); err != nil {
		return err
	}
	// Everything is made elsewhere and put in place as one set, so that a run that
	// dies leaves nothing which the next one would take for a household.
	temp, err := os.MkdirTemp("", "bowlwright")
	if err != nil {
		return asCannotWrite(dir, err)
	}
	defer os.RemoveAll(temp)
	made := filepath.Join(temp, fixtures.DemoName)
	if err := fixtures.WriteDemo(made, today.Time()); err != nil {
		return asCannotWrite(dir, err)
	}
	h, list, err := reading.Load(made, today)
	if err != nil {
		return err
	}
	if list.HasErrors() {
		return &diagnosticsError{list}
	}
	pets, err := petsNamed(h, nil)
	if err != nil {
		return err
	}
	solved, err := solveAll(h, pets, today, comparison{})
	if err == nil {
		err = solved.failed
	}
	if err != nil {
		return err
	}
	plans := solved.plans
	if err := recordPlans(p, h, plans); err != nil {
		return err
	}
	pairs, inUse, err := pairsInUse(p, h, pets)
	if err != nil {
		return err
	}
	files, err := cardFiles(pairs, []string{"pdf", "html", "text", "vet"}, paper.Options{Paper: "a4", Setting: report.Setting{Day: today, Weights: h.Weights}})
	if err != nil {
		return err
	}
	cards := filepath.Join(dir, "cards")
	batch, err := supplies.NewBatchSheet(h.Base, pairs, supplies.BatchOrder{Date: today})
	if err != nil {
		return err
	}
	papers, err := sheetFiles(h, batch, sheetOrder{formats: []string{"pdf", "labels"}, labels: paper.DefaultLabels, jars: true, paper: paper.Options{Paper: "a4"}})
	if err != nil {
		return err
	}
	if mixes := household.MixSheets(pairs); len(mixes) > 0 {
		var b bytes.Buffer
		if err := paper.Mix(&b, mixes, paper.Options{Paper: "a4"}); err != nil {
			return err
		}
		papers = append(papers, file{"mixing.pdf", b.Bytes()})
	}
	sheets := filepath.Join(dir, "sheets")
	all, err := filesBelow(made)
	if err != nil {
		return err
	}
	for folder, printed := range map[string][]file{"cards": files, "sheets": papers} {
		for _, f := range printed {
			all = append(all, file{folder + "/" + f.name, f.data})
		}
	}
	if err := writeFiles(dir, homeLast(all)); err != nil {
		return err
	}
	findings := upkeep.Check(h, records.PlansOf(inUse), today)
	findings = append(findings, deepFindings(h, inUse, false)...)
	if p.json {
		if err := printPlans(p, solved, today); err != nil {
			return err
		}
		return notMet(plans)
	}
	p.say("%s: %d pets, one base: %s (%s)\n\n", h.Name, len(h.Pets), h.Base.Name, h.Base.Identity().Code)
	for _, plan := range plans {
		p.say("%s\n", planLine(plan))
	}
	p.say("\n")
	printFindings(p, h, findings)
	p.say("\nOpen these:\n")
	open := [][2]string{
		{filepath.Join(cards, "cards.pdf"), "the daily cards, with all nutrients on their backs"},
		{filepath.Join(cards, "index.html"), "the same for a browser or a phone"},
		{filepath.Join(sheets, papers[0].name), "what goes into the pot, what to buy"},
		{filepath.Join(sheets, "mixing.pdf"), "the premixes: what to weigh out, in which order"},
		{filepath.Join(dir, householdFile), "animals, kitchen, shelf: yours to edit"},
	}
	widest := 0
	for _, f := range open {
		widest = max(widest, len(p.shortPath(f[0])))
	}
	for _, f := range open {
		p.say("  %-*s  %s\n", widest, p.shortPath(f[0]), f[1])
	}
	p.say("\nNext: cd %s\nthen: bowlwright weigh Pip \"4.5 kg\", bowlwright check, bowlwright plan\n", shell.Quote(p.shortPath(dir)))
	if err := checkError(p, h, inUse, findings); err != nil {
		return err
	}
	return notMet(plans)
}

// freeForDemo refuses a folder that holds something, after clearing away what a run
// that died left there.
func freeForDemo(dir string) error {
	if err := safefile.Sweep(dir); err != nil {
		return err
	}
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return asCannotWrite(dir, err)
	}
	if len(entries) > 0 {
		return &fixtures.NotEmptyError{Dir: dir}
	}
	return nil
}

// filesBelow reads all files of a folder that this run made, without its locks.
func filesBelow(root string) ([]file, error) {
	var files []file
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(d.Name(), ".lock") {
			return err
		}
		name, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		data, err := os.ReadFile(path)
		files = append(files, file{filepath.ToSlash(name), data})
		return err
	})
	return files, err
}

// homeLast puts household.toml at the end: a folder is a household when all else is
// there.
func homeLast(files []file) []file {
	slices.SortFunc(files, func(a, b file) int {
		if home := a.name == householdFile; home != (b.name == householdFile) {
			if home {
				return 1
			}
			return -1
		}
		return strings.Compare(a.name, b.name)
	})
	return files
}

// planLine is one plan in one line.
func planLine(plan *household.Plan) string {
	pet := &plan.Pet
	return fmt.Sprintf("%-8s %-4s %6.2f kg  %5.0f kcal  %-5s base %g g + add-on %.4g g (%d items)",
		pet.Pet, pet.Species, pet.WeightKg, pet.EnergyKcal, pet.Status, pet.BaseG, addonGrams(plan), len(pet.Addons))
}

// asCannotWrite keeps the error of a folder that is not empty and names the folder
// in every other.
func asCannotWrite(dir string, err error) error {
	var full *fixtures.NotEmptyError
	if errors.As(err, &full) {
		return err
	}
	return &safefile.CannotWriteError{Path: dir, Err: withoutOp(err)}
}
