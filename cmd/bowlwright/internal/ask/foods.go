package ask

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowlwright/nutrients"
)

// foundShown is how many foods a search offers.
const foundShown = 9

// food asks for a food by words and lets choose among what is found; an empty answer
// ends the list. Further words narrow what is found, unless nothing is left.
func (q *Interview) food(question string, mayEnd bool, allowed func(*nutrients.Food) error) (*nutrients.Food, error) {
	cat := nutrients.Default()
	var offered []*nutrients.Food
	var chosen *nutrients.Food
	var before []string
	_, err := q.ask(question, "", func(s string) (string, error) {
		if s == "" && mayEnd {
			return "", nil
		}
		take := func(f *nutrients.Food) (string, error) {
			if err := allowed(f); err != nil {
				return "", err
			}
			chosen = f
			return s, nil
		}
		if f, ok := cat.Food(strings.ToLower(s)); ok {
			return take(f)
		}
		if i, err := strconv.Atoi(s); err == nil && i >= 1 && i <= len(offered) {
			return take(offered[i-1])
		}
		words := strings.Fields(s)
		found := cat.Find(slices.Concat(before, words)...)
		if len(found) == 0 {
			found, before = cat.Find(words...), nil
		}
		// What goes into a pot is mostly raw.
		slices.SortStableFunc(found, func(a, b *nutrients.Food) int { return cmp.Compare(cookedRank(a), cookedRank(b)) })
		switch {
		case s == "":
			return "", fmt.Errorf("write a word or two, like turkey thigh")
		case len(found) == 0:
			return "", NothingFound(cat, words)
		case len(found) == 1:
			return take(found[0])
		}
		before = slices.Concat(before, words)
		offered = found[:min(len(found), foundShown)]
		var lines []string
		for i, f := range offered {
			lines = append(lines, fmt.Sprintf("%d  %s", i+1, f.Name))
		}
		if len(found) > len(offered) {
			lines = append(lines, fmt.Sprintf("and %d more; a further word narrows it down", len(found)-len(offered)))
		}
		return "", fmt.Errorf("write the number, or other words:\n  %s", strings.Join(lines, "\n  "))
	})
	if chosen != nil {
		fmt.Fprintf(q.Out, "  %s\n", chosen.Name)
	}
	return chosen, err
}

// cookedRank puts what is raw or dry before what is cooked already.
func cookedRank(f *nutrients.Food) int {
	if f.State == "raw" || f.State == "dry" {
		return 0
	}
	return 1
}

// cooked asks for the ingredients of the base.
func (q *Interview) cooked() ([]Ingredient, error) {
	var all []Ingredient
	told := false
	for {
		question := "Next thing that goes into the pot, or return when done"
		if len(all) == 0 {
			question = "What goes into the pot first, in a word or two"
		}
		f, err := q.food(question, len(all) > 0, q.mayBeCooked)
		if err != nil || f == nil {
			return all, err
		}
		in := Ingredient{Food: f.ID}
		in.Amount, err = q.ask("How much of it, with the unit, like 1.7 kg", "", func(s string) (string, error) {
			return s, q.fitsCooked(Ingredient{Food: in.Food, Amount: s, Method: surelyCooked(f)})
		})
		if err != nil {
			return nil, err
		}
		if cookedRank(f) == 0 {
			methods := nutrients.Methods()
			if !told {
				fmt.Fprintf(q.Out, "  %s\n", wrapped(strings.Join(methods, ", ")))
			}
			told = true
			in.Method, err = q.ask("Cooked how, in a word of these, or return when it goes in as it is", "", func(s string) (string, error) {
				method := ""
				if s != "" {
					var err error
					if method, err = oneOf(methods...)(s); err != nil {
						return "", err
					}
				}
				return method, q.fitsCooked(Ingredient{in.Food, in.Amount, method})
			})
			if err != nil {
				return nil, err
			}
		}
		q.caution(f, in.Method)
		all = append(all, in)
	}
}

// caution tells what is known against a food as it goes into the pot.
func (q *Interview) caution(f *nutrients.Food, method string) {
	told := map[string]bool{}
	for _, pet := range q.made.Pets {
		for _, h := range nutrients.HazardsCooked(f, nutrients.Species(pet.species), method) {
			if !told[h.Text] {
				fmt.Fprintf(q.Out, "  note: %s\n", wrapped(h.Text))
			}
			told[h.Text] = true
		}
	}
}

// shelf asks for the add-ons at hand.
func (q *Interview) shelf() ([]string, error) {
	var names []string
	for _, id := range UsualShelf {
		if f, ok := nutrients.Default().Food(id); ok {
			names = append(names, f.Name)
		}
	}
	fmt.Fprintf(q.Out, "\nThe common supplements:\n  %s\n", wrapped(strings.Join(names, "; ")))
	usual, err := q.ask("Put the common supplements on the shelf; you can delete some later", "yes", oneOf("yes", "no"))
	if err != nil {
		return nil, err
	}
	var shelf []string
	if usual == "yes" {
		shelf = slices.Clone(UsualShelf)
	}
	for {
		f, err := q.food("Anything else on the shelf, in a word or two, or return when done", true, q.mayStandOnShelf)
		if err != nil || f == nil {
			return shelf, err
		}
		if !slices.Contains(shelf, f.ID) {
			shelf = append(shelf, f.ID)
		}
	}
}

// kitchen asks for meals and scales.
func (q *Interview) kitchen(n *Household) error {
	fmt.Fprintln(q.Out)
	meals, err := q.ask("How many meals a day", strconv.Itoa(n.Meals), oneOf("1", "2", "3", "4", "5", "6"))
	if err != nil {
		return err
	}
	n.Meals, _ = strconv.Atoi(meals)
	if n.Scale, err = q.ask("The smallest step of the kitchen scale", n.Scale, func(s string) (string, error) {
		return s, q.fits(func(h *Household) { h.Scale = s })
	}); err != nil {
		return err
	}
	n.FineScale, err = q.ask("The smallest step of a powder scale, like 0.01 g, or return when there is none", n.FineScale, func(s string) (string, error) {
		return s, q.fits(func(h *Household) { h.FineScale = s })
	})
	return err
}
