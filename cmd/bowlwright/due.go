package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/records"
	"bowlwright/household/upkeep"
	"bowlwright/report/calendar"

	"github.com/urfave/cli/v2"
)

// dueAhead is how many days `due` looks ahead when it is not told.
const dueAhead = 28

func dueCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "due", Usage: "what comes next: weigh, score, plan, cook, premix, veterinarian; soonest first",
		Description: "With --ics the same as a file for a calendar program. An event keeps its id when its day\nmoves: import the file again after each plan or weighing, and the events are updated.",
		Flags: []cli.Flag{
			&cli.IntFlag{Name: "days", Value: dueAhead, Usage: "look `N` days ahead"},
			&cli.StringFlag{Name: "ics", Usage: "write an iCalendar `FILE` (RFC 5545) too"},
			&cli.BoolFlag{Name: "strict", Usage: "end with 6 when something is out of date, as check does"},
		},
		Action: func(c *cli.Context) error {
			return dueOptions{days: c.Int("days"), ics: c.String("ics"), strict: c.Bool("strict")}.run(p)
		},
	}
}

// dueOptions are what `due` takes.
type dueOptions struct {
	days   int
	ics    string
	strict bool
}

// dueJSON is the contract of `due --json`.
type dueJSON struct {
	Format    string         `json:"format"`
	Household string         `json:"household"`
	Date      household.Date `json:"date"`
	Items     []dueItemJSON  `json:"items"`
}

// dueItemJSON is an item with its hint as a person would type it.
type dueItemJSON struct {
	upkeep.DueItem
	Hint string `json:"hint"`
}

func (o dueOptions) run(p *program) error {
	if err := p.noMore(0); err != nil {
		return err
	}
	if o.days < 0 {
		return badInput(fmt.Sprintf("--days %d lies in the past", o.days), "type a number of days from 0 on; what is late is always listed")
	}
	h, today, err := p.load()
	if err != nil {
		return err
	}
	store := records.Open(h.Dir)
	inUse, findings, err := store.InUse()
	if err == nil {
		err = store.Remember(h)
	}
	if err != nil {
		return err
	}
	p.showFindings(findings)
	cooked, _, err := store.LatestCooking(h.Base)
	if err != nil {
		return err
	}
	items := upkeep.Due(h, records.PlansOf(inUse), cooked, today)
	items = slices.DeleteFunc(items, func(item upkeep.DueItem) bool { return item.Date.DaysSince(today) > o.days })
	if o.ics != "" {
		if err := p.writeCalendar(o.ics, h, items, today); err != nil {
			return err
		}
	}
	if p.json {
		out := dueJSON{"bowlwright/due/1", h.Name, today, []dueItemJSON{}}
		for _, item := range items {
			out.Items = append(out.Items, dueItemJSON{item, p.hint(item.Hint)})
		}
		if err := p.printJSON(out); err != nil {
			return err
		}
	} else {
		for _, item := range items {
			p.say("%s  %-12s  %s\n", item.Date, daysAway(item.Date, today), item.Message)
			if hint := p.hint(item.Hint); hint != "" {
				p.say("%-26s-> %s\n", "", hint)
			}
		}
		if len(items) == 0 {
			p.say("Nothing is due in the next %d days.\n", o.days)
		}
	}
	if late := upkeep.Late(items, today); o.strict && len(late) > 0 {
		return &outOfDateError{*badInput("something is out of date: "+late[0].Message, "each line above that is late says what to do")}
	}
	return nil
}

// daysAway says how far off a day is.
func daysAway(day, today household.Date) string {
	switch n := day.DaysSince(today); {
	case n < -1:
		return fmt.Sprintf("%d days late", -n)
	case n == -1:
		return "1 day late"
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	default:
		return fmt.Sprintf("in %d days", n)
	}
}

func (p *program) writeCalendar(path string, h *household.Household, items []upkeep.DueItem, today household.Date) error {
	if !filepath.IsAbs(path) {
		path = filepath.Join(p.env.workDir, path)
	}
	var b bytes.Buffer
	err := calendar.Write(&b, calendar.Calendar{Household: h.Name, Items: items, Today: today, Advice: func(item upkeep.DueItem) string {
		return item.Hint.Render(diag.Plain)
	}})
	if err != nil {
		return err
	}
	if err := writeFiles(filepath.Dir(path), []file{{filepath.Base(path), b.Bytes()}}); err != nil {
		return err
	}
	if !p.json {
		p.say("%s: %d events.\n", p.shortPath(path), len(items))
	}
	return nil
}
