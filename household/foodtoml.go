package household

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/safefile"
	"bowlwright/nutrients"
)

// FoodTOML writes a food as a file of foods/, such that reading it gives the same
// figures. Figures that the source does not know are left out.
func FoodTOML(f *nutrients.Food) string {
	var b strings.Builder
	line := func(key, value string) {
		if strings.TrimSpace(value) != "" {
			fmt.Fprintf(&b, "%s = %s\n", key, TOMLText(value))
		}
	}
	line("id", f.ID)
	line("name", f.Name)
	line("group", f.Group)
	line("state", f.State)
	line("source", f.Source.Text)
	if f.Carrier {
		b.WriteString("carrier = true\n")
	} else if f.Powder {
		b.WriteString("powder = true\n")
	}
	profile := &f.Per100g
	if f.PerUnit != nil {
		profile = f.PerUnit
		line("per", "1 "+f.UnitName)
		if f.UnitGrams > 0 {
			line("unit_grams", exact(f.UnitGrams)+" g")
		}
	}
	b.WriteString("\n[figures]\n")
	for id, figure := range profile {
		id := nutrients.ID(id)
		if id.Derived() || !figure.IsKnown() {
			continue
		}
		line(id.String(), labelText(figure, id.Info().Unit))
	}
	return b.String()
}

// ImportFoods writes foods as new files of foods/, under the lock. A food whose id
// the household or the catalogue has already, and one with a file in its way, is an
// *diag.InputError, and nothing is written.
func (r *Records) ImportFoods(h *Household, foods []*nutrients.Food) (written []string, err error) {
	unlock, err := r.lock()
	if err != nil {
		return nil, err
	}
	defer unlock()
	dir := filepath.Join(r.dir, foodsFolder)
	seen := map[string]bool{}
	for _, f := range foods {
		path := filepath.Join(dir, f.ID+".toml")
		_, known := h.Catalogue.Food(f.ID)
		_, statErr := os.Lstat(path)
		switch {
		case !kebab.MatchString(f.ID):
			return nil, diag.BadInput("bad-id", fmt.Sprintf("%q cannot be the id of a food", clip(f.ID)), "use lower-case letters, digits and single dashes")
		case known || seen[f.ID]:
			return nil, diag.BadInput("food-twice", fmt.Sprintf("there is a food %q already", f.ID), "give it another id in the file to import")
		case statErr == nil:
			return nil, diag.BadInput("file-in-the-way", fmt.Sprintf("%s is there already", r.shown(path)), "move it away, or give the food another id")
		}
		seen[f.ID] = true
	}
	files := make([]safefile.File, 0, len(foods))
	for _, f := range foods {
		files = append(files, safefile.File{Name: f.ID + ".toml", Data: []byte(FoodTOML(f))})
		written = append(written, r.shown(filepath.Join(dir, f.ID+".toml")))
	}
	if err := safefile.Replace(dir, files); err != nil {
		return nil, err
	}
	return written, nil
}
