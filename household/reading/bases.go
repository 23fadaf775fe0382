package reading

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/household/visible"
	"bowlwright/nutrients"
)

// maxFoods bounds the foods of a batch, counted through all batches within it, so
// that a batch of batches of batches cannot grow without end.
const maxFoods = 5000

// maxDays bounds how long a batch should last (common practice: frozen food keeps
// its quality for some months).
const maxDays = 180

// baseReader reads bases/ with its batches within batches.
type baseReader struct {
	l     *loader
	docs  map[string]*tomldoc.Document
	built map[string]*household.Batch
	// foods counts the foods in each batch that was built.
	foods map[*household.Batch]int
	// path is the chain of files being read, for cycles.
	path []string
}

func (l *loader) readBases(docs []*tomldoc.Document) {
	r := &baseReader{l: l, docs: map[string]*tomldoc.Document{}, built: map[string]*household.Batch{}, foods: map[*household.Batch]int{}}
	l.bases = r
	for _, d := range docs {
		r.docs[d.Stem()] = d
	}
	l.home.Batches = map[string]*household.Batch{}
	for _, name := range slices.Sorted(maps.Keys(r.docs)) {
		if b := r.batch(name); b != nil {
			l.home.Batches[name] = b
		}
	}
	r.refuseCollisions()
}

// batch builds one batch, or nil when it has faults.
func (r *baseReader) batch(name string) *household.Batch {
	if b, done := r.built[name]; done {
		return b
	}
	d := r.docs[name]
	if d.Root == nil {
		return nil
	}
	r.path = append(r.path, name)
	defer func() { r.path = r.path[:len(r.path)-1] }()
	before := len(d.Diags)
	b := &household.Batch{File: name}
	t := d.Table()
	t.Only("name", "yield", "loss", "days", "liquid", "ingredient")
	b.Name = name
	if s, ok := t.Text("name"); ok {
		b.Name = strings.TrimSpace(s)
	}
	b.Days, _ = t.WholeNumber("days", 1, maxDays, "write how many days a batch should last")
	liquid, _ := t.Choice("liquid", "kept", "poured")
	b.KeepsLiquid = liquid == "kept"
	ingredients := t.Many("ingredient")
	for _, it := range ingredients {
		if in, ok := r.ingredient(it); ok {
			b.Ingredients = append(b.Ingredients, in)
		}
	}
	if len(ingredients) == 0 && (!t.Has("ingredient") || len(d.Diags) == before) {
		t.Missing("ingredient", "the batch has no ingredients", "begin one with a line [[ingredient]] and below it food = \"…\" and amount = \"…\"")
	}
	count := 0
	for _, in := range b.Ingredients {
		count += max(1, r.foods[in.Batch])
	}
	if r.foods[b] = count; count > maxFoods {
		t.Fault("ingredient", "batch-size", fmt.Sprintf("the batch holds %d foods, with those of the batches within it", count), fmt.Sprintf("keep it under %d", maxFoods))
	}
	readYield(t, b)
	if len(d.Diags) > before || d.Broken {
		b = nil
	}
	r.built[name] = b
	return b
}

func (r *baseReader) ingredient(t tomldoc.Table) (household.Ingredient, bool) {
	var in household.Ingredient
	t.Only("food", "batch", "amount", "method", "price", "have", "pack")
	in.Stock = readStock(t)
	in.PricePerG, _ = t.Quantity("price", "7.90 per kg", quantity.PricePerGram)
	if !t.Has("amount") {
		t.Missing("amount", "an ingredient has no amount", "write amount = \"400 g\"")
	}
	if t.Has("batch") {
		if t.Has("food") {
			t.Fault("food", "food-and-batch", "an ingredient is a food or a batch, not both", "take one of the two out, or write two ingredients")
			return in, false
		}
		if t.Has("method") {
			t.Fault("method", "batch-method", "a batch is cooked already and has no method here", "take the line out")
		}
		name, ok := t.Text("batch")
		if !ok {
			return in, false
		}
		in.Batch = r.nested(t, name)
		in.Grams, ok = foodfile.Amount(t, "amount", &nutrients.Food{ID: name})
		return in, ok && in.Batch != nil
	}
	var ok bool
	if in.Food, ok = foodfile.Named(t, "food", r.l.home.Catalogue); !ok {
		return in, false
	}
	if in.Food.PerUnit != nil && in.Food.UnitGrams == 0 {
		t.Fault("food", "unit-weight-missing", fmt.Sprintf("%s is given by the %s and cannot be cooked by weight", in.Food.ID, in.Food.UnitName), "put it on the shelf as an [[addon]]")
		return in, false
	}
	in.Method = readMethod(t, "method")
	foodfile.RefuseHazards(t, in.Food, in.Method, nutrients.Dog, nutrients.Cat)
	in.Grams, ok = foodfile.Amount(t, "amount", in.Food)
	return in, ok
}

