// Package optimize turns a household into numbers and the answer back into a
// plan. It knows no files, no terminal and no paper.
//
// For one pet and one day the unknowns are b grams of base and x_j grams of each
// add-on offered, 0 <= x_j <= cap_j. The rows are the energy (equal to the need),
// the share of energy from add-ons, every nutrient's lower and upper limit, and
// the ratios as linear rows. Extras are constants. Lower limits count what is
// known at its low end, upper limits at its high end.
//
//  1. formulate: household to rows and columns, in grams and canonical units;
//  2. stages: least violation (lower limits and ratios give way, upper limits and
//     energy never), then least add-on at that violation, then least squares
//     toward the aims near that least;
//  3. weigh: whole steps of scales and units, by branch and bound; what no scale
//     can weigh goes to a premix or is not given at all;
//  4. record: amounts back to a plan, every figure recomputed from the foods;
//  5. verify: the plan recomputed again by code that shares nothing with 1 to 4.
package optimize
