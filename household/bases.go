package household

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// maxBatchDepth bounds batches within batches.
const maxBatchDepth = 8

// maxFoods bounds the foods of a batch, counted through all batches within it, so
// that a batch of batches of batches cannot grow without end.
const maxFoods = 5000

// maxDays bounds how long a batch should last (common practice: frozen food keeps
// its quality for some months).
const maxDays = 180

// A cooked batch outside these shares of its raw weight is a typing slip: meat
// loses at most about half of its weight, dry grain takes up three times its own
// (common practice).
const (
	minYieldShare = 0.2
	maxYieldShare = 5
)

// baseReader reads bases/ with its batches within batches.
type baseReader struct {
	l     *loader
	docs  map[string]*document
	built map[string]*Batch
	// foods counts the foods in each batch that was built.
	foods map[*Batch]int
	// path is the chain of files being read, for cycles.
	path []string
}

func (l *loader) readBases(docs []*document) {
	r := &baseReader{l: l, docs: map[string]*document{}, built: map[string]*Batch{}, foods: map[*Batch]int{}}
	l.bases = r
	for _, d := range docs {
		r.docs[stem(d.file)] = d
	}
	l.home.Batches = map[string]*Batch{}
	for _, name := range sortedKeys(r.docs) {
		if b := r.batch(name); b != nil {
			l.home.Batches[name] = b
		}
	}
	r.refuseCollisions()
}

// batch builds one batch, or nil when it has faults.
func (r *baseReader) batch(name string) *Batch {
	if b, done := r.built[name]; done {
		return b
	}
	d := r.docs[name]
	if d.root == nil {
		return nil
	}
	r.path = append(r.path, name)
	defer func() { r.path = r.path[:len(r.path)-1] }()
	before := len(d.diags)
	b := &Batch{File: name}
	t := d.table()
	t.only("name", "yield", "loss", "days", "liquid", "ingredient")
	b.Name = name
	if s, ok := t.text("name"); ok {
		b.Name = strings.TrimSpace(s)
	}
	b.Days, _ = t.whole("days", 1, maxDays, "write how many days a batch should last")
	liquid, _ := t.choice("liquid", "kept", "poured")
	b.KeepsLiquid = liquid == "kept"
	ingredients := t.many("ingredient")
	for _, it := range ingredients {
		if in, ok := r.ingredient(it); ok {
			b.Ingredients = append(b.Ingredients, in)
		}
	}
	if len(ingredients) == 0 && (!t.has("ingredient") || len(d.diags) == before) {
		t.missing("ingredient", "the batch has no ingredients", "begin one with a line [[ingredient]] and below it food = \"…\" and amount = \"…\"")
	}
	count := 0
	for _, in := range b.Ingredients {
		count += max(1, r.foods[in.Batch])
	}
	if r.foods[b] = count; count > maxFoods {
		t.fault("ingredient", "batch-size", fmt.Sprintf("the batch holds %d foods, with those of the batches within it", count), fmt.Sprintf("keep it under %d", maxFoods))
	}
	readYield(t, b)
	if len(d.diags) > before || d.broken {
		b = nil
	}
	r.built[name] = b
	return b
}

func (r *baseReader) ingredient(t table) (Ingredient, bool) {
	var in Ingredient
	t.only("food", "batch", "amount", "method", "price")
	in.PricePerG, _ = t.quantity("price", "7.90 per kg", parsePrice)
	if !t.has("amount") {
		t.missing("amount", "an ingredient has no amount", "write amount = \"400 g\"")
	}
	if t.has("batch") {
		if t.has("food") {
			t.fault("food", "food-and-batch", "an ingredient is a food or a batch, not both", "take one of the two out, or write two ingredients")
			return in, false
		}
		if t.has("method") {
			t.fault("method", "batch-method", "a batch is cooked already and has no method here", "take the line out")
		}
		name, ok := t.text("batch")
		if !ok {
			return in, false
		}
		in.Batch = r.nested(t, name)
		in.Grams, ok = t.amount("amount", &nutrients.Food{ID: name})
		return in, ok && in.Batch != nil
	}
	var ok bool
	if in.Food, ok = t.food("food", r.l.home.Catalogue); !ok {
		return in, false
	}
	if in.Food.PerUnit != nil && in.Food.UnitGrams == 0 {
		t.fault("food", "unit-weight-missing", fmt.Sprintf("%s is given by the %s and cannot be cooked by weight", in.Food.ID, in.Food.UnitName), "put it on the shelf as an [[addon]]")
		return in, false
	}
	in.Method = t.method("method")
	t.refuseHazards(in.Food, in.Method, nutrients.Dog, nutrients.Cat)
	in.Grams, ok = t.amount("amount", in.Food)
	return in, ok
}

