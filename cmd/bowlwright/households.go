package main

import (
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"

	"github.com/urfave/cli/v2"
)

func householdsCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "households", Usage: "a line for each household below a folder: pets, base, what is out of date, what is due", ArgsUsage: "DIR",
		Description: "Ends with the exit code of the household that needs attention most.",
		Flags:       []cli.Flag{&cli.IntFlag{Name: "days", Value: householdsAhead, Usage: "count what is due in the next `N` days"}},
		Action: func(c *cli.Context) error {
			return householdsOptions{dir: c.Args().First(), days: c.Int("days")}.run(p)
		},
	}
}

const (
	// householdsAhead is how many days ahead is due where nothing is said.
	householdsAhead = 7
	// householdsDepth is how deep below the folder households are looked for.
	householdsDepth = 4
)

// householdsOptions name the folder.
type householdsOptions struct {
	dir  string
	days int
}

type householdsJSON struct {
	Format     string              `json:"format"`
	Households []householdLineJSON `json:"households"`
}

// householdLineJSON is one household; what could not be read has only folder, exit code
// and error.
type householdLineJSON struct {
	Folder string `json:"folder"`
	Name   string `json:"name"`
	Pets   int    `json:"pets"`
	Base   string `json:"base"`
	// Due counts what is to be done in the days asked for; OutOfDate and Problems name
	// the pets.
	Due       int      `json:"due"`
	Next      string   `json:"next,omitempty"`
	OutOfDate []string `json:"out_of_date"`
	Problems  []string `json:"problems"`
	ExitCode  int      `json:"exit_code"`
	Error     string   `json:"error,omitempty"`
}

func (o householdsOptions) run(p *program) error {
	if o.dir == "" {
		return badInput("households takes a folder", "for example", "households", "clients")
	}
	if err := p.noMore(1); err != nil {
		return err
	}
	if o.days < 0 {
		return badInput(fmt.Sprintf("--days %d lies in the past", o.days), "type a number of days from 0 on")
	}
	if _, err := p.today(); err != nil {
		return err
	}
	root := p.absolute(o.dir)
	folders, err := householdFolders(root)
	if err != nil {
		return err
	}
	if len(folders) == 0 {
		return badInput(fmt.Sprintf("there is no household below %s", o.dir), "name a folder that holds households, each in a folder of its own")
	}
	out, codes := householdsJSON{Format: "bowlwright/households/1", Households: []householdLineJSON{}}, []int{}
	for _, folder := range folders {
		line := o.look(p, folder)
		if rel, err := filepath.Rel(root, folder); err == nil {
			line.Folder = filepath.ToSlash(rel)
		}
		out.Households, codes = append(out.Households, line), append(codes, line.ExitCode)
	}
	if p.json {
		if err := p.printJSON(out); err != nil {
			return err
		}
	} else {
		out.print(p)
	}
	if worst := heaviest(codes...); worst != diag.ExitDone {
		return &worstError{*badInput("not every household is in order", "look at one with", "check"), worst}
	}
	return nil
}

// worstError ends with the exit code of the household that needs attention most.
type worstError struct {
	inputError
	code int
}

func (e *worstError) ExitCode() int { return e.code }

// householdFolders finds the folders that hold a household.toml, in order; what lies
// inside a household is not looked at.
func householdFolders(root string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil && path == root:
			return badInput(fmt.Sprintf("the folder %s cannot be read", root), "check the name and the folder's permissions")
		case err != nil || !e.IsDir():
			return nil
		case path != root && strings.HasPrefix(e.Name(), "."):
			return filepath.SkipDir
		}
		if matches, _ := filepath.Glob(filepath.Join(globQuoted(path), householdFile)); len(matches) > 0 {
			found = append(found, path)
			return filepath.SkipDir
		}
		if rel, _ := filepath.Rel(root, path); strings.Count(filepath.ToSlash(rel), "/")+1 > householdsDepth {
			return filepath.SkipDir
		}
		return nil
	})
	return found, err
}

// look checks one household.
func (o householdsOptions) look(p *program, folder string) householdLineJSON {
	one := *p
	one.householdDir, one.quiet, one.env.stderr = folder, true, io.Discard
	line := householdLineJSON{OutOfDate: []string{}, Problems: []string{}}
	failed := func(err error) householdLineJSON {
		line.ExitCode, line.Error = exitCode(err), firstLine(err)
		return line
	}
	c, err := one.checked()
	if err != nil {
		return failed(err)
	}
	h := c.household
	line.Name, line.Pets, line.Base = h.Name, len(h.Pets), h.Base.Identity().Code
	for _, f := range c.findings {
		who := f.Pet
		if who == "" {
			who = "the records"
		}
		switch f.Severity {
		case household.Stale:
			line.OutOfDate = addName(line.OutOfDate, who)
		case household.Problem, household.Refusal:
			line.Problems = addName(line.Problems, who)
		}
	}
	cooked, _, err := c.store.LatestCooking(h.Base)
	if err != nil {
		return failed(err)
	}
	for _, item := range upkeep.Due(h, records.PlansOf(c.inUse), cooked, c.today) {
		if item.Date.DaysSince(c.today) > o.days {
			break
		}
		if line.Due++; line.Due == 1 {
			line.Next = fmt.Sprintf("%s: %s", item.Date, item.Message)
		}
	}
	if err := checkError(&one, h, c.inUse, c.findings); err != nil {
		line.ExitCode = exitCode(err)
	}
	return line
}

func addName(names []string, name string) []string {
	for _, n := range names {
		if n == name {
			return names
		}
	}
	return append(names, name)
}

// firstLine is what an error says, without its details.
func firstLine(err error) string {
	line, _, _ := strings.Cut(err.Error(), "\n")
	return line
}

func (out *householdsJSON) print(p *program) {
	w := p.env.stdout
	for _, l := range out.Households {
		if l.Error != "" {
			fmt.Fprintf(w, "%s: cannot be read: %s\n", l.Folder, l.Error)
			continue
		}
		fmt.Fprintf(w, "%s  %s, %s, base %s: %s\n", l.Folder, l.Name, numberOf(l.Pets, "pet"), l.Base, l.state())
		if l.Next != "" {
			fmt.Fprintf(w, "    %d due, first %s\n", l.Due, l.Next)
		}
	}
}

func numberOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// state says in words how a household stands.
func (l *householdLineJSON) state() string {
	var parts []string
	if len(l.Problems) > 0 {
		parts = append(parts, "needs attention: "+someOf(l.Problems))
	}
	if len(l.OutOfDate) > 0 {
		parts = append(parts, "out of date: "+someOf(l.OutOfDate))
	}
	if len(parts) == 0 {
		return "in order"
	}
	return strings.Join(parts, "; ")
}
