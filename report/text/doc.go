// Package text writes plans, cards and batch sheets for a terminal.
//
// # Decisions
//
// A terminal gets its lines broken at words by Fold, never inside a number with its
// unit or a path; what programs read (--json, export, completion, and all that is no
// terminal) is left whole. In the table of nutrients no cell is cut: columns that find
// no room go on below.
package text
