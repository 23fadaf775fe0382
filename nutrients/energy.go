package nutrients

import (
	"fmt"
	"math"
)

// Sources of the energy equations.
var (
	srcNRC       = Source{Text: "NRC 2006, ch. 3 and 15"}
	srcNRCRecall = Source{Text: "NRC 2006, ch. 3 and 15", Recalled: true}
	srcFEDIAF    = Source{Text: "FEDIAF 2018/19, Annex VII, table VII-12"}
	srcFEDIAFMem = Source{Text: "FEDIAF 2021, Annex VII", Recalled: true}
	srcCatLoss   = Source{Text: "Cat Healthy Protocols, nutritional assessment; 0.8 x resting energy at ideal weight"}
	srcDogLoss   = Source{Text: "AAHA weight management guidelines; 1.0 x resting energy at ideal weight", Recalled: true}
)

// Coefficients in kcal per kg metabolic weight and day.
const (
	restingPerKg75  = 70.0  // resting energy of dogs and cats, per kg^0.75
	nrcReferenceDog = 130.0 // the active adult dog for which NRC set its densities
	nrcReferenceCat = 100.0 // the lean adult cat, likewise
	dogLossFactor   = 1.0   // of the resting energy at ideal weight
	catLossFactor   = 0.8
)

// Share over the ideal weight up to which an animal counts as being there: the scale,
// a meal and a drink move the weight by as much (common practice). From obese on, 20 %
// over, the published factor for loss holds in full; between them the energy goes down
// in a straight line, so that a few grams change nothing.
const (
	weightBand = 0.02
	obeseFrom  = 0.20
	// nearGoal is the share over the ideal weight from which on a diet goes over into
	// holding it (our own line).
	nearGoal = 0.05
)

// What an owner's own energy may be without a question: times the resting energy of
// an adult, from under the factor for loss to the hardest work of a pet (factors of
// 0.8 to 3 in the WSAVA and AAHA lists, recalled); times the equation of other stages
// (common practice).
const (
	leastOfResting, mostOfResting   = 0.8, 3.0
	leastOfEquation, mostOfEquation = 0.8, 1.5
)

// Resting returns the resting energy in kcal/day: 70 x kg^0.75, both species.
func Resting(kg float64) float64 { return restingPerKg75 * math.Pow(kg, dogExponent) }

// An UnweanedError says that an animal still needs its mother's milk, and that no day
// is planned for it.
type UnweanedError struct {
	Species  Species
	AgeWeeks int
}

func (e *UnweanedError) Error() string {
	return fmt.Sprintf("a %s of %d weeks lives on milk: no food is planned before %d days", young[e.Species], e.AgeWeeks, 7*weanedWeeks)
}

// Hint says what to do instead.
func (e *UnweanedError) Hint() string {
	return fmt.Sprintf("leave it with its mother, or feed a milk replacer for %ss as its label and a veterinarian say, weigh it daily, and plan from four weeks on",
		young[e.Species])
}

// ExitCode is the program's code for what is not fed as it stands: a plan that cannot
// meet its targets.
func (e *UnweanedError) ExitCode() int { return 3 }

// weanedWeeks is the age from which young begin to eat: the growth equations hold
// after weaning (NRC 2006), and solid food begins in the fourth week (common practice).
const weanedWeeks = 4

var young = map[Species]string{Dog: "puppy", Cat: "kitten"}

// A RangeError says why no equation is valid for an animal.
type RangeError struct{ Reason, Remedy string }

func (e *RangeError) Error() string { return e.Reason }

// ExitCode is 2, bad input: the household's files do not say enough, or too much.
func (e *RangeError) ExitCode() int { return 2 }

// Hint returns the remedy. It is never a command: this package knows none.
func (e *RangeError) Hint() string { return e.Remedy }

// EnergyFor returns the daily energy of an animal, or a *RangeError that says
// why no equation is valid for it (growth without an adult weight, say), or an
// *UnweanedError.
func EnergyFor(a Animal) (EnergyNeed, error) {
	if a.WeightKg <= 0 {
		return EnergyNeed{}, &RangeError{"the weight is not known", "give the weight in kg"}
	}
	if a.Stage == Growth && a.AgeWeeks >= 0 && a.AgeWeeks < weanedWeeks {
		return EnergyNeed{}, &UnweanedError{a.Species, a.AgeWeeks}
	}
	var n EnergyNeed
	var err error
	switch a.Stage {
	case Growth:
		n, err = growthEnergy(a)
	case Gestation:
		n, err = gestationEnergy(a)
	case Lactation:
		n, err = lactationEnergy(a)
	default:
		n, err = adultEnergy(a)
	}
	if err != nil {
		return EnergyNeed{}, err
	}
	n.IdealKg = a.Ideal()
	n.MetabolicKg = MetabolicKg(a.Species, n.IdealKg)
	if a.EnergyKcal > 0 {
		n.Steps = append(n.Steps, fmt.Sprintf("the equation gives %.0f kcal; the household gives %.0f kcal, which counts", n.Kcal, a.EnergyKcal))
		n.Cautions = append(n.Cautions, givenCautions(a, n.Kcal)...)
		n.Losing = n.Losing && a.EnergyKcal < adultReference(a)
		n.Kcal = a.EnergyKcal
		n.Method = fmt.Sprintf("given by the household: %.0f kcal", a.EnergyKcal)
		n.Source = Source{Text: "household"}
	}
	n.Cautions = append(n.Cautions, conditionCautions(a, n.Losing)...)
	return n, nil
}

