package html

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"math"
	"strings"

	"bowlwright/household"
	"bowlwright/report"
)

// Options say how the reader writes numbers and what the page shows beside the plans.
type Options struct {
	report.Setting
	// DecimalComma writes "2,5 g" instead of "2.5 g".
	DecimalComma bool
}

//go:embed page.css
var pageCSS string

//go:embed page.tmpl
var pageTemplate string

var pages = template.Must(template.New("page").Parse(pageTemplate))

// view is what the page shows.
type view struct {
	CSS                                       template.CSS
	Household, BaseName, BaseCode, Day, Count string
	// NextDay is the first day on which somebody is to be weighed, Next those who are.
	NextDay string
	Next    []string
	Animals []*animal
	Heads   []string
	Rows    []row
}

// animal is one pet with what only the browser shows.
type animal struct {
	ID, Pet, Summary, WeighBy, Alert        string
	Open, Void                              bool
	Refused                                 []string
	NoAmounts                               string
	Notices                                 []report.Notice
	ValidLabel, ValidDays                   string
	BaseName, BaseCode, JarCode, JarTitle   string
	ShortTitle                              string
	Banner                                  []string
	Meals                                   []meal
	Addons, Seldom, Extras                  []item
	SeldomTitle, ExtrasTitle                string
	Total, Verdict, Mark                    string
	Watched                                 []report.Watch
	Weight                                  *plot
	Bars                                    []bar
	LegendBase, LegendAddons, LegendUnknown string
	LegendScale                             string
	Ratios, Legend, Deciding, Notes         []string
	DecidingTitle, Recipe, NoteTitle, Made  string
	Own                                     []report.OwnLimit
	Mixed, NoteCount                        string
	Purposes, Powders                       []item
}

type meal struct {
	Name, Amount, With string
	Addons             bool
}

type item struct{ Amount, Name, Remark, Dates string }

// Page writes one file for the household: a row for each pet that unfolds, and a table
// that compares them. It needs no network and no script. A pet whose plan has no amounts
// gets the reasons.
func Page(ps []household.Paired, o Options) ([]byte, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("there is no page to write")
	}
	plan := ps[0].Plan()
	v := view{CSS: template.CSS(pageCSS), Household: report.Clean(plan.Household), BaseName: report.Clean(ps[0].Base().Name), BaseCode: plan.Base.Code,
		Day: report.DayText(plan.Date), Count: report.Counted(len(ps), "animal")}
	var next household.Date
	used := map[string]int{}
	for _, p := range ps {
		pet := &p.Plan().Pet
		a := newAnimal(p, o)
		a.ID, a.Open = idOf(pet.Pet, used), len(ps) == 1
		v.Animals = append(v.Animals, a)
		v.Heads = append(v.Heads, a.Pet)
		if len(a.Refused) > 0 {
			continue
		}
		if next.IsZero() || pet.WeighAgainBy.Before(next) {
			next, v.Next = pet.WeighAgainBy, nil
		}
		if pet.WeighAgainBy == next {
			v.Next = append(v.Next, a.Pet)
		}
	}
	v.NextDay = "By " + report.ShortDay(next)
	v.Rows = compare(ps)
	var b bytes.Buffer
	if err := pages.Execute(&b, v); err != nil {
		return nil, fmt.Errorf("the page: %w", err)
	}
	text := inText(b.String(), report.Together)
	if o.DecimalComma {
		text = inText(text, report.WithComma)
	}
	return []byte(text), nil
}

// idOf names the place of a pet on the page; no other has the name.
func idOf(pet string, used map[string]int) string {
	slug := household.Slug(pet)
	if used[slug]++; used[slug] > 1 {
		return fmt.Sprintf("pet-%s-%d", slug, used[slug])
	}
	return "pet-" + slug
}

