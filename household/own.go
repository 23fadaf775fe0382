package household

import "bowlwright/nutrients"

// The foods of the catalogue are known by their ids: better figures are a correction. A
// food of the household's own is known by what is in it: whoever writes other figures
// into its file has another food, and a base with it is another base. Records of earlier
// versions knew own foods by their ids too; they belong to a base of the same names
// whose own foods have the figures that stand in the record.

// content is what an own food is known by, "" for a food of the catalogue.
func (in Ingredient) content() string {
	switch {
	case in.recorded:
		return in.recordedContent
	case in.Food == nil || !in.Food.Own:
		return ""
	}
	return in.Food.Digest()
}

// recipeDigestByName is the digest as earlier versions made it, with own foods by their
// ids.
func (b *Batch) recipeDigestByName() string { return DigestOf(b.canonical(true)) }

// IsRecorded says whether a base of a record is this one: by the full digest of its
// recipe, and for a record of an earlier version by the digest of that time and the
// figures of the own foods.
func (b *Batch) IsRecorded(was BaseSnapshot) bool {
	now := b.RecipeDigest()
	if was.RecipeDigest == now {
		return true
	}
	if byName := b.recipeDigestByName(); byName == now || byName != was.RecipeDigest {
		return false
	}
	then := map[string]string{}
	was.foodDigests(then)
	own := map[string]string{}
	b.ownDigests(own)
	for id, digest := range own {
		if then[id] != digest {
			return false
		}
	}
	return true
}

// ownDigests collects the figures of the own foods, those of nested batches too.
func (b *Batch) ownDigests(into map[string]string) {
	for _, in := range b.Ingredients {
		if in.Batch != nil {
			in.Batch.ownDigests(into)
		} else if content := in.content(); content != "" {
			into[in.Food.ID] = content
		}
	}
}

// OtherOwnFood says whether a food is the household's own, or was in the record, and has
// other figures now than the record says.
func OtherOwnFood(now *nutrients.Food, was IngredientSnapshot) bool {
	return (was.Own || now.Own) && now.Digest() != was.Digest
}
