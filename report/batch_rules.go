package report

import (
	"slices"

	"bowlwright/nutrients"
)

// coreTemperatures are the safe core temperatures of the USDA/FSIS chart by the
// catalogue's groups (165, 160 and 145 °F). Organs go by the strictest, because
// the group holds those of poultry.
var coreTemperatures = []struct {
	groups []string
	rule   string
}{
	{[]string{"poultry", "organ"}, "Poultry and organs: 74 °C in the thickest part (USDA/FSIS)."},
	{[]string{"egg"}, "Eggs: until white and yolk are firm, 71 °C (USDA/FSIS)."},
	{[]string{"beef", "pork", "lamb", "veal"}, "Beef, pork, lamb, veal: minced 71 °C; in the piece 63 °C and 3 minutes of rest (USDA/FSIS)."},
	{[]string{"fish", "shellfish"}, "Fish: 63 °C (USDA/FSIS)."},
	{[]string{"game"}, "Game: 74 °C (common practice)."},
}

// CookingRules lists the temperatures that matter for foods of some groups, then how to
// cool and keep the batch.
func CookingRules(groups []string) []string {
	var rules []string
	for _, t := range coreTemperatures {
		if slices.ContainsFunc(t.groups, func(g string) bool { return slices.Contains(groups, g) }) {
			rules = append(rules, t.rule)
		}
	}
	rules = append(rules, "Weigh the whole pot after cooking, stir well, and write the weight down: portions go by it.")
	return append(rules, storageRules...)
}

// shelfNames are the groups of the catalogue as a shop would call them, where the
// group's own name is not that.
var shelfNames = map[string]string{
	"":    "to have ready",
	"egg": "eggs", "fat-oil": "fats and oils", "grain": "grains", "legume": "legumes", "organ": "organs",
	"seed-nut": "seeds and nuts", "starch-root": "potatoes and roots", "supplement": "supplements", "vegetable": "vegetables",
}

// ShelfName is a group of the catalogue as the head of a shelf.
func ShelfName(group string) string {
	if name, ok := shelfNames[group]; ok {
		group = name
	}
	return nutrients.Capital(group)
}
