package records

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
	"bowlwright/household/safefile"
	"bowlwright/household/tomldoc"
	"bowlwright/household/visible"
	"bowlwright/nutrients/number"
)

// Restore makes an earlier plan the one in use again by writing it as a new
// record that says on which day. It refuses with a *MixUpError when the base in use is another one; its
// Ways name the base that belongs to the plan.
func (r *Folder) Restore(h *household.Household, rec PlanRecord, today household.Date) (PlanRecord, error) {
	paired, err := h.PairIn(rec.Sound())
	if err != nil {
		return PlanRecord{}, err
	}
	plan := *paired.Plan()
	plan.Restored = today
	saved, err := r.SavePlans([]*household.Plan{&plan})
	if err != nil {
		return PlanRecord{}, err
	}
	return saved[0], nil
}

// BaseByCode finds the newest record of a base, among the plans and what was
// cooked, by its code.
func (r *Folder) BaseByCode(code string) (household.BaseSnapshot, error) {
	code, err := household.ParseCode(code)
	if err != nil {
		return household.BaseSnapshot{}, diag.BadInput("bad-code", err.Error(), "list the records with", "history")
	}
	names, _, err := r.list()
	if err != nil {
		return household.BaseSnapshot{}, err
	}
	for i := len(names) - 1; i >= 0; i-- {
		var base household.BaseSnapshot
		if names[i].kind == KindCooked {
			if c, fault := r.cooking(names[i]); fault == nil {
				base = c.Base
			}
		} else if p, fault := r.plan(names[i]); fault == nil {
			base = p.Plan.Base
		}
		if base.Code == code {
			return base, nil
		}
		for _, in := range batchesIn(&base) {
			if in.Code == code {
				return *in, nil
			}
		}
	}
	return household.BaseSnapshot{}, diag.BadInput("unknown-record", "no record holds the base "+code, "list the records with", "history")
}

// batchesIn lists the batches within a base, innermost last.
func batchesIn(s *household.BaseSnapshot) []*household.BaseSnapshot {
	var all []*household.BaseSnapshot
	for _, in := range s.Ingredients {
		if in.Of != nil {
			all = append(append(all, in.Of), batchesIn(in.Of)...)
		}
	}
	return all
}

// RestoreBase writes a base as it was into new files of bases/, never over one of
// the user's, with the batches within it that are no longer there. It returns the
// name for toml and the files written. A base that is still there is
// not written again.
func (r *Folder) RestoreBase(h *household.Household, base household.BaseSnapshot) (name string, written []string, err error) {
	unlock, err := r.lock()
	if err != nil {
		return "", nil, err
	}
	defer unlock()
	w := baseWriter{h: h, dir: filepath.Join(r.dir, reading.BasesFolder), made: map[string]string{}, texts: map[string]string{}}
	name, err = w.restore(base)
	if err != nil {
		return "", nil, err
	}
	if len(w.order) == 0 {
		return name, nil, nil
	}
	// Inner batches come first, so that no batch ever names a file which is not there.
	files := make([]safefile.File, 0, len(w.order))
	for _, file := range w.order {
		files = append(files, safefile.File{Name: file + ".toml", Data: []byte(w.texts[file])})
		written = append(written, reading.BasesFolder+"/"+file+".toml")
	}
	if err := safefile.Replace(w.dir, files); err != nil {
		return "", nil, err
	}
	return name, written, nil
}

// baseWriter turns snapshots back into TOML.
type baseWriter struct {
	h   *household.Household
	dir string
	// made maps recipe digests to the file that holds each now.
	made  map[string]string
	texts map[string]string
	order []string
}

func (w *baseWriter) restore(s household.BaseSnapshot) (string, error) {
	if name, done := w.made[s.RecipeDigest]; done {
		return name, nil
	}
	for _, name := range w.h.BatchNames() {
		if w.h.Batches[name].IsRecorded(s) {
			return name, nil
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# The base %s as it was, written from a record.\n", s.Code)
	// Older records may hold a name with characters that no file may have now.
	if name := visible.Strip(s.Name); strings.TrimSpace(name) != "" {
		fmt.Fprintf(&b, "name = %s\n", tomldoc.Quote(name))
	}
	if s.YieldDeclared {
		fmt.Fprintf(&b, "yield = \"%s g\"\n", number.Exact(s.CookedG))
	}
	if s.KeepsLiquid {
		b.WriteString("liquid = \"kept\"\n")
	}
	if s.Days > 0 {
		fmt.Fprintf(&b, "days = %d\n", s.Days)
	}
	for _, in := range s.Ingredients {
		b.WriteString("\n[[ingredient]]\n")
		if in.Of != nil {
			inner, err := w.restore(*in.Of)
			if err != nil {
				return "", err
			}
			fmt.Fprintf(&b, "batch = %s\n", tomldoc.Quote(inner))
		} else {
			f, ok := w.h.Catalogue.Food(in.Food)
			if ok && household.OtherOwnFood(f, in) {
				return "", diag.BadInput("other-food", fmt.Sprintf("the base %s was made with another %s: the figures in foods/ were changed since", s.Code, in.Food), "write the figures of that time into its file again, then restore")
			}
			if !ok {
				return "", diag.BadInput("unknown-food", fmt.Sprintf("the base holds %s, which is not in the catalogue any more", in.Food), "write the food into foods/ again, then restore")
			}
			fmt.Fprintf(&b, "food = %s\n", tomldoc.Quote(in.Food))
		}
		fmt.Fprintf(&b, "amount = \"%s g\"\n", number.Exact(in.Grams))
		if in.Method != "" {
			fmt.Fprintf(&b, "method = %s\n", tomldoc.Quote(in.Method))
		}
	}
	name := w.freeName(s)
	w.made[s.RecipeDigest], w.texts[name] = name, b.String()
	w.order = append(w.order, name)
	return name, nil
}

// freeName returns a name that no file in bases/ has.
func (w *baseWriter) freeName(s household.BaseSnapshot) string {
	first := s.File
	if first == "" || strings.ContainsAny(first, `/\`) || strings.HasPrefix(first, ".") {
		first = household.Slug(s.Name)
	}
	name := first
	for i := 1; ; i++ {
		_, planned := w.texts[name]
		if _, err := os.Lstat(filepath.Join(w.dir, name+".toml")); err != nil && os.IsNotExist(err) && !planned {
			return name
		}
		name = first + "-" + strings.ToLower(s.Code)
		if i > 1 {
			name = fmt.Sprintf("%s-%d", name, i)
		}
	}
}
