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
package optimize
