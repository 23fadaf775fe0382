package household

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// The files of a household.
const (
	householdFile = "household.toml"
	weightsFile   = "weights.csv"
	basesFolder   = "bases"
	foodsFolder   = "foods"
	recordsFolder = "records"
)

// Load reads household.toml, bases/, foods/ and weights.csv of a folder. Every
// fault of every file is in the list; a list with errors comes with a nil
// household. Err is for what is not the files' fault (a folder that is not there
// is the user's, and a diagnostic).
func Load(dir string, today Date) (*Household, diag.List, error) {
	l := &loader{dir: dir, today: today, home: &Household{Dir: dir}}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, diag.List{{Code: "folder-missing", Summary: fmt.Sprintf("there is no folder %s", dir),
			Hint: diag.Command("name the household's folder with --household DIR, or start one with", "init"), At: diag.Span{File: dir}}}, nil
	}
	main := openDocument(dir, householdFile)
	foods, err := l.open(foodsFolder)
	if err != nil {
		return nil, nil, err
	}
	bases, err := l.open(basesFolder)
	if err != nil {
		return nil, nil, err
	}
	l.broken = main.broken
	l.readFoods(foods)
	l.readBases(bases)
	if main.root != nil {
		l.readHousehold(main)
	}
	l.collect(main)
	l.collect(bases...)
	l.collect(foods...)
	l.readWeights()
	if l.diags.HasErrors() || main.root == nil {
		return nil, l.diags, nil
	}
	return l.home, l.diags, nil
}

// FindDir returns the nearest folder upwards from start that holds household.toml.
func FindDir(start string) (string, bool) {
	dir, err := filepath.Abs(start)
	if err != nil {
		return "", false
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, householdFile)); err == nil {
			return dir, true
		}
		above := filepath.Dir(dir)
		if above == dir {
			return "", false
		}
		dir = above
	}
}

// loader gathers one household.
type loader struct {
	dir   string
	today Date
	home  *Household
	// broken is true when lines of household.toml are no TOML.
	broken bool
	diags  diag.List
	// species are those of the pets, for what harms them.
	species []nutrients.Species
	// bases holds the files of bases/ and what was built from them.
	bases *baseReader
}

func (l *loader) open(folder string) ([]*document, error) {
	files, err := tomlFiles(l.dir, folder)
	if err != nil {
		return nil, fmt.Errorf("cannot list %s: %w", folder, withoutPath(err))
	}
	docs := make([]*document, 0, len(files))
	for _, f := range files {
		docs = append(docs, openDocument(l.dir, f))
	}
	return docs, nil
}

// collect takes over the diagnostics of documents, in the order of lines.
func (l *loader) collect(docs ...*document) {
	for _, d := range docs {
		l.diags = append(l.diags, d.sorted()...)
	}
}

func (l *loader) readFoods(docs []*document) {
	var own []*nutrients.Food
	from := map[string]*document{}
	for _, d := range docs {
		if d.root == nil {
			continue
		}
		f := readFood(d)
		if first, twice := from[f.ID]; twice {
			d.table().fault("id", "food-twice", fmt.Sprintf("the food %q stands in %s too", f.ID, first.file), "give one of them another id")
			continue
		}
		from[f.ID] = d
		own = append(own, f)
	}
	l.home.Catalogue = nutrients.Default()
	if len(own) > 0 {
		l.home.Catalogue = l.home.Catalogue.With(own...)
	}
}

func (l *loader) readHousehold(d *document) {
	t := d.table()
	t.only("name", "base", "standard", "kitchen", "pet", "addon")
	h := l.home
	h.Name, _ = t.text("name")
	if h.Name == "" && !t.has("name") {
		h.Name = filepath.Base(l.dir)
	}
	h.Standard = readStandard(t, nutrients.NRC2006)
	h.Kitchen = readKitchen(t)
	l.readPets(t)
	l.readBase(t)
	l.checkFeeding(t)
	l.readAddons(t)
}

// readStandard reads the name of a standard.
func readStandard(t table, otherwise nutrients.StandardID) nutrients.StandardID {
	s, ok := t.choice("standard", string(nutrients.NRC2006), string(nutrients.FEDIAF2021), string(nutrients.AAFCO2016))
	if !ok {
		return otherwise
	}
	return nutrients.StandardID(s)
}

// readBase finds the base in use.
func (l *loader) readBase(t table) {
	known := sortedKeys(l.bases.docs)
	name, ok := t.text("base")
	if !ok {
		if !t.has("base") {
			hint := "write base = \"NAME\" for a file bases/NAME.toml"
			if len(known) > 0 {
				hint = fmt.Sprintf("write base = %q", known[0])
			}
			t.missing("base", "the base in use is not named", hint)
		}
		return
	}
	if _, there := l.bases.docs[name]; !there {
		hint := fmt.Sprintf("write the file bases/%s.toml", clip(name))
		// A path is as good as the name of the file for whoever looks at the folder.
		asFile := strings.TrimSuffix(filepath.Base(filepath.FromSlash(name)), ".toml")
		if near, found := diag.Nearest(asFile, known); found {
			hint = fmt.Sprintf("did you mean %q?", near)
		} else if len(known) > 0 {
			hint = "known: " + joinSome(known)
		}
		t.fault("base", "unknown-batch", fmt.Sprintf("there is no batch bases/%s.toml", clip(name)), hint)
		return
	}
	l.home.Base = l.home.Batches[name]
}
