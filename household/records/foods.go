package records

import (
	"fmt"
	"os"
	"path/filepath"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/reading"
	"bowlwright/household/safefile"
	"bowlwright/nutrients"
)

// ImportFoods writes foods as new files of foods/, under the lock. A food whose id
// the household or the catalogue has already, and one with a file in its way, is an
// *diag.InputError, and nothing is written.
func (r *Folder) ImportFoods(h *household.Household, foods []*nutrients.Food) (written []string, err error) {
	unlock, err := r.lock()
	if err != nil {
		return nil, err
	}
	defer unlock()
	dir := filepath.Join(r.dir, reading.FoodsFolder)
	seen := map[string]bool{}
	for _, f := range foods {
		path := filepath.Join(dir, f.ID+".toml")
		_, known := h.Catalogue.Food(f.ID)
		_, statErr := os.Lstat(path)
		switch {
		case !foodfile.IsID(f.ID):
			return nil, diag.BadInput("bad-id", fmt.Sprintf("%q cannot be the id of a food", diag.Clip(f.ID)), "use lower-case letters, digits and single dashes")
		case known || seen[f.ID]:
			return nil, diag.BadInput("food-twice", fmt.Sprintf("there is a food %q already", f.ID), "give it another id in the file to import")
		case statErr == nil:
			return nil, diag.BadInput("file-in-the-way", fmt.Sprintf("%s is there already", r.shown(path)), "move it away, or give the food another id")
		}
		seen[f.ID] = true
	}
	files := make([]safefile.File, 0, len(foods))
	for _, f := range foods {
		files = append(files, safefile.File{Name: f.ID + ".toml", Data: []byte(foodfile.TOML(f))})
		written = append(written, r.shown(filepath.Join(dir, f.ID+".toml")))
	}
	if err := safefile.Replace(dir, files); err != nil {
		return nil, err
	}
	return written, nil
}
