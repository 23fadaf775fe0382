package reading

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/tomldoc"
	"bowlwright/household/visible"
	"bowlwright/nutrients"
)

// The files of a household.
const (
	householdFile = "household.toml"
	WeightsFile   = "weights.csv"
	BasesFolder   = "bases"
	FoodsFolder   = "foods"
)

// Load reads household.toml, bases/, foods/ and weights.csv of a folder. Every
// fault of every file is in the list; a list with errors comes with a nil
// household. Err is for what is not the files' fault (a folder that is not there
// is the user's, and a diagnostic).
func Load(dir string, today household.Date) (*household.Household, diag.List, error) {
	l := &loader{dir: dir, today: today, home: &household.Household{Dir: dir}}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, diag.List{{Code: "folder-missing", Summary: fmt.Sprintf("there is no folder %s", dir),
			Hint: diag.Command("name the household's folder with --household DIR, or start one with", "init"), At: diag.Span{File: dir}}}, nil
	}
	main := tomldoc.Open(dir, householdFile)
	foods, err := l.open(FoodsFolder)
	if err != nil {
		return nil, nil, err
	}
	bases, err := l.open(BasesFolder)
	if err != nil {
		return nil, nil, err
	}
	standards, err := l.open(StandardsFolder)
	if err != nil {
		return nil, nil, err
	}
	l.broken = main.Broken
	l.readStandards(standards)
	l.readFoods(foods)
	l.readBases(bases)
	if main.Root != nil {
		l.readHousehold(main)
	}
	l.collect(main)
	l.collect(bases...)
	l.collect(foods...)
	l.collect(standards...)
	l.readWeights()
	for i := range l.home.Pets {
		l.home.Score(&l.home.Pets[i], l.today)
	}
	if l.diags.HasErrors() || main.Root == nil {
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
	today household.Date
	home  *household.Household
	// broken is true when lines of household.toml are no TOML.
	broken bool
	diags  diag.List
	// species are those of the pets, for what harms them.
	species []nutrients.Species
	// standards are those of standards/.
	standards map[nutrients.StandardID]*nutrients.OwnStandard
	// bases holds the files of bases/ and what was built from them.
	bases *baseReader
}

func (l *loader) open(folder string) ([]*tomldoc.Document, error) {
	files, err := tomldoc.List(l.dir, folder)
	if err != nil {
		return nil, fmt.Errorf("cannot list %s: %w", folder, diag.Cause(err))
	}
	docs := make([]*tomldoc.Document, 0, len(files))
	for _, f := range files {
		docs = append(docs, tomldoc.Open(l.dir, f))
	}
	return docs, nil
}

// collect takes over the diagnostics of documents, in the order of lines.
func (l *loader) collect(docs ...*tomldoc.Document) {
	for _, d := range docs {
		l.diags = append(l.diags, d.Sorted()...)
	}
}

func (l *loader) readFoods(docs []*tomldoc.Document) {
	var own []*nutrients.Food
	from := map[string]*tomldoc.Document{}
	byShape := map[string]*nutrients.Food{}
	for _, d := range docs {
		if d.Root == nil {
			continue
		}
		f := foodfile.Read(d)
		if first, twice := from[f.ID]; twice {
			d.Table().Fault("id", "food-twice", fmt.Sprintf("the food %q stands in %s too", f.ID, first.File), "give one of them another id")
			continue
		}
		from[f.ID] = d
		own = append(own, f)
		shape := visible.Shape(f.Name)
		if other, twice := byShape[shape]; twice && other.Name != f.Name {
			d.Table().Fault("name", "look-alike", fmt.Sprintf("the names of two foods look the same: %s in %s, and %s", other.Name, from[other.ID].File, f.Name), "give one of them another name")
		} else if !twice {
			byShape[shape] = f
		}
	}
	l.home.Catalogue = nutrients.Default()
	if len(own) > 0 {
		l.home.Catalogue = l.home.Catalogue.With(own...)
	}
}

func (l *loader) readHousehold(d *tomldoc.Document) {
	t := d.Table()
	t.Only("name", "base", "standard", "kitchen", "pet", "addon", "jar")
	h := l.home
	h.Name, _ = t.Text("name")
	if h.Name == "" && !t.Has("name") {
		h.Name = filepath.Base(l.dir)
	}
	h.Standard = l.readStandard(t, nutrients.NRC2006)
	h.Kitchen = readKitchen(t)
	l.readPets(t)
	l.readBase(t)
	l.checkFeeding(t)
	l.readAddons(t)
	l.readJars(t)
}

// readStandard reads the name of a standard, one of the program's or of standards/.
func (l *loader) readStandard(t tomldoc.Table, otherwise nutrients.StandardID) nutrients.StandardID {
	var known []string
	for _, id := range nutrients.Standards() {
		known = append(known, string(id))
	}
	for _, id := range slices.Sorted(maps.Keys(l.standards)) {
		known = append(known, string(id))
	}
	s, ok := t.Choice("standard", known...)
	if !ok {
		return otherwise
	}
	return nutrients.StandardID(s)
}

// readBase finds the base in use.
func (l *loader) readBase(t tomldoc.Table) {
	known := slices.Sorted(maps.Keys(l.bases.docs))
	name, ok := t.Text("base")
	if !ok {
		if !t.Has("base") {
			hint := "write base = \"NAME\" for a file bases/NAME.toml"
			if len(known) > 0 {
				hint = fmt.Sprintf("write base = %q", known[0])
			}
			t.Missing("base", "the base in use is not named", hint)
		}
		return
	}
	if _, there := l.bases.docs[name]; !there {
		hint := fmt.Sprintf("write the file bases/%s.toml", diag.Clip(name))
		// A path is as good as the name of the file for whoever looks at the folder.
		asFile := strings.TrimSuffix(filepath.Base(filepath.FromSlash(name)), ".toml")
		if near, found := diag.Nearest(asFile, known); found {
			hint = fmt.Sprintf("did you mean %q?", near)
		} else if len(known) > 0 {
			hint = "known: " + diag.JoinSome(known)
		}
		t.Fault("base", "unknown-batch", fmt.Sprintf("there is no batch bases/%s.toml", diag.Clip(name)), hint)
		return
	}
	l.home.Base = l.home.Batches[name]
}
