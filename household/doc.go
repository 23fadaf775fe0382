// Package household owns the user's files and the user's records: the parsed
// household with its line-precise diagnostics, the shared base and its identity,
// saved plans, the guard that keeps an add-on with its base, and the weight log.
//
// It reads and writes files but knows no terminal, no clock and no solver.
package household
