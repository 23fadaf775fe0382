// Package learn works out from an animal's weighings and from the energy that was
// planned for it what its weight does and what would hold it.
//
// It knows numbers only: days are counted from any day, weights are in kg, energy in
// kcal a day. What is learned is the planned energy that holds the weight in this
// household, unplanned treats and all; it is not the animal's physiological need.
//
// Everything here is meant for adults, but for the growth curve. A pregnant or
// nursing animal changes weight for reasons of its own: nobody should ask about it.
package learn
