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

// Options say how the reader writes numbers and what the pages show beside the
// plans.
type Options struct {
	// Weights is the weight log; a pet's page draws its weighings when there are two
	// or more.
	Weights []household.WeighIn
	// DecimalComma writes "2,5 g" instead of "2.5 g".
	DecimalComma bool
}

// Page is one file of the pages for a browser.
type Page struct {
	// Name is the file's name; pages link to one another by it.
	Name string
	Data []byte
}

//go:embed page.css
var pageCSS string

//go:embed index.tmpl
var indexTemplate string

//go:embed pet.tmpl
var petTemplate string

var pages = template.Must(template.Must(template.New("index").Parse(indexTemplate)).New("pet").Parse(petTemplate))

// htmlCard is a card with what only the browser shows.
type htmlCard struct {
	CSS                              template.CSS
	Household, Pet, About, File      string
	BaseName, BaseCode, Base, Made   string
	WeighBy, PremixRecipe, Short     string
	AddonsTitle, ExtrasTitle, Meals  string
	SeldomTitle                      string
	Refused                          []string
	Banner, Ratios                   []string
	Portions, Addons, Premix, Extras []htmlItem
	Seldom                           []htmlItem
	Purposes                         []htmlItem
	Weight                           *htmlPlot
	Bars                             []htmlBar
	Storage, Mind, Legend, Deciding  []string
	Own                              []report.OwnLimit
}

// Daily lists the add-ons in one line.
func (h *htmlCard) Daily() string {
	var parts []string
	for _, a := range h.Addons {
		parts = append(parts, beside(a))
	}
	for _, a := range h.Seldom {
		parts = append(parts, beside(a)+" ("+a.Remark+")")
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, "; ")
}

// beside writes an amount and a name so that no line ends between them.
func beside(i htmlItem) string {
	return strings.ReplaceAll(i.Amount, " ", report.NoBreak) + report.NoBreak + i.Name
}

type htmlItem struct{ Amount, Name, Remark string }

// htmlBar is a row of the table of nutrients, the drawing in percent of the track.
type htmlBar struct {
	Name, Amount, Limits, Known, State, From string
	Mark, Unknown, BandX, BandWidth          float64
	Recalled, Inside, Nothing, Lower, Upper  bool
}

type htmlIndex struct {
	CSS                                template.CSS
	Household, BaseName, BaseCode, Day string
	Cards                              []*htmlCard
	Rows                               []htmlRow
}

// htmlRow compares the pets for one nutrient.
type htmlRow struct {
	Name  string
	Cells []htmlCell
}

type htmlCell struct {
	Text   string
	Inside bool
}

