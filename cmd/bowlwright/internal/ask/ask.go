// Package ask makes a new household of answers: to questions in plain words, or to
// the options of a command line. It writes no file.
//
// # Decisions
//
// Each answer is tried on the reader of the files before the next is asked.
package ask

import "bowlwright/household/diag"

// badAnswer is the code of an answer that cannot be taken.
const badAnswer = "bad-answer"

// Household is what init writes.
type Household struct {
	Name, Standard, Scale, FineScale string
	Meals                            int
	Pets                             []Pet
	Base                             string
	Ingredients                      []Ingredient
	// Yield and Liquid are what the file of a base says, empty for nothing said.
	Yield, Liquid string
	Shelf         []string
}

// Pet is one animal as it was described.
type Pet struct {
	name, species, born, sex, weight, activity, stage, adultWeight string
	neutered                                                       bool
	condition, week, litter                                        int
	// bornAbout is true when only the year or the month is known.
	bornAbout bool
}

// Ingredient is a food or a batch of the base, its amount with the unit, and how it is
// cooked, empty for not at all.
type Ingredient struct{ Food, Amount, Method string }

// BatchPrefix marks a batch as an ingredient.
const BatchPrefix = "batch:"

// File is a file of the new household, by its path in the folder.
type File struct{ Path, Text string }

// Try reads files as a household of their own and returns the first fault, nil when
// there is none.
type Try func(files []File) (*diag.Diagnostic, error)

// UsualShelf is a set from which most homes begin; what is not at hand is taken out
// (common practice).
var UsualShelf = []string{"eggshell-powder", "dicalcium-phosphate-dihydrate", "salt-iodized-us", "potassium-chloride", "magnesium-citrate-anhydrous", "zinc-gluconate",
	"copper-gluconate", "ferrous-bisglycinate", "choline-bitartrate", "kelp-powder-ascophyllum", "selenium-yeast", "calcium-pantothenate",
	"taurine-powder", "dl-methionine", "l-tryptophan", "manganese-gluconate-anhydrous", "thiamin-diluted", "riboflavin-diluted", "nicotinamide-diluted",
	"biotin-diluted", "cyanocobalamin-diluted", "pyridoxine-diluted", "folic-acid-diluted", "iodine-tablet-150-ug", "vitamin-k1-powder-1pc", "vitamin-e-acetate-powder-500-iu-g", "vitamin-d3-powder-1000-iu-g", "vitamin-a-powder-5000-iu-g",
	"nutritional-yeast", "cod-liver-oil", "salmon-oil", "oil-sunflower-linoleic", "mussel-blue-cooked"}
