// Package milp searches for whole numbers of steps that keep linear rows: best-bound
// branch and bound with plunging and pseudo-costs, over the dual simplex of package lp.
// A node is pruned by what its duals prove on the program as given, never by the
// objective of a dictionary. The package knows no food.
package milp