// nested finds a batch that is an ingredient; a batch must not hold itself.
func (r *baseReader) nested(t tomldoc.Table, name string) *household.Batch {
	if _, there := r.docs[name]; !there {
		known := slices.DeleteFunc(slices.Sorted(maps.Keys(r.docs)), func(s string) bool { return s == r.path[len(r.path)-1] })
		hint := fmt.Sprintf("write the file bases/%s.toml", diag.Clip(name))
		if near, ok := diag.Nearest(name, known); ok {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		t.Fault("batch", "unknown-batch", fmt.Sprintf("there is no batch bases/%s.toml", diag.Clip(name)), hint)
		return nil
	}
	if i := slices.Index(r.path, name); i >= 0 {
		chain := append(slices.Clone(r.path[i:]), name)
		t.Fault("batch", "batch-cycle", "a batch is made of itself: "+strings.Join(chain, " > "), "take one of these ingredients out")
		return nil
	}
	b := r.batch(name)
	if chain := deepest(b); len(chain) > household.MaxBatchDepth {
		t.Fault("batch", "batch-depth", fmt.Sprintf("batches within batches go deeper than %d: %s > %s", household.MaxBatchDepth, r.path[len(r.path)-1], strings.Join(chain, " > ")), "put the foods of an inner batch here instead")
		return nil
	}
	if b == nil && len(r.docs[name].Diags) > 0 && !r.cycleAbove(name) {
		t.Fault("batch", "batch-faulty", fmt.Sprintf("bases/%s.toml has errors", name), "correct them first")
	}
	return b
}

// deepest returns the longest chain of batches within batches, from the outermost.
func deepest(b *household.Batch) []string {
	if b == nil {
		return nil
	}
	var longest []string
	for _, in := range b.Ingredients {
		if chain := deepest(in.Batch); len(chain) > len(longest) {
			longest = chain
		}
	}
	return append([]string{b.File}, longest...)
}

// cycleAbove says whether a batch failed only because it leads back to one that
// is being read; the cycle is reported once, where it closes.
func (r *baseReader) cycleAbove(name string) bool {
	return slices.ContainsFunc(r.docs[name].Diags, func(d diag.Diagnostic) bool { return d.Code == "batch-cycle" })
}

// readYield reads yield or loss.
func readYield(t tomldoc.Table, b *household.Batch) {
	raw := b.RawGrams()
	if t.Has("yield") && t.Has("loss") {
		t.Fault("loss", "yield-and-loss", "yield and loss say the same twice", "keep one of the two")
		return
	}
	if g, ok := t.Positive("yield", "7.9 kg", quantity.Mass); ok {
		if raw > 0 && (g < household.MinYieldShare*raw || g > household.MaxYieldShare*raw) {
			t.Fault("yield", "absurd-yield", fmt.Sprintf("%s kg cooked from %s kg of ingredients cannot be", quantity.Text(g/1000), quantity.Text(raw/1000)), "weigh the cooked batch, or leave yield out")
		}
		b.YieldG = g
	}
	if x, ok := t.Quantity("loss", "12 %", quantity.Share); ok {
		if x < 0 || x > 1-household.MinYieldShare {
			t.Fault("loss", "out-of-range", fmt.Sprintf("a loss of %s %% cannot be", quantity.Text(100*x)), "write what cooking takes away, like \"12 %\"; for a gain write yield = \"7.9 kg\"")
			return
		}
		b.YieldG = raw * (1 - x)
	}
}

// readMethod reads a cooking method.
func readMethod(t tomldoc.Table, key string) string {
	m, ok := t.Choice(key, nutrients.Methods()...)
	if !ok {
		return ""
	}
	return m
}

// refuseCollisions notices two recipes whose names look the same though they differ, or
// whose codes are the same, though a
// thousand million codes make that rare: their containers could not be told apart.
func (r *baseReader) refuseCollisions() {
	owner, digest := map[string]string{}, map[string]string{}
	for _, name := range slices.Sorted(maps.Keys(r.l.home.Batches)) {
		recipe := r.l.home.Batches[name].RecipeDigest()
		code := household.CodeOf(recipe)
		if first, taken := owner[code]; taken && digest[code] != recipe {
			r.docs[name].FaultOfFile("code-collision", fmt.Sprintf("bases/%s.toml and bases/%s.toml are different recipes with the same code %s", name, first, code), "change an amount in one of them by a gram")
			continue
		}
		owner[code], digest[code] = name, recipe
	}
	shapes := map[string]string{}
	for _, file := range slices.Sorted(maps.Keys(r.l.home.Batches)) {
		name := r.l.home.Batches[file].Name
		shape := visible.Shape(name)
		if other, twice := shapes[shape]; twice && other != name {
			r.docs[file].Table().Fault("name", "look-alike", fmt.Sprintf("the names of two bases look the same: %s and %s", other, name), "give one of them another name")
		}
		shapes[shape] = name
	}
}
