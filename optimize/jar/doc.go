// Package jar composes one powder mix, a jar, for several pets, each of which gets a
// dose of its own beside its base and what it is given directly.
//
// With the amounts of the day as unknowns the product of dose and composition is
// bilinear. Divided by the dose it is not: with s = 1/dose, and base b, direct items
// y and misses m per gram of jar, every limit of every pet is linear,
//
//	lower s <= jar's share w · a + base's b + direct y + m <= upper s,   sum w = 1,
//
// and so are caps, one rate for all, margins and doses that are off. Whether one jar
// serves all pets is therefore one linear program, exactly; a proof of the contrary
// names the pets. Only the sum of grams, of (1 + sum y)/s over the pets, is not
// linear: it comes down by a sequence of linear programs, each of whose answers is a
// jar that keeps all limits. A branch and bound over s bounds it from below.
//
// The package knows no food. Grams are grams a day; a row's misses are in units of
// its size.
//
// # Decisions
//
// What a jar is mixed with: all powders of the shelf that each of its pets may have
// and that have no step of their own. It is mixed with the strongest of a margin of 2
// or 1 % and a dose that may be 5 % off that costs at most 5 % more add-on. No pet
// gets more than 1.5 times its own least where that is possible.
//
// Nobody pays for a jar with a minimum. Who is met with a premix of its own is met
// with the jar, else it keeps its premix; who is short alone misses at most 0.01 of a
// limit more. Where no one jar serves all: one powder beside the jar for one pet, else
// more jars, by merging (optimize/jar/group.go).
//
// A recipe is in whole steps of its scale by branch and bound, each part left out or
// at least 20 steps; where that finds none for the days asked for, for two or three
// times as many.
//
// Doses in scoops (scoop = "3.4 g"): numbers of whole scoops are searched near the
// doses of the best jar, with room for scoops that are 5 % off where there is; where
// none meet everybody the doses are weighed, and the plan says so.
//
// One rate for all (rate = "per base") is a column of the composition and, afterwards, a
// row of each pet's program (nutrients.OneRate): the dose is that rate times the grams
// of base, to half a step of the scale. It costs about twice what doses of their own do.
package jar