// nested finds a batch that is an ingredient; a batch must not hold itself.
func (r *baseReader) nested(t table, name string) *Batch {
	if _, there := r.docs[name]; !there {
		known := slices.DeleteFunc(sortedKeys(r.docs), func(s string) bool { return s == r.path[len(r.path)-1] })
		hint := fmt.Sprintf("write the file bases/%s.toml", clip(name))
		if near, ok := diag.Nearest(name, known); ok {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		t.fault("batch", "unknown-batch", fmt.Sprintf("there is no batch bases/%s.toml", clip(name)), hint)
		return nil
	}
	if i := slices.Index(r.path, name); i >= 0 {
		chain := append(slices.Clone(r.path[i:]), name)
		t.fault("batch", "batch-cycle", "a batch is made of itself: "+strings.Join(chain, " > "), "take one of these ingredients out")
		return nil
	}
	b := r.batch(name)
	if chain := b.deepest(); len(chain) > maxBatchDepth {
		t.fault("batch", "batch-depth", fmt.Sprintf("batches within batches go deeper than %d: %s > %s", maxBatchDepth, r.path[len(r.path)-1], strings.Join(chain, " > ")), "put the foods of an inner batch here instead")
		return nil
	}
	if b == nil && len(r.docs[name].diags) > 0 && !r.cycleAbove(name) {
		t.fault("batch", "batch-faulty", fmt.Sprintf("bases/%s.toml has errors", name), "correct them first")
	}
	return b
}

// deepest returns the longest chain of batches within batches, from the outermost.
func (b *Batch) deepest() []string {
	if b == nil {
		return nil
	}
	var longest []string
	for _, in := range b.Ingredients {
		if chain := in.Batch.deepest(); len(chain) > len(longest) {
			longest = chain
		}
	}
	return append([]string{b.File}, longest...)
}

// cycleAbove says whether a batch failed only because it leads back to one that
// is being read; the cycle is reported once, where it closes.
func (r *baseReader) cycleAbove(name string) bool {
	return slices.ContainsFunc(r.docs[name].diags, func(d diag.Diagnostic) bool { return d.Code == "batch-cycle" })
}

// readYield reads yield or loss.
func readYield(t table, b *Batch) {
	raw := b.RawGrams()
	if t.has("yield") && t.has("loss") {
		t.fault("loss", "yield-and-loss", "yield and loss say the same twice", "keep one of the two")
		return
	}
	if g, ok := t.positive("yield", "7.9 kg", parseMass); ok {
		if raw > 0 && (g < minYieldShare*raw || g > maxYieldShare*raw) {
			t.fault("yield", "absurd-yield", fmt.Sprintf("%s kg cooked from %s kg of ingredients cannot be", trim(g/1000), trim(raw/1000)), "weigh the cooked batch, or leave yield out")
		}
		b.YieldG = g
	}
	if x, ok := t.quantity("loss", "12 %", parsePercent); ok {
		if x < 0 || x > 1-minYieldShare {
			t.fault("loss", "out-of-range", fmt.Sprintf("a loss of %s %% cannot be", trim(100*x)), "write what cooking takes away, like \"12 %\"; for a gain write yield = \"7.9 kg\"")
			return
		}
		b.YieldG = raw * (1 - x)
	}
}

// refuseCollisions notices two recipes whose codes look the same, though a
// thousand million codes make that rare: their containers could not be told apart.
func (r *baseReader) refuseCollisions() {
	owner, digest := map[string]string{}, map[string]string{}
	for _, name := range sortedKeys(r.l.home.Batches) {
		recipe := r.l.home.Batches[name].recipeDigest()
		code := codeOf(recipe)
		if first, taken := owner[code]; taken && digest[code] != recipe {
			r.docs[name].whole("code-collision", fmt.Sprintf("bases/%s.toml and bases/%s.toml are different recipes with the same code %s", name, first, code), "change an amount in one of them by a gram")
			continue
		}
		owner[code], digest[code] = name, recipe
	}
}