// adultReference is the energy for which the standard's densities were set, at
// ideal weight. FEDIAF's two adult tables carry their own reference. AAFCO names none;
// the 18 % of protein that it asks for adult dogs are what FEDIAF asks at 110 kcal per
// kg^0.75, and its 26 % for cats FEDIAF's 25 % at 100, so these are taken. With NRC's
// 130 a dieting dog was asked for 84 g of protein per 1000 kcal.
func adultReference(a Animal) float64 {
	ideal := MetabolicKg(a.Species, a.Ideal())
	if a.Own != nil {
		return a.Own.Reference[a.Species] * ideal
	}
	if a.Species == Cat {
		return nrcReferenceCat * ideal
	}
	if a.Standard == FEDIAF2021 || a.Standard == AAFCO2016 {
		return fediafReferenceDog * ideal
	}
	return nrcReferenceDog * ideal
}

// fediafReferenceDog is the energy of FEDIAF's table for active dogs, per kg^0.75.
const fediafReferenceDog = 110.0

func adultEnergy(a Animal) (EnergyNeed, error) {
	ideal := a.Ideal()
	n := EnergyNeed{ReferenceKcal: adultReference(a)}
	unit := "kg^0.75"
	if a.Species == Cat {
		unit = "kg^0.67"
	}
	k, basis, err := coefficient(a)
	if err != nil {
		return n, err
	}
	n.Kcal = k * MetabolicKg(a.Species, ideal)
	n.Source = basis.Source
	n.Method = fmt.Sprintf("%.4g x %.2f %s = %.0f kcal (%s)", k, ideal, unit, n.Kcal, basis.Method)
	n.Steps = append(n.Steps, n.Method)
	if a.Activity == Working {
		n.Steps = append(n.Steps, "working dogs need 150 to 175 kcal per kg^0.75; the low end is used, watch the weight")
	}
	if text := oldAge(a); text != "" {
		n.Steps = append(n.Steps, text)
	}
	over := a.WeightKg/ideal - 1
	if over <= weightBand {
		return n, nil
	}
	factor, source := dogLossFactor, srcDogLoss
	if a.Species == Cat {
		factor, source = catLossFactor, srcCatLoss
	}
	least := factor * Resting(ideal)
	n.Losing = true
	n.Source = source
	n.Steps = append([]string{fmt.Sprintf("ideal weight %.2f kg: %.2f kg are %.1f %% over", ideal, a.WeightKg, 100*over)}, n.Steps...)
	loss := fmt.Sprintf("%.1f x 70 x %.2f^0.75 = %.0f kcal", factor, ideal, least)
	share := reduction(over)
	// What was begun at the weight of the score is kept up until shortly before the goal:
	// food that grows as the animal shrinks would end every diet halfway.
	if began := a.ScoredKg/ideal - 1; began > over {
		share = max(share, reduction(began)*min(1, (over-weightBand)/(nearGoal-weightBand)))
	}
	if share >= 1-1e-9 {
		n.Kcal = least
		n.Method = loss + ", to lose weight"
	} else {
		// Never more than would hold the ideal weight, whatever the factor.
		hold := n.Kcal
		n.Kcal = hold - share*max(0, hold-least)
		n.Method = fmt.Sprintf("%.0f - %.2f x (%.0f - %.0f) = %.0f kcal, to lose weight slowly", hold, share, hold, least, n.Kcal)
		n.Steps = append(n.Steps, loss+" for a loss in full", fmt.Sprintf("share of the way, from %.0f to %.0f %% over the ideal weight: %.2f", 100*weightBand, 100*obeseFrom, share))
	}
	n.Steps = append(n.Steps, n.Method)
	return n, nil
}

// reduction is the share of the way from holding the ideal weight to the published factor
// for loss, for a share over it.
func reduction(over float64) float64 {
	return max(0, min(1, (over-weightBand)/(obeseFrom-weightBand)))
}

// givenCautions compares the energy that the owner gives with what is published.
func givenCautions(a Animal, equation float64) []string {
	if a.Stage == Adult || a.Stage == "" {
		resting := Resting(a.Ideal())
		if times := a.EnergyKcal / resting; times < leastOfResting || times > mostOfResting {
			return []string{fmt.Sprintf("The energy you give, %.0f kcal, is %.1f times the resting need of %.0f kcal; adults live on %.1f to %.0f times, and the equation gives %.0f kcal. Check the figure for a typing error.",
				a.EnergyKcal, times, resting, leastOfResting, mostOfResting, equation)}
		}
		return nil
	}
	if times := a.EnergyKcal / equation; times < leastOfEquation || times > mostOfEquation {
		return []string{fmt.Sprintf("The energy you give, %.0f kcal, is %.1f times the %.0f kcal of the equation for this stage. Check the figure for a typing error.",
			a.EnergyKcal, times, equation)}
	}
	return nil
}

// conditionCautions are our own words for what follows from the condition.
func conditionCautions(a Animal, losing bool) []string {
	var c []string
	switch {
	case a.Condition >= 8:
		c = append(c, "Condition 8 or 9: a veterinarian sets the target weight and follows the loss.")
	case losing:
		c = append(c, "Made for slow weight loss: aim for 0.5 to 2 % of body weight a week, weigh every two weeks, and see a veterinarian if it goes faster or not at all.")
	case a.Condition >= 1 && a.Condition <= 3:
		c = append(c, "Thin animal: no weight loss is planned; a veterinarian should look for the cause.")
	}
	if losing && a.Species == Cat {
		c = append(c, "A cat that stops eating for a day needs a veterinarian at once: its liver is at risk.")
	}
	return c
}
