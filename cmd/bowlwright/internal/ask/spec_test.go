package ask

import (
	"errors"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"bowlwright/household"
	"bowlwright/household/diag"
)

var testDay = household.NewDate(2026, 11, 25)

func TestParsePet(t *testing.T) {
	pet, err := ParsePet("Tansy,  dog, 8.4 kg, born 2014-09-02, Female, spayed, condition 7, low", testDay)
	if err != nil {
		t.Fatal(err)
	}
	want := Pet{name: "Tansy", species: "dog", weight: "8.4 kg", born: "2014-09-02", sex: "female", neutered: true, condition: 7, activity: "low"}
	if pet != want {
		t.Errorf("got %+v, want %+v", pet, want)
	}
	for _, spec := range []string{"", "Tansy", "Tansy, dog", "Tansy, dog, 8.4", "Tansy, dog, 8,4 kg", "Tansy, horse, 8 kg", "Tansy, dog, 8 kg, born tomorrow",
		"Tansy, dog, 8 kg, born 2030-01-01", "Tansy, dog, 8 kg, condition high", "Tansy, dog, 8 stone"} {
		var wrong *diag.InputError
		if _, err := ParsePet(spec, testDay); !errors.As(err, &wrong) || wrong.Advice.IsZero() {
			t.Errorf("%q: %v, want a fault with a hint", spec, err)
		}
	}
}

// FuzzPet: whatever --pet says makes a pet whose file can be read, or a fault with a
// hint.
func FuzzPet(f *testing.F) {
	for _, s := range []string{"Tansy, dog, 8.4 kg, born 2014-09-02, female, neutered, condition 7, low", "Juno, dog, 12 kg, growth, adult 22 kg", "x,cat,4kg", "\",dog,1 kg", "a\nb,dog,1 kg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, spec string) {
		pet, err := ParsePet(spec, testDay)
		if err != nil {
			withHint(t, spec, err)
			return
		}
		if pet.name == "" || pet.weight == "" {
			t.Fatalf("%q: %+v", spec, pet)
		}
		files, err := Household{Name: "x", Base: "x", Pets: []Pet{pet}}.Files()
		if err != nil {
			t.Fatalf("%q: %v", spec, err)
		}
		for _, file := range files {
			var any map[string]any
			if _, err := toml.Decode(file.Text, &any); err != nil {
				t.Fatalf("%q makes a file that is not TOML: %v\n%s", spec, err, file.Text)
			}
		}
	})
}

// FuzzIngredient: whatever --ingredient says is a food of the catalogue with a method
// that is known, or a fault with a hint.
func FuzzIngredient(f *testing.F) {
	for _, s := range []string{"turkey-thigh-skinless-raw, 1.7 kg, simmered", "carrot-raw,1", "carrot-raw, 1 kg, x", "", ",,,,"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, spec string) {
		in, err := ParseIngredient(spec)
		if err != nil {
			withHint(t, spec, err)
			return
		}
		if knownFood(in.Food) != nil || KnownMethod(in.Method) != nil {
			t.Fatalf("%q: %+v", spec, in)
		}
	})
}

func withHint(t *testing.T, spec string, err error) {
	t.Helper()
	badFormat := strings.Contains(err.Error(), "%!") && !strings.Contains(spec, "%!")
	if badFormat || hintOf(err).IsZero() {
		t.Fatalf("%q: no hint: %v", spec, err)
	}
}
