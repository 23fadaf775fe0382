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
package jar
