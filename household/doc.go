// Package household owns the model: the household as its files and records give it, the
// shared base and its identity, jars, plans, and the guard that keeps an add-on with its
// base. Its rooms read the files (reading), keep the records (records), and say what is
// out of date or due (upkeep) and what to cook and buy (supplies).
//
// It reads and writes no file and knows no terminal, no clock and no solver.
//
// # Identity and guard
//
// A batch's recipe digest covers what was cooked (see Batch.Identity), its figures
// digest the composition used. A plan carries both. Pair is the only way from a
// plan and a base to something that can be printed; another recipe is refused,
// other figures make the plan stale.
//
// # Records
//
// Records are written once, named by date, number, kind, what they are about and a
// digest of their bytes. The plans of one run stand in one folder, which appears as
// a whole. A record whose bytes do not fit its name is reported and not used, and
// no older one takes its place.
//
// # Decisions
//
// The refusal names what changed: one changed amount shifts the share of every
// ingredient, so the batch sizes are first matched by the ratio that most ingredients
// share.
//
// The premix of a growing, pregnant or nursing animal is weighed out for no more days
// than its plan is good for (14), whatever premix_days says; more days in the kitchen
// do not put such a plan out of date.
//
// A weight that jumps (WeightJump: 15 % for adults, 60 % for others within a month) is
// asked for again; weigh --sure takes it.
//
// The ideal weight belongs to a score. The weighing behind a condition score fixes it:
// weigh --condition, condition_on, else the first plan with this score; records carry
// it (scored_kg). Neither a new weighing nor an animal that gains moves it. Growing,
// pregnant and nursing animals have no other ideal than their weight. Thin animals (1
// to 3) go to the weight of condition 4 first, and a new score decides from there; no
// equation raises their food, proposals do, with a veterinarian.
//
// A diet is kept up: the reduction is that of the excess at the score until 5 % above
// the goal, and goes over into holding the goal down to 2 %. By the weight of the day
// food would grow as the animal shrinks.
//
// Stages follow their dates; without one a stage or week is taken for true for two
// weeks from the first plan with it. Dogs past the fourth week of nursing keep its
// factor until the young are weaned, at most to eight weeks: no factor is published. A
// growing animal is an adult from the day on which the curve has 98 % of its adult
// weight, 10 months for cats and small dogs, 18 for giants.
//
// Old age changes the energy of dogs over seven years (FEDIAF and NRC, recalled) and
// nothing else: none of the three standards prints limits of its own for old animals.
//
// Out of date is said across the top of every document. Past a tenth of the weight,
// with another species, stage or birthday, or 14 days after its end a plan is printed
// only with --even-out-of-date. check, due --strict and weigh ask the same function
// (household.OutOfDate).
package household
