package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"
	"bowlwright/nutrients"
	"bowlwright/report"
)

// deck is what can be printed of the pets that were asked for, and what cannot.
type deck struct {
	pairs []household.Paired
	// outOfDate are the reasons why a plan must not be taken for valid, by pet.
	outOfDate map[string][]household.Finding
	missing   []missingCard
	// refused are the animals whose plan is for another base or jar.
	refused []string
	hints   []diag.Hint
}

// missingCard is an animal without a card, and why.
type missingCard struct {
	Pet string `json:"pet"`
	Why string `json:"why"`
}

// deal puts the plans in use together with the base in use. A plan for another base is
// refused, and then nothing is printed; an animal without a plan that may be printed
// keeps no other's card back. With an error the deck tells whose cards are not printed.
func (o cardOptions) deal(p *program, h *household.Household, pets []*household.Pet, today household.Date) (*deck, error) {
	inUse, findings, err := records.Open(h.Dir).InUse()
	if err != nil {
		return nil, err
	}
	p.showFindings(findings)
	d := &deck{outOfDate: map[string][]household.Finding{}}
	checks := upkeep.NewChecks(h, today)
	var refused []error
	var alone error
	for _, pet := range pets {
		record, ok := inUse[pet.Name]
		if !ok {
			d.miss(pet.Name, "it has no plan in use", diag.Command("make one with", "plan", pet.Name))
			alone = noPlan(pet.Name)
			continue
		}
		pair, err := h.PairIn(record.Sound())
		if err != nil {
			refused = append(refused, err)
			d.refused = append(d.refused, pet.Name)
			continue
		}
		if status := record.Plan.Pet.Status; !status.Printable() {
			fault := &household.NotPrintableError{Pet: pet.Name, Status: status, Why: record.Plan.Pet.Conflict}
			d.miss(pet.Name, fault.Error(), fault.Hint())
			alone = &noAmountsError{fault, []diag.Hint{fault.Hint()}}
			continue
		}
		reasons := household.OutOfDate(checks.Pet(pet, record.Plan))
		if why, barred := bar(reasons); barred && !o.evenOutOfDate {
			d.miss(pet.Name, why, diag.Command("make a new plan", "plan", pet.Name))
			alone = nil
			continue
		}
		if len(reasons) > 0 {
			d.outOfDate[pet.Name] = reasons
			if !p.quiet {
				fmt.Fprintf(p.env.stderr, "note: %s: the plan is out of date: %s\n", pet.Name, reasons[0].Message)
			}
		}
		d.pairs = append(d.pairs, pair)
	}
	switch {
	case len(refused) > 0:
		return d, &refusedError{refused}
	case len(d.pairs) == 0 && len(d.missing) == 1 && alone != nil:
		return d, alone
	case len(d.pairs) == 0:
		return d, d.missingError()
	}
	return d, nil
}

// notices say across the top of a card why its plan is out of date.
func (d *deck) notices(p *program) map[string][]report.Notice {
	all := map[string][]report.Notice{}
	for pet, reasons := range d.outOfDate {
		n := report.Notice{Title: report.OutOfDateTitle, Void: true, Advice: "To update the plan, run:", Command: p.command("plan", pet)}
		for _, r := range reasons {
			n.Reasons = append(n.Reasons, nutrients.Capital(r.Message)+".")
		}
		all[pet] = []report.Notice{n}
	}
	return all
}

func (d *deck) miss(pet, why string, hint diag.Hint) {
	d.missing = append(d.missing, missingCard{pet, why})
	d.hints = append(d.hints, hint)
}

// missingError names who got no card and why, nil when everybody got one.
func (d *deck) missingError() error {
	if len(d.missing) == 0 {
		return nil
	}
	var parts []string
	for _, m := range d.missing {
		parts = append(parts, m.Pet+": "+m.Why)
	}
	return &notMetError{inputError{"no card for " + strings.Join(parts, "; "), d.hints}}
}

// bar says whether a plan is past the bound up to which its card is printed, and why.
func bar(reasons []household.Finding) (why string, barred bool) {
	for _, f := range reasons {
		if f.Barred {
			return "its plan is out of date: " + f.Message, true
		}
	}
	return "", false
}

