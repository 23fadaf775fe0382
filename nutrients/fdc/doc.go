// Package fdc reads composition data that others publish into foods: the
// downloads of USDA's FoodData Central (SR Legacy and Foundation, JSON or CSV) and
// a plain table with one food a line. It streams, opens no file, and drops nothing
// in silence: what it does not understand is counted in the Result.
//
// A figure that a source only assumed to be zero is unknown here where it matters,
// as in the catalogue.
package fdc
