package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/records"
	"bowlwright/report/html"
	"bowlwright/report/paper"
	"bowlwright/report/text"
)

// cardFiles renders everything before anything is written.
func cardFiles(pairs []household.Paired, formats []string, o paper.Options) ([]file, error) {
	var files []file
	render := func(name string, write func(io.Writer) error) error {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		files = append(files, file{name, b.Bytes()})
		return nil
	}
	for _, pair := range pairs {
		one, name := []household.Paired{pair}, household.Slug(pair.Plan().Pet.Pet)
		for _, format := range formats {
			var err error
			switch format {
			case "pdf":
				err = render("card-"+name+".pdf", func(w io.Writer) error { return paper.Cards(w, one, o) })
			case "text":
				err = render("card-"+name+".txt", func(w io.Writer) error {
					return text.Card(w, pair, text.Options{Width: defaultColumns, Full: true, Setting: o.Setting, DecimalComma: o.DecimalComma})
				})
			case "vet":
				err = render("vet-"+name+".pdf", func(w io.Writer) error { return paper.Vet(w, one, o) })
			}
			if err != nil {
				return nil, err
			}
		}
	}
	if slices.Contains(formats, "pdf") && len(pairs) > 1 {
		if err := render(joinedCards, func(w io.Writer) error { return paper.Cards(w, pairs, o) }); err != nil {
			return nil, err
		}
	}
	if slices.Contains(formats, "html") {
		page, err := html.Page(pairs, html.Options{Setting: o.Setting, DecimalComma: o.DecimalComma})
		if err != nil {
			return nil, err
		}
		files = append(files, file{"index.html", page})
	}
	return files, nil
}

// forLatestPot makes the cards those of the newest pot of the base, where it came
// out heavier or lighter than expected, and says so.
func forLatestPot(p *program, h *household.Household, pairs []household.Paired) ([]household.Paired, error) {
	cooking, _, err := records.Open(h.Dir).LatestCooking(h.Base)
	if err != nil || cooking == nil || cooking.Factor() == 1 {
		return pairs, err
	}
	changed := make([]household.Paired, len(pairs))
	for i, pair := range pairs {
		if changed[i], err = cooking.ForPot(pair); err != nil {
			return nil, err
		}
		was, now := pair.Plan().Pet, changed[i].Plan().Pet
		fmt.Fprintf(p.env.stderr, "note: of the batch cooked on %s, %s gets %s g of base a day, not %s g: it came out %+.1f %% by weight\n",
			cooking.Date, was.Pet, shortFigure(now.BaseG), shortFigure(was.BaseG), 100*(cooking.CookedG/cooking.ExpectedG-1))
	}
	return changed, nil
}

// noteLostCharacters says once which characters of the names that are printed the
// font of the paper lacks.
func noteLostCharacters(p *program, formats []string, h *household.Household, pairs []household.Paired) {
	onPaper := slices.ContainsFunc(formats, func(f string) bool { return f != "html" && f != "text" })
	if !onPaper || p.quiet {
		return
	}
	texts := []string{h.Name, h.Base.Name}
	for _, i := range h.Base.Ingredients {
		if i.Food != nil {
			texts = append(texts, i.Food.Name)
		} else {
			texts = append(texts, i.Batch.Name)
		}
	}
	for _, pair := range pairs {
		pet := &pair.Plan().Pet
		texts = append(texts, pet.Pet)
		for _, a := range pet.Addons {
			texts = append(texts, a.Name)
		}
		for _, e := range pet.Extras {
			texts = append(texts, e.Name)
		}
	}
	if lost := paper.NotOnPaper(texts...); len(lost) > 0 {
		fmt.Fprintf(p.env.stderr, "note: paper shows a box instead of %s, which its font lacks; a browser shows all: %s\n", strings.Join(lost, " "), p.command("card", "--format", "html"))
	}
}
