package household

import (
	"cmp"
	"math"
	"slices"

	"bowlwright/nutrients"
)

const (
	// traceG and traceShare say which powders are traces: less than either is mixed into
	// a little of the largest powder first (common practice).
	traceG, traceShare = 10.0, 0.02
	// firstG is how much of the largest powder the traces are mixed into, doublings how
	// often that is then doubled at most.
	firstG    = 10.0
	doublings = 3
	// goodShare is how far from its recipe's weight a mix may come out: 2 g in a
	// thousand (common practice).
	goodShare = mixTolerance
)

// MixPart is one of the three parts of a mixing.
type MixPart int

// The parts: the traces with ten grams of the largest powder, that doubled, and the rest.
const (
	MixTraces MixPart = iota
	MixDoubling
	MixRest
)

// MixStep is one weighing of a mixing.
type MixStep struct {
	Part MixPart
	Food string
	Name string
	G    float64
	// TotalG is what the scale then shows when nothing was tared.
	TotalG float64
	// Rest is true for what is left of a powder of which some is in already.
	Rest bool
}

// Steps is the order in which a jar is mixed: the traces, least first, with ten grams of
// the largest powder, then doubled with that powder, then the rest, small to large.
func (j *Jar) Steps() []MixStep {
	parts := slices.Clone(j.Parts)
	slices.SortStableFunc(parts, func(a, b JarPart) int { return cmp.Compare(a.G, b.G) })
	largest := parts[len(parts)-1]
	var steps []MixStep
	total := 0.0
	add := func(part MixPart, p JarPart, g float64, rest bool) {
		total = math.Round((total+g)*1e6) / 1e6
		steps = append(steps, MixStep{part, p.Food, p.Name, g, total, rest})
	}
	traces := 0
	for _, p := range parts[:len(parts)-1] {
		if p.G < traceG && p.G < traceShare*j.MakesG {
			add(MixTraces, p, p.G, false)
			traces++
		}
	}
	left := largest.G
	if traces > 0 && left > firstG {
		add(MixTraces, largest, firstG, false)
		left -= firstG
		for range doublings {
			g := math.Round(total)
			if left <= 2*g {
				break
			}
			add(MixDoubling, largest, g, false)
			left -= g
		}
	}
	for _, p := range parts[traces : len(parts)-1] {
		add(MixRest, p, p.G, false)
	}
	add(MixRest, largest, math.Round(left*1e6)/1e6, left < largest.G)
	return steps
}

// Good is the range in grams in which a mix is taken for whole.
func (j *Jar) Good() (from, to float64) {
	room := max(goodShare*j.MakesG, j.StepG)
	return j.MakesG - room, j.MakesG + room
}

// MixSheet is what a mixing sheet shows of one jar.
type MixSheet struct {
	Household string
	Jar       Jar
	Base      string // the code of the base that the doses go with
	Date      Date   // of the plans
	Steps     []MixStep
	Doses     []MixDose
	// TakenG is what the doses take in the jar's days.
	TakenG float64
	// Beside are the totals of what is given directly in the jar's days, each pet's
	// added up.
	Beside   []MixBeside
	Cautions []string
	// InHand is the mix of this jar in hand, nil for none.
	InHand *Mixing
}

// MixDose is a pet's dose.
type MixDose struct {
	Pet     string
	Species nutrients.Species
	Stage   nutrients.Stage
	DoseG   float64
	// DaysG is the dose times the days of the jar.
	DaysG float64
	// Again is the day by which the dose is worked out anew, zero where the jar ends before.
	Again Date
}

// MixBeside is what is given directly of an add-on in all.
type MixBeside struct {
	Name string
	G    float64
}

// MixSheets are the mixing sheets of the jars that plans in use take from, shared ones
// first, each once.
func MixSheets(pairs []Paired) []*MixSheet {
	var all []*MixSheet
	byDigest := map[string]*MixSheet{}
	for _, shared := range []bool{true, false} {
		for _, p := range pairs {
			pet := &p.Plan().Pet
			if !pet.Status.Printable() || shared && pet.Jar == nil {
				continue
			}
			var j Jar
			dose, inHand := 0.0, p.OwnMix()
			if shared {
				j, dose, inHand = pet.Jar.Mix, pet.Jar.DoseG, p.Mix()
			} else {
				own, ok := pet.OwnJar()
				if !ok {
					continue
				}
				j, dose = own, pet.Premix.ServeG
			}
			s := byDigest[j.Name+j.Digest]
			if s == nil {
				s = &MixSheet{Household: p.Plan().Household, Jar: j, Base: p.Plan().Base.Code, Date: p.Plan().Date, Steps: j.Steps(), InHand: inHand}
				s.Jar.Pets = nil
				byDigest[j.Name+j.Digest] = s
				all = append(all, s)
			}
			s.add(p.Plan(), dose)
		}
	}
	return all
}

// add puts a pet onto the sheet.
func (s *MixSheet) add(plan *Plan, dose float64) {
	pet := &plan.Pet
	days := float64(s.Jar.Days)
	d := MixDose{Pet: pet.Pet, Species: pet.Species, Stage: pet.Stage, DoseG: dose, DaysG: math.Round(dose*days*1e6) / 1e6}
	lasts := oldAdultDays
	if pet.Stage != nutrients.Adult {
		lasts = oldYoungDays
	}
	if lasts < s.Jar.Days {
		d.Again = plan.Date.AddDays(lasts)
	}
	s.Jar.Pets = append(s.Jar.Pets, pet.Pet)
	s.Doses = append(s.Doses, d)
	s.TakenG = math.Round((s.TakenG+d.DaysG)*1e6) / 1e6
	for _, a := range pet.Addons {
		if a.ServedAs == "jar" || a.ServedAs == "premix" {
			continue
		}
		i := slices.IndexFunc(s.Beside, func(b MixBeside) bool { return b.Name == a.Name })
		if i < 0 {
			i = len(s.Beside)
			s.Beside = append(s.Beside, MixBeside{Name: a.Name})
		}
		s.Beside[i].G += a.G * days
	}
	for _, part := range s.Jar.Parts {
		for _, c := range pet.Cautions {
			if len(c) > len(part.Name)+1 && c[:len(part.Name)+1] == part.Name+":" && !slices.Contains(s.Cautions, c) {
				s.Cautions = append(s.Cautions, c)
			}
		}
	}
}
