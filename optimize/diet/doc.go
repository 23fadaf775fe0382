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
// energy never) and at that the least add-on, both with the energy anywhere within its
// slack, so that the recorded certificate bounds whatever may be printed. Then, with the
// energy exactly at its target where that can be met, add-ons are taken out for as long
// as fewer do within 3 % of the least, and least squares goes toward the aims within the
// kitchen's share (aims, 5 %). For the fewest add-ons the sets are chosen by what can be
// weighed; Smaller enumerates them for package weighing. The package knows no scales.
package diet