func newAnimal(p household.Paired, o Options) *animal {
	plan := p.Plan()
	pet := &plan.Pet
	a := &animal{Pet: report.Clean(pet.Pet), Summary: report.AnimalText(pet.Species, pet.WeightKg), BaseName: report.Clean(p.Base().Name), BaseCode: plan.Base.Code,
		NoAmounts: report.NoAmounts}
	c, err := report.NewCard(p, o.Setting)
	if err != nil {
		a.Refused = report.CleanAll(pet.Conflict)
		return a
	}
	a.Summary += ", " + report.MealSum(household.MealShares(pet.BaseG, pet.Meals, pet.Scales.ScaleG))
	a.WeighBy, a.Notices, a.Void = report.ShortDay(c.WeighBy), c.Notices, report.Void(c.Notices)
	switch {
	case len(c.Notices) > 0:
		a.Alert = strings.ToLower(c.Notices[0].Title)
	case len(c.Banner) > 0:
		a.Alert = "needs attention"
	}
	a.ValidLabel, a.ValidDays = c.Validity()
	a.ShortTitle, a.Banner = report.ShortTitle, report.CleanAll(c.Banner)
	for _, m := range c.Meals {
		a.Meals = append(a.Meals, meal{m.Name, m.Amount, c.With(m), m.Addons})
	}
	a.Addons, a.Extras = items(c.Addons), items(c.Extras)
	for _, s := range c.Seldom {
		a.Seldom = append(a.Seldom, item{report.Clean(s.Amount), report.Clean(s.Name), report.Clean(s.Remark), s.Dates})
	}
	a.SeldomTitle, a.ExtrasTitle = report.SeldomTitle, report.ExtrasTitle
	a.Total, a.Verdict, a.Watched, a.Mark = c.BaseTotal(), c.Verdict, c.Watched, c.RecalledMark()
	if a.Weight = newCourse(c.Course); a.Weight == nil {
		a.Weight = newPlot(c.Weights)
	}
	for _, b := range c.Bars {
		a.Bars = append(a.Bars, newBar(b))
	}
	a.LegendBase, a.LegendAddons, a.LegendUnknown, a.LegendScale = report.LegendBase, report.LegendAddons, report.LegendUnknown, report.LegendScale
	a.Ratios, a.Legend = c.Ratios, append(c.LegendMarks(), report.LegendKnown)
	a.Purposes, a.DecidingTitle, a.Deciding = items(report.Purposes(pet)), report.DecidingTitle, report.CleanAll(report.Deciding(pet))
	if c.Jar != nil {
		a.JarTitle, a.JarCode, a.Recipe, a.Powders = report.Clean(c.Jar.Title), c.Jar.Code, c.Jar.Recipe, items(c.Jar.Powders)
		a.Mixed = "not recorded as mixed"
		if !c.Jar.MixedOn.IsZero() {
			a.Mixed = "mixed " + report.ShortDay(c.Jar.MixedOn) + ", good until " + report.ShortDay(c.Jar.GoodUntil)
		}
	}
	a.NoteTitle, a.Notes, a.Made = report.NoteTitle, report.CleanAll(c.NoteLines()[len(c.Own):]), c.Made
	for _, o := range c.Own {
		a.Own = append(a.Own, report.OwnLimit{Text: report.Clean(o.Text), Loosened: o.Loosened})
	}
	a.NoteCount = report.Counted(len(a.Notes), "point")
	return a
}

func items(list []report.Item) []item {
	var out []item
	for _, i := range list {
		out = append(out, item{report.Clean(i.Amount), report.Clean(i.Name), report.Clean(i.Remark), ""})
	}
	return out
}

// row compares the pets for one nutrient.
type row struct {
	Name  string
	Cells []cell
}

type cell struct{ Share, Word, Class string }

// steps of the comparison: up to which share of the minimum each word goes.
var steps = []struct {
	upTo        float64
	word, class string
}{{0.25, "little", "h0"}, {0.5, "some", "h1"}, {0.75, "half", "h2"}, {1, "most", "h3"}, {math.Inf(1), "enough", "h4"}}

// compare lists, for each nutrient, how much of its minimum every pet gets from the base
// and its treats alone.
func compare(ps []household.Paired) []row {
	at := map[string]int{}
	var rows []row
	for col, p := range ps {
		pet := &p.Plan().Pet
		if !pet.Status.Printable() {
			continue
		}
		for _, n := range pet.Nutrients {
			if n.Lower == nil || *n.Lower <= 0 {
				continue
			}
			i, ok := at[n.Name]
			if !ok {
				i = len(rows)
				at[n.Name] = i
				rows = append(rows, row{Name: n.Name, Cells: make([]cell, len(ps))})
			}
			rows[i].Cells[col] = cellOf(n)
		}
	}
	for i := range rows {
		for col, p := range ps {
			switch {
			case !p.Plan().Pet.Status.Printable():
				rows[i].Cells[col] = cell{Word: "no safe plan", Class: "none"}
			case rows[i].Cells[col].Word == "":
				rows[i].Cells[col] = cell{Word: "no minimum", Class: "none"}
			}
		}
	}
	return rows
}

func cellOf(n household.NutrientLine) cell {
	if n.Amount == nil {
		return cell{Word: "no figure known", Class: "below"}
	}
	alone := (n.From.Base + n.From.Extras) / *n.Lower
	share := fmt.Sprintf("%.0f %%", math.Floor(100*alone))
	if n.State == household.StateLow {
		return cell{share, "below minimum", "below"}
	}
	if n.State == household.StateHigh {
		return cell{share, "above maximum", "below"}
	}
	for _, s := range steps {
		if alone < s.upTo {
			return cell{share, s.word, s.class}
		}
	}
	return cell{share, "enough", "h4"}
}
