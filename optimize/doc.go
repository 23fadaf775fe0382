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
package optimize
