package household

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/foodfile"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// readLimits reads the limits that the household changes for a pet. They are held
// against the standard's, which the rest of the pet must have been read for.
func readLimits(t tomldoc.Table, p *Pet) {
	tables := t.Many("limit")
	if len(tables) == 0 {
		return
	}
	standard, err := nutrients.TargetsFor(p.Animal)
	for _, lt := range tables {
		o, ok := readLimit(lt)
		if !ok || err != nil {
			continue // what is wrong with the animal itself is reported elsewhere
		}
		if i := slices.IndexFunc(p.Animal.Limits, func(x nutrients.OwnLimit) bool { return x.Nutrient == o.Nutrient }); i >= 0 {
			lt.Fault("nutrient", "limit-twice", fmt.Sprintf("%s is limited twice", o.Nutrient), "write minimum and maximum of one nutrient in one [[pet.limit]]")
			continue
		}
		if !readDrop(lt, &o, standard.Limits) {
			continue
		}
		if o.Minimum == nil && o.Maximum == nil && !o.DropMinimum && !o.DropMaximum {
			lt.Missing("maximum", "the limit changes nothing", "write minimum = \"…\", maximum = \"1.2 g per 1000 kcal\", or drop = true")
			continue
		}
		alone := p.Animal
		alone.Limits = []nutrients.OwnLimit{o}
		changed, err := nutrients.TargetsFor(alone)
		var cannot *nutrients.RangeError
		if errors.As(err, &cannot) {
			lt.Fault("maximum", "limits-cross", cannot.Error(), cannot.Hint())
			continue
		}
		if loosened := slices.ContainsFunc(changed.Overrides, nutrients.Override.LoosensMaximum); loosened && o.By == "" {
			lt.Fault("maximum", "nobody-prescribed", "the day may hold more than is known to be safe, and nobody is named who prescribed that", "write by = \"…\", for example by = \"the veterinarian\"")
			continue
		}
		p.Animal.Limits = append(p.Animal.Limits, o)
	}
}

// readLimit reads one limit apart from what it drops.
func readLimit(t tomldoc.Table) (nutrients.OwnLimit, bool) {
	t.Only("nutrient", "minimum", "maximum", "drop", "reason", "by")
	var o nutrients.OwnLimit
	before := len(t.Doc.Diags)
	key, ok := t.Text("nutrient")
	if !ok {
		if !t.Has("nutrient") {
			t.Missing("nutrient", "a limit names no nutrient", "write nutrient = \"phosphorus\"")
		}
		return o, false
	}
	id, known := nutrients.ParseID(key)
	if !known || id == nutrients.Energy {
		foodfile.UnknownNutrient(t, "nutrient", key)
		return o, false
	}
	o.Nutrient = id
	o.Minimum, o.Maximum = readOwnAmount(t, "minimum", id), readOwnAmount(t, "maximum", id)
	if o.Reason, ok = t.Text("reason"); !ok && !t.Has("reason") {
		t.Missing("reason", "a limit has no reason", "write reason = \"…\": it stands on every card and page")
	}
	o.By, _ = t.Text("by")
	o.Reason, o.By = strings.TrimSpace(o.Reason), strings.TrimSpace(o.By)
	return o, len(t.Doc.Diags) == before
}

// readOwnAmount reads "1.2 g per 1000 kcal", "0.05 g per kg" (of ideal weight) or
// "300 mg" (a day).
func readOwnAmount(t tomldoc.Table, key string, id nutrients.ID) *nutrients.OwnAmount {
	const example = "write it like \"1.2 g per 1000 kcal\", \"0.05 g per kg\" (of ideal weight) or \"300 mg\" (a day)"
	if !t.Has(key) {
		return nil
	}
	text, ok := t.Text(key)
	if !ok {
		return nil
	}
	figure, per, parted := strings.Cut(text, " per ")
	a := nutrients.OwnAmount{Per: nutrients.OwnPerDay}
	if parted {
		a.Per = nutrients.OwnPer(strings.Join(strings.Fields(per), " "))
	}
	if a.Per != nutrients.OwnPerDay && a.Per != nutrients.OwnPer1000kcal && a.Per != nutrients.OwnPerKgIdeal {
		t.Fault(key, "limit-form", fmt.Sprintf("a limit cannot be per %q", diag.Clip(per)), example)
		return nil
	}
	x, unit, err := quantity.Split(figure)
	if err != nil {
		t.InputFault(key, err)
		return nil
	}
	if unit == "" {
		t.Fault(key, "no-unit", fmt.Sprintf("%q has no unit", diag.Clip(text)), example)
		return nil
	}
	if a.Value, err = nutrients.Convert(x, unit, id); err != nil {
		t.Fault(key, "unknown-unit", err.Error(), "write it in "+string(id.Info().Unit))
		return nil
	}
	if a.Value < 0 || key == "maximum" && a.Value == 0 {
		t.Fault(key, "not-positive", key+" must be greater than zero", example)
		return nil
	}
	return &a
}

// readDrop reads drop = true, "minimum" or "maximum". True is enough where the standard
// has one of the two.
func readDrop(t tomldoc.Table, o *nutrients.OwnLimit, standard []nutrients.Limit) bool {
	side := ""
	switch v := t.Value("drop").(type) {
	case nil:
		return true
	case bool:
		if !v {
			return true
		}
		l := limitFor(o.Nutrient, standard)
		switch {
		case l.Lower != nil && l.Upper != nil:
			t.Fault("drop", "drop-which", fmt.Sprintf("%s has a minimum and a maximum", o.Nutrient), "write drop = \"minimum\" or drop = \"maximum\"")
			return false
		case l.Lower != nil:
			side = "minimum"
		default:
			side = "maximum"
		}
	default:
		var ok bool
		if side, ok = t.Choice("drop", "minimum", "maximum"); !ok {
			return false
		}
	}
	l := limitFor(o.Nutrient, standard)
	given, has := o.Minimum, l.Lower
	if side == "maximum" {
		given, has = o.Maximum, l.Upper
	}
	switch {
	case given != nil:
		t.Fault("drop", "limit-and-drop", "the "+side+" is given and dropped", "keep one of the two")
		return false
	case has == nil:
		t.Fault("drop", "nothing-to-drop", fmt.Sprintf("the standard has no %s of %s for this animal", side, o.Nutrient), "leave the line out")
		return false
	}
	o.DropMinimum, o.DropMaximum = side == "minimum", side == "maximum"
	return true
}

// sameOwnLimits says whether a plan was made for the limits that the animal has now.
func sameOwnLimits(was []OwnLimit, a nutrients.Animal) bool {
	now, err := nutrients.TargetsFor(a)
	if err != nil {
		return len(was) == len(a.Limits)
	}
	return slices.EqualFunc(was, now.Overrides, func(w OwnLimit, n nutrients.Override) bool { return w.Same(n.OwnLimit) })
}

// limitFor finds the standard's limit of a nutrient; a dog's maximum of vitamin A is
// that of retinol.
func limitFor(id nutrients.ID, standard []nutrients.Limit) nutrients.Limit {
	var found nutrients.Limit
	for _, l := range standard {
		switch {
		case l.Nutrient == id:
			found.Lower = l.Lower
			if l.Upper != nil {
				found.Upper = l.Upper
			}
		case id == nutrients.VitaminA && l.Nutrient == nutrients.Retinol && l.Upper != nil:
			found.Upper = l.Upper
		}
	}
	return found
}
