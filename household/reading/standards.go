package reading

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// StandardsFolder holds the household's own standards.
const StandardsFolder = "standards"

// readStandards reads standards/, each file a standard by its name.
func (l *loader) readStandards(docs []*tomldoc.Document) {
	l.standards = map[nutrients.StandardID]*nutrients.OwnStandard{}
	for _, d := range docs {
		if d.Root == nil {
			continue
		}
		s := readOwnStandard(d)
		if slices.Contains(nutrients.Standards(), s.ID) || !foodfile.IsID(string(s.ID)) {
			d.FaultOfFile("standard-name", fmt.Sprintf("a standard of your own cannot be named %q", s.ID), "name the file in lower-case letters, digits and dashes, and not like a standard of the program")
			continue
		}
		l.standards[s.ID] = s
	}
}

func readOwnStandard(d *tomldoc.Document) *nutrients.OwnStandard {
	t := d.Table()
	t.Only("source", "recalled", "table")
	s := &nutrients.OwnStandard{ID: nutrients.StandardID(d.Stem()), Reference: map[nutrients.Species]float64{}}
	source, ok := t.Text("source")
	if !ok && !t.Has("source") {
		t.Missing("source", "the standard names no source", "write source = \"…\": the document and edition, or who set the figures")
	}
	r := standardReader{s: s, source: nutrients.Source{Text: strings.TrimSpace(source), Recalled: t.Yes("recalled")}, seen: map[string]bool{}}
	tables := t.Many("table")
	if len(tables) == 0 && !t.Has("table") {
		t.Missing("table", "the standard has no table", "begin one with a line [[table]] and below it species = \"dog\", stage = \"adult\"")
	}
	for _, one := range tables {
		r.table(one)
	}
	var lines []string
	for _, row := range s.Rows {
		lines = append(lines, fmt.Sprintf("%s|%s|%s|%s|%s|%g|%s|%v", row.Species, row.Stage, row.Nutrient, row.Basis, row.Bound, row.Value, row.Source.Text, row.Source.Recalled))
	}
	slices.Sort(lines)
	s.Digest = household.DigestOf(fmt.Sprintf("bowlwright/standard/1\n%g %g\n%s", s.Reference[nutrients.Dog], s.Reference[nutrients.Cat], strings.Join(lines, "\n")))
	return s
}

// standardReader gathers the rows of one standard.
type standardReader struct {
	s      *nutrients.OwnStandard
	source nutrients.Source
	// seen are species and stages that have a table.
	seen map[string]bool
}

// The tables of figures within a [[table]], with their basis and bound.
var standardParts = []struct {
	key   string
	basis nutrients.Basis
	bound nutrients.Bound
}{
	{"minimum", nutrients.Per1000kcal, nutrients.Min}, {"maximum", nutrients.Per1000kcal, nutrients.SUL},
	{"minimum_per_kg", nutrients.PerKgMetabolic, nutrients.Min}, {"maximum_per_kg", nutrients.PerKgMetabolic, nutrients.SUL},
}

func (r *standardReader) table(t tomldoc.Table) {
	t.Only("species", "stage", "reference_energy", "minimum", "maximum", "minimum_per_kg", "maximum_per_kg", "ratio")
	species, ok := t.Choice("species", string(nutrients.Dog), string(nutrients.Cat))
	if !ok {
		if !t.Has("species") {
			t.Missing("species", "a table names no species", "write species = \"dog\" or species = \"cat\"")
		}
		return
	}
	stages := r.stages(t, species)
	sp := nutrients.Species(species)
	if slices.Contains(stages, nutrients.Adult) {
		kcal, given := t.Positive("reference_energy", "110 kcal", quantity.Energy)
		if !t.Has("reference_energy") {
			t.Missing("reference_energy", "a table of adults does not say for which energy its densities are", "write reference_energy = \"110 kcal\", per kg^0.75 of a dog or kg^0.67 of a cat")
		}
		if given && (kcal < 30 || kcal > 300) {
			t.Fault("reference_energy", "absurd-energy", fmt.Sprintf("%s kcal per kg metabolic weight is not plausible", quantity.Text(kcal)), "adults need about 75 to 175 kcal")
		}
		r.s.Reference[sp] = kcal
	}
	figures := map[string]map[nutrients.ID]float64{}
	for _, part := range standardParts {
		figures[part.key] = map[nutrients.ID]float64{}
		pt, ok := t.One(part.key)
		if !ok {
			continue
		}
		for _, key := range pt.Keys() {
			x, id, ok := readCell(pt, key)
			if !ok {
				continue
			}
			figures[part.key][id] = x
			suffix := strings.TrimPrefix(strings.TrimPrefix(part.key, "minimum"), "maximum")
			if low, both := figures["minimum"+suffix][id]; part.bound == nutrients.SUL && both && x < low {
				pt.Fault(key, "limits-cross", fmt.Sprintf("the maximum of %s is under its minimum", key), "correct one of the two")
			}
			if _, dense := figures["minimum"][id]; part.key == "minimum_per_kg" && !dense {
				pt.Fault(key, "per-kg-alone", fmt.Sprintf("%s has a minimum per kg and none per 1000 kcal", key), "write the minimum per 1000 kcal as well, under [table.minimum]")
			}
			for _, stage := range stages {
				r.row(sp, stage, key, part.basis, part.bound, x, string(id.Info().Unit))
			}
		}
	}
	if rt, ok := t.One("ratio"); ok {
		r.ratios(rt, sp, stages)
	}
}

