package main

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/urfave/cli/v2"

	"bowlwright/nutrients"
	"bowlwright/nutrients/number"
)

func targetsCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "targets", Usage: "energy and every limit for one pet, with the arithmetic and the source", ArgsUsage: "PET",
		Action: func(c *cli.Context) error {
			return targetsOptions{pet: c.Args().First()}.run(p)
		},
	}
}

type targetsJSON struct {
	Format          string               `json:"format"`
	Pet             string               `json:"pet"`
	Standard        nutrients.StandardID `json:"standard"`
	EnergyKcal      float64              `json:"energy_kcal"`
	EnergySource    string               `json:"energy_source"`
	EnergyRecalled  bool                 `json:"energy_recalled"`
	ReferenceKcal   float64              `json:"reference_energy_kcal"`
	IdealWeightKg   float64              `json:"ideal_weight_kg"`
	MetabolicWeight float64              `json:"metabolic_weight"`
	Limits          []limitJSON          `json:"limits"`
	// Rises are minima that grow with another nutrient of the day.
	Rises    []riseJSON  `json:"rises"`
	Ratios   []ratioJSON `json:"ratios"`
	Cautions []string    `json:"cautions"`
	// Methods are the energies by each published method, for adults.
	Methods         []methodJSON `json:"methods"`
	MethodsDisagree bool         `json:"methods_disagree"`
}

type methodJSON struct {
	Method   string  `json:"method"`
	Kcal     float64 `json:"kcal"`
	Source   string  `json:"source"`
	Recalled bool    `json:"recalled"`
}

type limitJSON struct {
	ID    nutrients.ID `json:"id"`
	Unit  string       `json:"unit"`
	Lower *float64     `json:"lower"`
	Upper *float64     `json:"upper"`
	Aim   *float64     `json:"aim"`
	// NoHarm is an amount up to which no harm was seen; left out where none is stated.
	NoHarm   *float64 `json:"no_harm,omitempty"`
	Source   string   `json:"source"`
	Recalled bool     `json:"recalled"`
	Steps    []string `json:"steps"`
	// Own is what the household changed of this limit.
	Own *ownLimitJSON `json:"own,omitempty"`
}

// ownLimitJSON is a household's own limit beside what the standard asks for.
type ownLimitJSON struct {
	nutrients.OwnLimit
	StandardLower  *float64 `json:"standard_lower"`
	StandardUpper  *float64 `json:"standard_upper"`
	LoosensMaximum bool     `json:"loosens_maximum"`
	Text           string   `json:"text"`
}

func newOwnLimitJSON(o *nutrients.Override) *ownLimitJSON {
	if o == nil {
		return nil
	}
	return &ownLimitJSON{o.OwnLimit, o.StandardLower, o.StandardUpper, o.LoosensMaximum(), o.Text()}
}

// riseJSON: for each unit of With over Above the minimum of ID is PerUnit higher, all in
// canonical units.
type riseJSON struct {
	ID       nutrients.ID `json:"id"`
	With     nutrients.ID `json:"with"`
	PerUnit  float64      `json:"per_unit"`
	Above    float64      `json:"above"`
	Source   string       `json:"source"`
	Recalled bool         `json:"recalled"`
}

type ratioJSON struct {
	ID       string   `json:"id"`
	Lower    *float64 `json:"lower"`
	Upper    *float64 `json:"upper"`
	Source   string   `json:"source"`
	Recalled bool     `json:"recalled"`
}

// targetsOptions name the pet.
type targetsOptions struct {
	pet string
}

func (o targetsOptions) run(p *program) error {
	_, pet, _, err := petAsked(p, o.pet, "targets Marlow", 1)
	if err != nil {
		return err
	}
	t, err := nutrients.TargetsFor(pet.Animal)
	if err != nil {
		return err
	}
	out := targetsJSON{Format: "bowlwright/targets/1", Pet: pet.Name, Standard: pet.Animal.Standard, EnergyKcal: t.Energy.Kcal,
		EnergySource: t.Energy.Method + "; " + t.Energy.Source.Text, EnergyRecalled: t.Energy.Source.Recalled,
		ReferenceKcal: t.Energy.ReferenceKcal, IdealWeightKg: t.Energy.IdealKg, MetabolicWeight: t.Energy.MetabolicKg,
		Cautions: append([]string{}, t.Cautions...), Methods: []methodJSON{}, Limits: []limitJSON{}, Rises: []riseJSON{}, Ratios: []ratioJSON{}}
	methods, wide := nutrients.EnergyByMethods(pet.Animal)
	out.MethodsDisagree = wide
	for _, m := range methods {
		out.Methods = append(out.Methods, methodJSON{m.Method, m.Kcal, m.Source.Text, m.Source.Recalled})
	}
	for _, l := range t.Limits {
		source, recalled := sources(l)
		out.Limits = append(out.Limits, limitJSON{ID: l.Nutrient, Unit: string(l.Nutrient.Info().Unit), Lower: l.Lower, Upper: l.Upper,
			Aim: l.Aim, NoHarm: l.NoHarm, Source: source, Recalled: recalled, Steps: l.Steps, Own: newOwnLimitJSON(l.Own)})
	}
	for _, r := range t.Rises {
		out.Rises = append(out.Rises, riseJSON{r.Nutrient, r.With, r.PerUnit, r.Above, r.Source.Text, r.Source.Recalled})
	}
	for _, r := range t.Ratios {
		out.Ratios = append(out.Ratios, ratioJSON{ID: r.Key, Lower: r.Lower, Upper: r.Upper, Source: r.Source.Text, Recalled: r.Source.Recalled})
	}
	if p.json {
		return p.printJSON(out)
	}
	printTargets(p, out, t)
	return nil
}