// Pages returns index.html and one page a pet. A pet whose plan has no amounts
// gets a page that says why. The pages need no network and no script.
func Pages(ps []household.Paired, o Options) ([]Page, error) {
	if len(ps) == 0 {
		return nil, fmt.Errorf("there is no page to write")
	}
	first := ps[0].Plan()
	index := htmlIndex{CSS: template.CSS(pageCSS), Household: report.Clean(first.Household), BaseName: report.Clean(ps[0].Base().Name),
		BaseCode: first.Base.Code, Day: first.Date.String()}
	used := map[string]int{}
	for _, p := range ps {
		c := newHTMLCard(p)
		c.Weight = newHTMLPlot(report.WeightsOf(p.Plan().Pet.Pet, o.Weights))
		c.File = pageName(p.Plan().Pet.Pet, used)
		index.Cards = append(index.Cards, c)
	}
	index.Rows = compare(ps)
	var out []Page
	add := func(name, template string, view any) error {
		var b bytes.Buffer
		if err := pages.ExecuteTemplate(&b, template, view); err != nil {
			return fmt.Errorf("page %s: %w", name, err)
		}
		text := inText(b.String(), report.Together)
		if o.DecimalComma {
			text = inText(text, report.WithComma)
		}
		out = append(out, Page{name, []byte(text)})
		return nil
	}
	if err := add("index.html", "index", index); err != nil {
		return nil, err
	}
	for _, c := range index.Cards {
		if err := add(c.File, "pet", c); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// pageName makes a file name that no other page has.
func pageName(pet string, used map[string]int) string {
	slug := household.Slug(pet)
	if used[slug]++; used[slug] > 1 {
		slug = fmt.Sprintf("%s-%d", slug, used[slug])
	}
	return "pet-" + slug + ".html"
}

func newHTMLCard(p household.Paired) *htmlCard {
	plan := p.Plan()
	pet := &plan.Pet
	h := &htmlCard{CSS: template.CSS(pageCSS), Household: report.Clean(plan.Household), Pet: report.Clean(pet.Pet), About: report.About(pet), BaseName: report.Clean(p.Base().Name),
		BaseCode: plan.Base.Code}
	c, err := report.NewCard(p)
	if err != nil {
		h.Short = "No plan: " + string(pet.Status)
		h.Refused = report.CleanAll(pet.Conflict)
		return h
	}
	h.Short = c.Inside
	h.Base, h.Made, h.WeighBy, h.PremixRecipe = c.Base, c.Made, c.WeighBy, c.PremixRecipe
	h.Banner, h.Ratios, h.Storage, h.Legend = c.Banner, c.Ratios, c.Storage, c.LegendWith("Hatched")
	for _, o := range c.Own {
		h.Own = append(h.Own, report.OwnLimit{Text: report.Clean(o.Text), Loosened: o.Loosened})
	}
	h.Mind = report.CleanAll(append(append([]string(nil), c.Notes...), c.Cautions...))
	h.Portions = htmlItems(c.Portions)
	h.Addons, h.Premix, h.Extras = htmlItems(c.Addons), htmlItems(c.Premix), htmlItems(c.Extras)
	h.Seldom = htmlItems(c.Seldom)
	h.AddonsTitle, h.ExtrasTitle, h.SeldomTitle = c.AddonsTitle(), report.ExtrasTitle, report.SeldomTitle
	h.Meals = report.ShortMeals(household.MealShares(pet.BaseG, pet.Meals, pet.Scales.ScaleG))
	for i, b := range c.Bars {
		from, to := b.Band()
		h.Bars = append(h.Bars, htmlBar{Name: b.Name, Amount: b.Amount, Limits: b.Limits, Known: strings.Replace(b.Coverage, "%", " %", 1), State: report.MetState(b.State),
			BandX: 100 * from, BandWidth: 100 * (to - from),
			From: fromText(pet.Nutrients[i]), Mark: 100 * b.At, Unknown: min(100*b.Unknown/3, 100*(1-b.At)),
			Recalled: b.Recalled, Inside: b.Inside, Nothing: b.NothingKnown, Lower: b.HasLower, Upper: b.HasUpper})
	}
	h.Purposes = htmlItems(report.Purposes(pet))
	h.Deciding = report.CleanAll(report.Deciding(pet))
	return h
}

// leastShareShown keeps shares that would round to nothing off the page.
const leastShareShown = 0.005

// fromText says how much of a nutrient comes from where, in percent of what is
// known.
func fromText(n household.NutrientLine) string {
	total := n.From.Base + n.From.Addons + n.From.Extras
	if n.Amount == nil || total <= 0 {
		return ""
	}
	parts := []string{fmt.Sprintf("base %.0f %%", 100*n.From.Base/total)}
	if n.From.Addons/total >= leastShareShown {
		parts = append(parts, fmt.Sprintf("add-ons %.0f %%", 100*n.From.Addons/total))
	}
	if n.From.Extras/total >= leastShareShown {
		parts = append(parts, fmt.Sprintf("extras %.0f %%", 100*n.From.Extras/total))
	}
	return strings.Join(parts, ", ")
}

func htmlItems(items []report.Item) []htmlItem {
	var out []htmlItem
	for _, i := range items {
		out = append(out, htmlItem{report.Clean(i.Amount), report.Clean(i.Name), report.Clean(i.Remark)})
	}
	return out
}

// compare lists, for each nutrient, how much of its lower limit every pet gets
// from the base alone and from the whole day.
func compare(ps []household.Paired) []htmlRow {
	at := map[string]int{}
	var rows []htmlRow
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
				rows = append(rows, htmlRow{Name: n.Name, Cells: make([]htmlCell, len(ps))})
			}
			cell := htmlCell{Text: "unknown"}
			if n.Amount != nil {
				share := 100 * *n.Amount / *n.Lower
				if n.State != household.StateMet {
					// What is not met must not round up to a full hundred.
					share = math.Floor(share)
				}
				cell = htmlCell{fmt.Sprintf("%.0f → %.0f %%", 100*n.From.Base / *n.Lower, share), n.State == household.StateMet}
			}
			rows[i].Cells[col] = cell
		}
	}
	for col, p := range ps {
		if !p.Plan().Pet.Status.Printable() {
			for i := range rows {
				rows[i].Cells[col] = htmlCell{Text: "no plan", Inside: true}
			}
		}
	}
	return rows
}
