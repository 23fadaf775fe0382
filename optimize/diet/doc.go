// Package diet states the program of one pet and one day and finds its exact amounts.
//
// The unknowns are grams of base and of each add-on offered, each between zero and its
// cap. The rows are the energy, the share of energy from add-ons, every nutrient's
// minimum and maximum, the ratios as linear rows, and what concentrates may bring
// together of nutrients without a maximum. Extras are constants. Minimums count what is
// known at its low end, maximums at its high end.
//
// Caps of the kitchen are settled before the rest, in keepKitchen: they hold where as
// little is missed within them; else the least goes over them, each in shares of its own,
// and a quarter more may, so that no heap of one food is bought for a pinch of another.
//
// Solve runs the stages: the least violation (minimums and ratios give way, maximums and
// energy never), at that the least add-on, then least squares toward the aims near that
// least. The package knows no scales; see package weighing.
//
// # Decisions
//
// The cheapest plan may cost a tenth more than the least price for its aims, and a
// quarter more, or a tenth over the least that can be weighed, for whole steps: price
// takes the place of grams in every stage. An add-on without a price counts as the
// dearest.
//
// The closest plan keeps to the add-ons of the plan in use where they reach as much
// with at most a tenth more than the least add-on, and its whole steps are those
// nearest to what was weighed before. Where that cannot be met, the plan with the
// least add-on is taken and says so.
//
// The fewest add-ons are found by branch and bound on which items are used, with cuts
// from the sets that do not do; on the exact amounts, before scales. Where whole steps
// of the few miss more than those of the least add-on, that plan is taken and says so;
// the same holds for the closest.
package diet
