// Package reading reads the files of a household, household.toml, bases/, foods/ and
// weights.csv, into the model, with every fault of every file at once. Nothing is
// computed from a file with an error; faults of the weight log are warnings, but for a
// pet that no one is.
package reading
