package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/nutrients"
)

// Options are a new household in the words of a command line; see ParsePet and
// ParseIngredient for the form of a pet and of an ingredient.
type Options struct {
	Name, Standard, Scale, FineScale, Base string
	Meals                                  int
	Pets, Ingredients, Addons              []string
	UsualShelf                             bool
}

// FromOptions makes a household of options. What it cannot take is a *diag.InputError.
func FromOptions(o Options, today household.Date) (Household, error) {
	made := Household{Name: o.Name, Standard: o.Standard, Scale: o.Scale, FineScale: o.FineScale, Meals: o.Meals, Base: o.Base, Shelf: o.Addons}
	if made.Name == "" {
		made.Name = "Our household"
	}
	if made.Base == "" {
		made.Base = "Our base"
	}
	for _, spec := range o.Pets {
		pet, err := ParsePet(spec, today)
		if err != nil {
			return made, err
		}
		made.Pets = append(made.Pets, pet)
	}
	if len(o.Ingredients) == 0 {
		return made, diag.BadInput(badAnswer, "the base has no ingredients", `give each as --ingredient "turkey-thigh-skinless-raw, 1.7 kg, simmered"`)
	}
	for _, spec := range o.Ingredients {
		in, err := ParseIngredient(spec)
		if err != nil {
			return made, err
		}
		made.Ingredients = append(made.Ingredients, in)
	}
	for _, id := range made.Shelf {
		if err := knownFood(id); err != nil {
			return made, err
		}
	}
	if o.UsualShelf {
		for _, id := range UsualShelf {
			if !slices.Contains(made.Shelf, id) {
				made.Shelf = append(made.Shelf, id)
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
		return diag.BadInput(badAnswer, problem, "did you mean "+near+"?")
	}
	return diag.BadInput(badAnswer, problem, "find ids with", "foods", "find", "WORDS")
}

func splitSpec(spec string) []string {
	parts := strings.Split(spec, ",")
	for i := range parts {
		parts[i] = strings.Join(strings.Fields(parts[i]), " ")
	}
	return parts
}

// ParsePet reads "Tansy, dog, 8.4 kg, born 2014-09-02, neutered, condition 7".
func ParsePet(spec string, today household.Date) (Pet, error) {
	parts := splitSpec(spec)
	pet := Pet{name: parts[0]}
	if pet.name == "" {
		return pet, diag.BadInput(badAnswer, fmt.Sprintf("--pet %q has no name", spec), `write the name first, like "Tansy, dog, 8.4 kg"`)
	}
	for _, part := range parts[1:] {
		if err := pet.take(strings.ToLower(part), today); err != nil {
			hint := hintOf(err)
			if hint.IsZero() {
				hint = diag.Hint{Text: `write it like "Tansy, dog, 8.4 kg, born 2014-09-02, female, neutered, condition 7, low"`}
			}
			return pet, &diag.InputError{Code: badAnswer, Summary: fmt.Sprintf("--pet %s: %v", pet.name, err), Advice: hint}
		}
	}
	if pet.species == "" || pet.weight == "" {
		return pet, diag.BadInput(badAnswer, fmt.Sprintf("--pet %q needs dog or cat, and a weight", spec), `write it like "Tansy, dog, 8.4 kg"`)
	}
	return pet, nil
}

// take reads one word or pair of a pet's description.
func (pet *Pet) take(part string, today household.Date) error {
	key, value, _ := strings.Cut(part, " ")
	switch {
	case part == string(nutrients.Dog), part == string(nutrients.Cat):
		pet.species = part
	case part == string(household.Male), part == string(household.Female):
		pet.sex = part
	case part == "neutered", part == "spayed":
		pet.neutered = true
	case part == "intact":
		pet.neutered = false
	case slices.Contains([]nutrients.Activity{nutrients.Low, nutrients.Moderate, nutrients.High, nutrients.Working}, nutrients.Activity(part)):
		pet.activity = part
	case slices.Contains([]nutrients.Stage{nutrients.Adult, nutrients.Growth, nutrients.Gestation, nutrients.Lactation}, nutrients.Stage(part)):
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

func WeightFault(text string) error {
	_, err := quantity.Weight(text)
	return err
}

// ParseIngredient reads "turkey-thigh-skinless-raw, 1.7 kg, simmered".
func ParseIngredient(spec string) (Ingredient, error) {
	parts := splitSpec(spec)
	if len(parts) < 2 || len(parts) > 3 {
		return Ingredient{}, diag.BadInput(badAnswer, fmt.Sprintf("--ingredient %q is not understood", spec), `write it like "turkey-thigh-skinless-raw, 1.7 kg, simmered"`)
	}
	if err := knownFood(parts[0]); err != nil {
		return Ingredient{}, err
	}
	in := Ingredient{Food: parts[0], Amount: parts[1]}
	if len(parts) == 3 {
		in.Method = parts[2]
		if err := KnownMethod(in.Method); err != nil {
			return in, err
		}
	}
	return in, nil
}

func KnownMethod(method string) error {
	if method == "" || slices.Contains(nutrients.Methods(), method) {
		return nil
	}
	return diag.BadInput(badAnswer, fmt.Sprintf("no way of cooking is named %q", method), "known are: "+strings.Join(nutrients.Methods(), ", "))
}
