package household

import (
	"strings"
	"testing"
)

// ownMince is a base with a food of the household's own, from its label.
func ownMince(figures string) map[string]string {
	return map[string]string{
		"foods/butchers-mince.toml": "name = \"Butcher's mince\"\nper = \"100 g\"\n[figures]\nwater = \"70 g\"\n" + figures,
		"bases/pot.toml":            "[[ingredient]]\nfood = \"butchers-mince\"\namount = \"1 kg\"\n[[ingredient]]\nfood = \"kale-raw\"\namount = \"100 g\"\n",
		"bases/outer.toml":          "[[ingredient]]\nbatch = \"pot\"\namount = \"500 g\"\n[[ingredient]]\nfood = \"kale-raw\"\namount = \"50 g\"\n",
	}
}

const mince, lard = "protein = \"20 g\"\nfat = \"9 g\"\n", "protein = \"2 g\"\nfat = \"27 g\"\n"

// asEarlier is the snapshot as versions wrote it that knew own foods by their ids.
func asEarlier(b *Batch) BaseSnapshot {
	s := b.Snapshot()
	s.RecipeDigest = b.recipeDigestByName()
	s.Code = codeOf(s.RecipeDigest)
	for i := range s.Ingredients {
		in := &s.Ingredients[i]
		in.Own = false
		if of := b.Ingredients[i].Batch; of != nil {
			inner := asEarlier(of)
			in.Of, in.Digest = &inner, inner.RecipeDigest
		}
	}
	return s
}

// TestOwnFoodIsKnownByWhatIsInIt: mince that was rewritten to lard is another base.
func TestOwnFoodIsKnownByWhatIsInIt(t *testing.T) {
	was := mustLoad(t, folder(t, ownMince(mince)))
	same := mustLoad(t, folder(t, ownMince("fat = \"9 g\"\nprotein = \"20 g\"\n")))
	now := mustLoad(t, folder(t, ownMince(lard)))
	for _, file := range []string{"pot", "outer"} {
		a, b, c := was.Batches[file], same.Batches[file], now.Batches[file]
		if a.RecipeDigest() != b.RecipeDigest() || a.RecipeDigest() == c.RecipeDigest() {
			t.Errorf("%s: %s, %s, %s", file, a.RecipeDigest(), b.RecipeDigest(), c.RecipeDigest())
		}
		if a.recipeDigestByName() != c.recipeDigestByName() {
			t.Errorf("%s: earlier versions told them apart", file)
		}
		mix := mixUp(&Plan{Base: a.Snapshot()}, c)
		if mix == nil || !strings.Contains(strings.Join(mix.Differences, "\n"), "butchers-mince: its figures in foods/") {
			t.Errorf("%s: %+v", file, mix)
		}
		if mixUp(&Plan{Base: a.Snapshot()}, b) != nil {
			t.Errorf("%s: the same figures are refused", file)
		}
		// What a record says of the recipe gives its digest again.
		s := a.Snapshot()
		if digest, ok := s.digestOfRecipe(); !ok || digest != s.RecipeDigest {
			t.Errorf("%s: from the record %s, %t", file, digest, ok)
		}
	}
}

// TestRecordsOfEarlierVersions: a base that was recorded when own foods went by their ids
// is the base in use as long as their figures are those of the record.
func TestRecordsOfEarlierVersions(t *testing.T) {
	was := mustLoad(t, folder(t, ownMince(mince)))
	now := mustLoad(t, folder(t, ownMince(lard)))
	for _, file := range []string{"pot", "outer"} {
		s := asEarlier(was.Batches[file])
		if s.RecipeDigest == was.Batches[file].RecipeDigest() {
			t.Fatalf("%s: the digest did not change", file)
		}
		if !was.Batches[file].IsRecorded(s) || now.Batches[file].IsRecorded(s) {
			t.Errorf("%s: %t, %t", file, was.Batches[file].IsRecorded(s), now.Batches[file].IsRecorded(s))
		}
		if digest, ok := s.digestOfRecipe(); !ok || digest != s.RecipeDigest {
			t.Errorf("%s: from the record %s, %t", file, digest, ok)
		}
	}
	check, err := now.CheckCode(codeOf(now.Batches["pot"].recipeDigestByName()))
	if err != nil || check.Match || check.Earlier != "pot" {
		t.Errorf("%+v, %v", check, err)
	}
}

// A base of the catalogue's foods has the code that it had before.
func TestCatalogueFoodsKeepTheirCode(t *testing.T) {
	h := mustLoad(t, folder(t, nil))
	if b := h.Base; b.RecipeDigest() != b.recipeDigestByName() || strings.Contains(b.canonical(false), ownPrefix) {
		t.Error(b.canonical(false))
	}
}