func (r *standardReader) row(sp nutrients.Species, stage nutrients.Stage, nutrient string, basis nutrients.Basis, bound nutrients.Bound, x float64, unit string) {
	r.s.Rows = append(r.s.Rows, nutrients.Row{Standard: r.s.ID, Species: sp, Stage: string(stage), Nutrient: nutrient, Basis: basis, Bound: bound, Value: x, Unit: unit, Source: r.source})
}

// stages reads the life stages of a table, one or several.
func (r *standardReader) stages(t tomldoc.Table, species string) []nutrients.Stage {
	known := []string{string(nutrients.Adult), string(nutrients.Growth), string(nutrients.Gestation), string(nutrients.Lactation)}
	words, at := t.List("stage")
	if len(words) == 0 && !t.Has("stage") {
		t.Missing("stage", "a table names no stage", "write stage = \"adult\", or a list: stage = [\"gestation\", \"lactation\"]")
	}
	var stages []nutrients.Stage
	for i, w := range words {
		switch {
		case !slices.Contains(known, w):
			t.Doc.Add("unknown-choice", at[i], fmt.Sprintf("a stage cannot be %q", diag.Clip(w)), diag.NearHint(w, known))
		case r.seen[species+" "+w]:
			t.Doc.Add("stage-twice", at[i], fmt.Sprintf("there are two tables for a %s in %s", species, w), "keep one of the two")
		default:
			r.seen[species+" "+w] = true
			stages = append(stages, nutrients.Stage(w))
		}
	}
	return stages
}

// readCell reads one figure in the nutrient's canonical unit.
func readCell(t tomldoc.Table, key string) (x float64, id nutrients.ID, ok bool) {
	id, known := nutrients.ParseID(key)
	if !known || id == nutrients.Energy {
		foodfile.UnknownNutrient(t, key, key)
		return 0, id, false
	}
	text, ok := t.Text(key)
	if !ok {
		return 0, id, false
	}
	x, unit, err := quantity.Split(text)
	if err != nil {
		t.InputFault(key, err)
		return 0, id, false
	}
	want := string(id.Info().Unit)
	if unit == "" {
		t.Fault(key, "no-unit", fmt.Sprintf("%q has no unit", diag.Clip(text)), fmt.Sprintf("write \"%s %s\"", quantity.Text(x), want))
		return 0, id, false
	}
	if x, err = nutrients.Convert(x, unit, id); err != nil {
		t.Fault(key, "unknown-unit", err.Error(), "write it in "+want)
		return 0, id, false
	}
	if x <= 0 {
		t.Fault(key, "not-positive", key+" must be greater than zero", "leave the line out where the standard has no figure")
		return 0, id, false
	}
	return x, id, true
}

// ratios reads lines like calcium-phosphorus = "1 to 2".
func (r *standardReader) ratios(t tomldoc.Table, sp nutrients.Species, stages []nutrients.Stage) {
	t.Only("calcium-phosphorus", "omega6-omega3")
	for _, key := range t.Keys() {
		text, ok := t.Text(key)
		if !ok {
			continue
		}
		a, b, parted := strings.Cut(text, " to ")
		low, unit, err := quantity.Split(a)
		high, other, err2 := quantity.Split(b)
		if err != nil || err2 != nil || !parted || unit+other != "" || low <= 0 || high < low {
			t.Fault(key, "ratio-form", fmt.Sprintf("%q is not a range", diag.Clip(text)), "write it like \"1 to 2\"")
			continue
		}
		for _, stage := range stages {
			r.row(sp, stage, key+"-ratio", nutrients.PerRatio, nutrients.Min, low, "")
			r.row(sp, stage, key+"-ratio", nutrients.PerRatio, nutrients.Max, high, "")
		}
	}
}
