package records

import (
	"strings"
	"testing"

	"bowlwright/household"
)

// Two recipes of one code are named once, those within other batches too.
func TestSharedCodes(t *testing.T) {
	base := func(code, digest string) household.BaseSnapshot {
		return household.BaseSnapshot{Identity: household.Identity{Code: code, RecipeDigest: digest}}
	}
	inner := base("K7Q-2MX-4", "sha256:2")
	outer := base("ABC-DEF-0", "sha256:3")
	outer.Ingredients = []household.IngredientSnapshot{{Of: &inner}}
	one := base("K7Q-2MX-4", "sha256:1")
	if found := sharedCodes([]household.BaseSnapshot{one, one, outer, outer}); codesOf(found) != "code-twice" || !strings.Contains(found[0].Message, "K7Q-2MX-4") {
		t.Errorf("%v", found)
	}
	if found := sharedCodes([]household.BaseSnapshot{one, one, {}}); len(found) != 0 {
		t.Errorf("%v", found)
	}
}
