// Package diet states the program of one pet and one day and finds its exact amounts.
//
// The unknowns are grams of base and of each add-on offered, each between zero and its
// cap. The rows are the energy, the share of energy from add-ons, every nutrient's
// minimum and maximum, the ratios as linear rows, and what concentrates may bring
// together of nutrients without a maximum. Extras are constants. Minimums count what is
// known at its low end, maximums at its high end.
//
// Solve runs the stages: the least violation (minimums and ratios give way, maximums and
// energy never), at that the least add-on, then least squares toward the aims near that
// least. The package knows no scales; see package weighing.
package diet
