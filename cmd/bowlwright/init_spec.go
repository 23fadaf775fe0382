package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/nutrients"

	"github.com/urfave/cli/v2"
)

// fromOptions takes the new household from the command line.
func fromOptions(c *cli.Context, today household.Date) (newHousehold, error) {
	made := newHousehold{name: c.String("name"), standard: c.String("standard"), scale: c.String("scale"), fineScale: c.String("fine-scale"),
		meals: c.Int("meals"), base: c.String("base"), shelf: c.StringSlice("addon")}
	if made.name == "" {
		made.name = "Our household"
	}
	if made.base == "" {
		made.base = "Our base"
	}
	for _, spec := range c.StringSlice("pet") {
		pet, err := parsePet(spec, today)
		if err != nil {
			return made, err
		}
		made.pets = append(made.pets, pet)
	}
	if len(c.StringSlice("ingredient")) == 0 {
		return made, badInput("the base has no ingredients", `give each as --ingredient "turkey-thigh-skinless-raw, 1.7 kg, simmered"`)
	}
	for _, spec := range c.StringSlice("ingredient") {
		in, err := parseIngredient(spec)
		if err != nil {
			return made, err
		}
		made.ingredients = append(made.ingredients, in)
	}
	for _, id := range made.shelf {
		if err := knownFood(id); err != nil {
			return made, err
		}
	}
	if c.Bool("usual-shelf") {
		for _, id := range usualShelf {
			if !slices.Contains(made.shelf, id) {
				made.shelf = append(made.shelf, id)
			}
		}
	}
	return made, nil
}

// knownFood refuses an id that the catalogue does not have, with the nearest.
func knownFood(id string) error {
	cat := nutrients.Default()
	if _, ok := cat.Food(id); ok {
		return nil
	}
	problem := fmt.Sprintf("no food has the id %q", id)
	if near, ok := cat.Nearest(id); ok {
		return badInput(problem, "did you mean "+near+"?")
	}
	return badInput(problem, "find ids with", "foods", "find", "WORDS")
}

func splitSpec(spec string) []string {
	parts := strings.Split(spec, ",")
	for i := range parts {
		parts[i] = strings.Join(strings.Fields(parts[i]), " ")
	}
	return parts
}

// parsePet reads "Tansy, dog, 8.4 kg, born 2014-09-02, neutered, condition 7".
func parsePet(spec string, today household.Date) (newPet, error) {
	parts := splitSpec(spec)
	pet := newPet{name: parts[0]}
	if pet.name == "" {
		return pet, badInput(fmt.Sprintf("--pet %q has no name", spec), `write the name first, like "Tansy, dog, 8.4 kg"`)
	}
	for _, part := range parts[1:] {
		if err := pet.take(strings.ToLower(part), today); err != nil {
			hints := hintsOf(err)
			if len(hints) == 0 {
				hints = []diag.Hint{{Text: `write it like "Tansy, dog, 8.4 kg, born 2014-09-02, female, neutered, condition 7, low"`}}
			}
			return pet, &inputError{fmt.Sprintf("--pet %s: %v", pet.name, err), hints}
		}
	}
	if pet.species == "" || pet.weight == "" {
		return pet, badInput(fmt.Sprintf("--pet %q needs dog or cat, and a weight", spec), `write it like "Tansy, dog, 8.4 kg"`)
	}
	return pet, nil
}

// take reads one word or pair of a pet's description.
func (pet *newPet) take(part string, today household.Date) error {
	key, value, _ := strings.Cut(part, " ")
	switch {
	case part == "dog", part == "cat":
		pet.species = part
	case part == "male", part == "female":
		pet.sex = part
	case part == "neutered", part == "spayed":
		pet.neutered = true
	case part == "intact":
		pet.neutered = false
	case slices.Contains([]string{"low", "moderate", "high", "working"}, part):
		pet.activity = part
	case slices.Contains([]string{"adult", "growth", "gestation", "lactation"}, part):
		pet.stage = part
	case key == "born":
		born, err := household.ParseDate(value)
		if err != nil {
			return err
		}
		if today.Before(born) {
			return fmt.Errorf("born on %s lies in the future", born)
		}
		pet.born = born.String()
	case key == "adult":
		pet.adultWeight = value
		return animalWeight(value)
	case key == "condition", key == "week", key == "litter":
		n, err := strconv.Atoi(value)
		if err != nil {
			return fmt.Errorf("%s takes a whole number, not %q", key, value)
		}
		*map[string]*int{"condition": &pet.condition, "week": &pet.week, "litter": &pet.litter}[key] = n
	case part != "" && part[0] >= '0' && part[0] <= '9':
		pet.weight = part
		return animalWeight(part)
	default:
		return fmt.Errorf("%q is not understood", part)
	}
	return nil
}

func weightFault(text string) error {
	_, err := quantity.Weight(text)
	return err
}

// parseIngredient reads "turkey-thigh-skinless-raw, 1.7 kg, simmered".
func parseIngredient(spec string) (newIngredient, error) {
	parts := splitSpec(spec)
	if len(parts) < 2 || len(parts) > 3 {
		return newIngredient{}, badInput(fmt.Sprintf("--ingredient %q is not understood", spec), `write it like "turkey-thigh-skinless-raw, 1.7 kg, simmered"`)
	}
	if err := knownFood(parts[0]); err != nil {
		return newIngredient{}, err
	}
	in := newIngredient{food: parts[0], amount: parts[1]}
	if len(parts) == 3 {
		in.method = parts[2]
		if err := knownMethod(in.method); err != nil {
			return in, err
		}
	}
	return in, nil
}

func knownMethod(method string) error {
	if method == "" || slices.Contains(nutrients.Methods(), method) {
		return nil
	}
	return badInput(fmt.Sprintf("no way of cooking is named %q", method), "known are: "+strings.Join(nutrients.Methods(), ", "))
}
