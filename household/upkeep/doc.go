// Package upkeep says what the passing of time asks for: whether a plan still fits its
// animal, base, jar and shelf (Check), what comes next for animals and kitchen (Due),
// and what the weights of an animal say about its goal and its food (OutlookOf). It
// reads no files and changes nothing.
package upkeep
