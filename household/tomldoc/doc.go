// Package tomldoc reads TOML files such that whatever is wrong with a value can be
// reported where it stands: with its line, a caret and what to type instead. All
// faults of a file are reported at once. It knows no pet and no food.
package tomldoc