// removeCards takes the cards of animals that left out of a folder, so that nobody feeds
// by them, and returns what it removed. With them go the file of all
// cards and the page of all, unless they were written just now.
func removeCards(dir string, h *household.Household, written []file, today household.Date) ([]string, error) {
	var removed []string
	for i := range h.Away {
		pet := &h.Away[i]
		if pet.Dates.Left.IsZero() || today.Before(pet.Dates.Left) {
			continue
		}
		name := household.Slug(pet.Name)
		for _, file := range cardNames(name) {
			path := filepath.Join(dir, file)
			err := os.Remove(path)
			switch {
			case err == nil:
				removed = append(removed, path)
			case !errors.Is(err, fs.ErrNotExist):
				return removed, fmt.Errorf("cannot remove the card of %s, who left: %w", pet.Name, err)
			}
		}
	}
	if len(removed) == 0 {
		return nil, nil
	}
	for _, name := range []string{joinedCards, "index.html"} {
		path := filepath.Join(dir, name)
		if !slices.ContainsFunc(written, func(f file) bool { return f.name == name }) && os.Remove(path) == nil {
			removed = append(removed, path)
		}
	}
	return removed, nil
}

// joinedCards is the file that holds the cards of all.
const joinedCards = "cards.pdf"

// markPrefix begins the name of a card that was printed once and must not be fed by: of
// an animal whose plan was refused since.
const markPrefix = "not-in-use-"

// cardNames are the files that hold one animal's cards, by its slug.
func cardNames(slug string) []string {
	return []string{"card-" + slug + ".pdf", "card-" + slug + ".txt", "vet-" + slug + ".pdf", "pet-" + slug + ".html"}
}

// markCards renames the old cards of animals that get none now, and the files that hold
// them with others, so that nobody takes them for the cards in use. What was written just
// now stays, and takes away its own mark.
func markCards(p *program, dir string, d *deck, written []file) error {
	if info, err := os.Lstat(dir); err != nil || !info.IsDir() {
		return nil
	}
	for _, f := range written {
		_ = os.Remove(filepath.Join(dir, markPrefix+f.name))
	}
	without := slices.Clone(d.refused)
	for _, m := range d.missing {
		without = append(without, m.Pet)
	}
	if len(without) == 0 {
		return nil
	}
	var names []string
	for _, pet := range without {
		names = append(names, cardNames(household.Slug(pet))...)
	}
	marked, err := mark(dir, names, written)
	if err == nil && (marked > 0 || len(d.refused) > 0) {
		var joined int
		joined, err = mark(dir, []string{joinedCards, "index.html"}, written)
		marked += joined
	}
	if err != nil {
		return err
	}
	if marked > 0 {
		fmt.Fprintf(p.env.stderr, "note: the old cards of %s in %s are not to be used; their names begin with %s now\n", someOf(without), p.shortPath(dir), markPrefix)
	}
	return nil
}

// mark renames those files that are there and were not written just now.
func mark(dir string, names []string, written []file) (marked int, err error) {
	for _, name := range names {
		if slices.ContainsFunc(written, func(f file) bool { return f.name == name }) {
			continue
		}
		err := os.Rename(filepath.Join(dir, name), filepath.Join(dir, markPrefix+name))
		switch {
		case err == nil:
			marked++
		case !errors.Is(err, fs.ErrNotExist):
			return marked, fmt.Errorf("cannot mark the old card %s: %w", name, err)
		}
	}
	return marked, nil
}

// weightCourses are the courses of the weights of pets, by name.
func weightCourses(h *household.Household, pets []*household.Pet, today household.Date) (map[string]upkeep.WeightCourse, error) {
	if err := records.Open(h.Dir).Remember(h); err != nil {
		return nil, err
	}
	all := map[string]upkeep.WeightCourse{}
	for _, pet := range pets {
		all[pet.Name] = upkeep.WeightCourseOf(h, pet, today)
	}
	return all, nil
}
