package ask

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// fits asks the reader of the files whether it would take what was answered so far
// with one more answer: a question is asked again at once, not after the last.
func (q *Interview) fits(with func(*Household)) error {
	n := q.made
	if n.Base == "" {
		n.Base = "Base"
	}
	with(&n)
	if len(n.Pets) == 0 {
		n.Pets = []Pet{{name: "Animal", species: "dog", weight: "10 kg"}}
	}
	if len(n.Ingredients) == 0 {
		n.Ingredients = []Ingredient{{"oats-rolled-dry", "1 kg", "boiled"}}
	}
	files, err := n.Files()
	if err != nil {
		return err
	}
	fault, err := q.Try(files)
	if err != nil || fault == nil {
		return err
	}
	return &diag.InputError{Code: fault.Code, Summary: fault.Summary, Advice: fault.Hint}
}

// unusedName takes a name that no other animal has. The first animal must have one.
func (q *Interview) unusedName(first bool) func(string) (string, error) {
	return func(s string) (string, error) {
		if slices.ContainsFunc(q.made.Pets, func(other Pet) bool { return strings.EqualFold(other.name, s) }) {
			return "", fmt.Errorf("there is already a %s; choose another name", s)
		}
		if s == "" && first {
			return something(s)
		}
		if s == "" {
			return "", nil
		}
		return s, q.fits(func(h *Household) {
			h.Pets = append(slices.Clone(h.Pets), Pet{name: s, species: "dog", weight: "10 kg"})
		})
	}
}

// animalWeight is what is wrong with the weight of an animal, with its hint.
func animalWeight(s string) error {
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return diag.BadInput(badAnswer, s+" has no unit", fmt.Sprintf(`write "%s kg" or "%s lb"`, s, s))
	}
	return WeightFault(s)
}

// petWeight takes what an animal of its species can weigh.
func (q *Interview) petWeight(pet *Pet) func(string) (string, error) {
	return func(s string) (string, error) {
		if err := animalWeight(s); err != nil {
			return "", err
		}
		return s, q.fits(func(h *Household) {
			h.Pets = []Pet{{name: pet.name, species: pet.species, weight: s}}
		})
	}
}

// adultWeight takes what a growing animal can come to weigh.
func (q *Interview) adultWeight(pet Pet) func(string) (string, error) {
	return func(s string) (string, error) {
		if err := animalWeight(s); err != nil {
			return "", err
		}
		pet.adultWeight = s
		return s, q.fits(func(h *Household) { h.Pets = []Pet{pet} })
	}
}

// yearOrMonth is a birthday of which less than the day is known.
var yearOrMonth = regexp.MustCompile(`^([0-9]{4})(-[0-9]{2})?$`)

// born takes a birthday, or the year or month of it, for which the middle stands.
func (q *Interview) born(pet *Pet) func(string) (string, error) {
	return func(s string) (string, error) {
		pet.bornAbout = false
		if s == "" {
			return "", nil
		}
		if m := yearOrMonth.FindStringSubmatch(s); m != nil {
			early, middle := s+"-01", s+"-15"
			if m[2] == "" {
				early, middle = s+"-01-01", s+"-07-01"
			}
			s = middle
			if day, err := household.ParseDate(middle); err == nil && q.Today.Before(day) {
				s = early
			}
			pet.bornAbout = true
		}
		day, err := household.ParseDate(s)
		if err != nil {
			return "", fmt.Errorf("%w; write it like 2019-05-12, or only the year", err)
		}
		if q.Today.Before(day) {
			return "", fmt.Errorf("%s lies in the future", day)
		}
		if pet.bornAbout {
			fmt.Fprintf(q.Out, "  taken to be about %s\n", day)
		}
		return day.String(), nil
	}
}

// surelyCooked is a method for a food of which the way of cooking is not known yet.
func surelyCooked(f *nutrients.Food) string {
	if cookedRank(f) == 0 {
		return "simmered"
	}
	return ""
}

func (q *Interview) fitsCooked(in Ingredient) error {
	return q.fits(func(h *Household) { h.Ingredients = []Ingredient{in} })
}

// mayBeCooked refuses what harms however it is cooked.
func (q *Interview) mayBeCooked(f *nutrients.Food) error {
	return q.fitsCooked(Ingredient{f.ID, "100 g", surelyCooked(f)})
}

func (q *Interview) mayStandOnShelf(f *nutrients.Food) error {
	return q.fits(func(h *Household) { h.Shelf = []string{f.ID} })
}

// askedColumns is the width of what is shown between the questions.
const askedColumns = 76

// wrapped breaks a list of words into lines that stand two columns in.
func wrapped(words string) string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && len(line)+1+len(w) > askedColumns {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimSpace(line + " " + w)
	}
	return strings.Join(append(lines, line), "\n  ")
}

// answerHint is the hint of an error for somebody who answers questions: words to
// look for are typed as an answer, without the command in front of them.
func answerHint(err error) string {
	return hintOf(err).Render(func(words []string) string {
		if len(words) > 2 && words[0] == "foods" && words[1] == "find" {
			return strings.Join(words[2:], " ")
		}
		return diag.Plain(words)
	})
}

func hintOf(err error) diag.Hint {
	var hinted interface{ Hint() diag.Hint }
	if errors.As(err, &hinted) {
		return hinted.Hint()
	}
	return diag.Hint{}
}
