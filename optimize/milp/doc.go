// Package milp searches for whole numbers of steps that keep linear rows: best-bound
// branch and bound with plunging and pseudo-costs, over the dual simplex of package lp.
// A node is pruned by what its duals prove on the program as given, never by the
// objective of a dictionary. The package knows no food.
//
// # Decisions
//
// A search prunes by what is proved: the bound that a node's duals prove on the
// program as given, never the objective of its dictionary. That once cut off the best
// steps in 2 of 300 drawn programs, unseen at a gap of 1 %. Each row and the answer at
// hand narrow a box before it is solved.
package milp