// sources joins the sources of both sides of a limit.
func sources(l nutrients.Limit) (text string, recalled bool) {
	if l.Lower != nil {
		text, recalled = l.LowerSource.Text, l.LowerSource.Recalled
	}
	if l.Upper != nil {
		recalled = recalled || l.UpperSource.Recalled
		if l.UpperSource.Text != text {
			if text != "" {
				text += "; "
			}
			text += l.UpperSource.Text
		}
	}
	return text, recalled
}

func printTargets(p *program, out targetsJSON, t nutrients.Targets) {
	w := p.env.stdout
	fmt.Fprintf(w, "%s, by %s\n\n", out.Pet, out.Standard.Title())
	fmt.Fprintf(w, "Energy %.0f kcal a day, reference %.0f kcal, metabolic weight %.3f kg\n", out.EnergyKcal, out.ReferenceKcal, out.MetabolicWeight)
	for _, s := range t.Energy.Steps {
		fmt.Fprintf(w, "  %s\n", s)
	}
	fmt.Fprintf(w, "  source: %s%s\n", t.Energy.Source.Text, recalledMark(t.Energy.Source.Recalled))
	if out.MethodsDisagree {
		fmt.Fprintf(w, "\nPublished methods disagree widely for a healthy adult of %.4g kg:\n", out.IdealWeightKg)
		for _, m := range out.Methods {
			fmt.Fprintf(w, "  %s [%s%s]\n", m.Method, m.Source, recalledMark(m.Recalled))
		}
		fmt.Fprintln(w, "  Begin with the plan, weigh, and let the weight decide.")
	}
	for _, l := range t.Limits {
		info := l.Nutrient.Info()
		fmt.Fprintf(w, "\n%-26s %s\n", info.Name, span(l.Lower, l.Upper, string(info.Unit)))
		for _, s := range l.Steps {
			fmt.Fprintf(w, "  %s\n", inPrint(s))
		}
	}
	for _, r := range t.Ratios {
		fmt.Fprintf(w, "\n%-26s %s\n  %s%s\n", nutrients.RatioName(r.Key), span(r.Lower, r.Upper, ""), r.Source.Text, recalledMark(r.Source.Recalled))
	}
	for _, caution := range out.Cautions {
		fmt.Fprintf(w, "\nCaution: %s\n", caution)
	}
}

func recalledMark(recalled bool) string {
	if recalled {
		return " (recalled)"
	}
	return ""
}

// shownUnit is a unit as people write it.
func shownUnit(unit string) string { return inPrint(unit) }

// micro matches the unit as files and JSON write it.
var micro = regexp.MustCompile(`\bug\b`)

// inPrint writes the units of a sentence as people do.
func inPrint(s string) string { return micro.ReplaceAllString(s, "µg") }

// fourDigits writes a limit as the arithmetic below it does: four significant digits,
// all that stand before the point, no exponent.
func fourDigits(x float64) string { return number.Digits(x, 4) }

// span writes a range in words.
func span(lower, upper *float64, unit string) string {
	unit = shownUnit(unit)
	var words string
	switch {
	case lower != nil && upper != nil:
		words = fmt.Sprintf("%s to %s %s", fourDigits(*lower), fourDigits(*upper), unit)
	case lower != nil:
		words = fmt.Sprintf("at least %s %s", fourDigits(*lower), unit)
	case upper != nil:
		words = fmt.Sprintf("at most %s %s", fourDigits(*upper), unit)
	default:
		words = "no limit"
	}
	return strings.TrimSpace(words)
}
