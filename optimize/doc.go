// Package optimize is the front door: a household and a pet in, a verified plan out. It
// knows no files, no terminal and no paper.
//
// Solve goes through the rooms in one direction:
//
//  1. diet: the program of the pet, and its exact amounts in stages;
//  2. weighing: whole steps of scales and units, helpings and premix;
//  3. record.go: the amounts as a plan, every figure recomputed from the foods;
//  4. verify: the plan recomputed again by code that shares nothing with 1 to 3.
//
// A plan that does not pass the last is never handed out.
//
// # Decisions
//
// Order is nobody's plan. Items are solved in the order of their ids and ingredients
// added up in a fixed order; the shelf's own order is that of the lines printed.
//
// Optimal is a plan when the certificate recorded with it proves that no plan on this
// shelf can need less add-on (its program is held against the limits, sums and amounts
// of the plan, with check --deep against the household too); the printed, weighable
// plan lies above that bound by what whole scale steps cost.
//
// A growth table is one animal that stands once for each weight in a household of its
// own, with one jar for all: what plans and jars guarantee holds for each row. It is
// not recorded.
//
// A shared jar is composed before its pets are planned (optimize/jar): divided by its
// dose each pet's rows are linear in what is in the jar, so one linear program says
// whether one jar serves all, and a proof names the pets that no jar serves together;
// grams then come down by a few warm programs. Then the jar is a food
// (nutrients.Mixture) on the shelf of each of its pets in place of the powders, and
// planning, weighing, verifying, explaining and the certificate run as for any add-on.
// What is asked of a part (hazards, cautions, what a pet avoids, caps) is asked of the
// jar's parts.
//
// A jar in use is kept as long as everybody who can be met is met with it and a new
// mix would not save 15 %; plan --new-jars composes anew all the same. When only some
// of its pets are planned it is always kept.
package optimize
