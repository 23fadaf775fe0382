package nutrients

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
)

//go:embed data/foods.txt
var foodsText string

//go:embed data/supplements.txt
var supplementsText string

// Sources named by a short key in the data files.
const recalledMark = "recalled"

// parseFoods reads the block format that the head of data/foods.txt describes.
func parseFoods(text string) ([]*Food, error) {
	foods := make([]*Food, 0, strings.Count(text, "\nfood "))
	sources := map[string]string{"text": ""}
	var p foodParser
	for number := 1; text != ""; number++ {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		word, rest, _ := strings.Cut(line, " ")
		if word == "source" {
			key, full, _ := strings.Cut(rest, " ")
			sources[key] = full + " "
			continue
		}
		if word == "food" {
			p = foodParser{food: &Food{ID: rest}, sources: sources}
			foods = append(foods, p.food)
			continue
		}
		if p.food == nil {
			return nil, fmt.Errorf("line %d stands before the first food", number)
		}
		if err := p.line(word, rest); err != nil {
			return nil, fmt.Errorf("line %d, food %s: %w", number, p.food.ID, err)
		}
	}
	for _, f := range foods {
		finish(f)
		// A unit whose weight is published adds up like any food.
		if f.PerUnit != nil && f.UnitGrams > 0 {
			*f = *f.ByUnit(f.UnitGrams)
		}
	}
	return foods, nil
}

// foodParser reads the lines of one block.
type foodParser struct {
	food    *Food
	sources map[string]string
}

func (p *foodParser) line(word, rest string) error {
	f := p.food
	switch word {
	case "name":
		f.Name = rest
	case "in":
		f.Group, f.State, _ = strings.Cut(rest, " ")
	case "from":
		key, record, _ := strings.Cut(rest, " ")
		prefix, known := p.sources[key]
		if !known {
			return fmt.Errorf("unknown source %q", key)
		}
		f.Source = Source{Text: prefix + record, Recalled: prefix+record == recalledMark}
		f.excludesFiber = key == "ciqual"
	case "refuse":
		share, err := strconv.ParseFloat(rest, 64)
		if err != nil {
			return err
		}
		f.Refuse = share
	case "pure":
		for id := range f.Per100g[:firstDerived] {
			f.Per100g[id] = Known(0)
		}
	case "rest":
		grams, what, _ := strings.Cut(rest, " ")
		g, err := strconv.ParseFloat(grams, 64)
		if err != nil {
			return err
		}
		f.Rest = Rest{Grams: g, What: what}
	case "dilute":
		of, n, _ := strings.Cut(rest, " ")
		times, err := strconv.Atoi(n)
		if err != nil {
			return err
		}
		f.Dilution = &Dilution{Of: of, Times: times}
	case "powder":
		f.Powder = true
	case "carrier":
		f.Carrier = true
	case "unit":
		name, grams, weighed := strings.Cut(rest, " ")
		f.UnitName, f.PerUnit = name, new(Profile)
		if weighed {
			g, err := strconv.ParseFloat(grams, 64)
			if err != nil {
				return err
			}
			f.UnitGrams = g
		}
	case "caution":
		f.Cautions = append(f.Cautions, rest)
	case "measure":
		grams, name, _ := strings.Cut(rest, " ")
		g, err := strconv.ParseFloat(grams, 64)
		if err != nil {
			return err
		}
		f.Measures = append(f.Measures, Measure{Name: name, Grams: g})
	case "=", "0":
		return p.figures(word, rest)
	case ":", ":r":
		return p.note(rest, word == ":r")
	default:
		return fmt.Errorf("unknown word %q", word)
	}
	return nil
}

// figures reads "= NUTRIENT VALUE …" or "0 NUTRIENT …".
func (p *foodParser) figures(word, rest string) error {
	profile := &p.food.Per100g
	if p.food.PerUnit != nil {
		profile = p.food.PerUnit
	}
	for rest != "" {
		var key string
		key, rest, _ = strings.Cut(rest, " ")
		id, ok := ParseID(key)
		if !ok || id.Derived() {
			return fmt.Errorf("unknown nutrient %q", key)
		}
		figure := Known(0)
		if word == "=" {
			var value string
			value, rest, _ = strings.Cut(rest, " ")
			var err error
			if figure, err = parseFigure(value); err != nil {
				return fmt.Errorf("%s: %w", key, err)
			}
		}
		profile[id] = figure
	}
	return nil
}

// parseFigure reads "12.5" or "10..12".
func parseFigure(s string) (Figure, error) {
	low, high, ranged := strings.Cut(s, "..")
	lo, err := strconv.ParseFloat(low, 64)
	if err != nil {
		return Unknown, err
	}
	if !ranged {
		return Known(lo), nil
	}
	hi, err := strconv.ParseFloat(high, 64)
	if err != nil {
		return Unknown, err
	}
	if lo > hi {
		return Unknown, fmt.Errorf("the range %s is upside down", s)
	}
	return Between(lo, hi), nil
}

// note reads "NUTRIENT SOURCE // NOTE".
func (p *foodParser) note(rest string, recalled bool) error {
	key, rest, _ := strings.Cut(rest, " ")
	id, ok := ParseID(key)
	if !ok {
		return fmt.Errorf("unknown nutrient %q", key)
	}
	text, note, _ := strings.Cut(rest, " // ")
	if p.food.Figures == nil {
		p.food.Figures = make(map[ID]Source, 4)
	}
	p.food.Figures[id] = Source{Text: text, Recalled: recalled, Note: note}
	return nil
}

// finish sets what follows from the printed figures.
func finish(f *Food) {
	for _, p := range []*Profile{&f.Per100g, f.PerUnit} {
		if p != nil {
			p.SetDigestible(f.excludesFiber)
		}
	}
	if f.Carrier {
		f.Powder = true
	}
}

// SetDigestible sets the carbohydrate that gives energy, where no source gives it
// apart: the printed carbohydrate, less the fibre unless the source leaves fibre
// out already. Where the fibre is unknown, the carbohydrate counts as printed; in
// the catalogue that happens only for shellfish, which hold none (common practice).
func (p *Profile) SetDigestible(excludesFiber bool) {
	if p[DigestibleCarbohydrate].IsKnown() {
		return
	}
	digestible := p[Carbohydrate]
	if fiber := p[Fiber]; digestible.IsKnown() && fiber.IsKnown() && !excludesFiber {
		digestible.Lo = max(0, digestible.Lo-fiber.Hi)
		digestible.Hi = max(digestible.Lo, digestible.Hi-fiber.Lo)
	}
	p[DigestibleCarbohydrate] = digestible
}
