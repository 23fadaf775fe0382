// Package reading reads the files of a household, household.toml, bases/, foods/ and
// weights.csv, into the model, with every fault of every file at once. Nothing is
// computed from a file with an error; faults of the weight log are warnings, but for a
// pet that no one is.
//
// # Files
//
// household.toml holds name, base, standard, and the tables below; bases/*.toml
// one batch each; foods/*.toml one own food each; weights.csv the weight log;
// records/ what the program writes.
//
//	[kitchen]      meals, scale, fine_scale, premix_days, energy_slack, addon_energy, weight_moved, aims, fewest_within
//	[[pet]]        name, species, born, sex, neutered, weight, ideal_weight, adult_weight,
//	               condition, activity, stage, litter, week, standard, avoid, prefer, energy
//	[[pet.extra]]  food, amount
//	[[addon]]      food, step, unit, unit_grams, max, price, pets
//
//	a batch        name, yield or loss, days, liquid ("kept", else "poured"), and
//	[[ingredient]] food or batch, amount, method, price
//
//	an own food    id, name, group, state, per, unit_grams, source, powder, carrier, caution, and
//	[figures]      nutrient = "amount unit"; what is left out is unknown
//
// Load reports every fault of every file at once and computes nothing from a file
// with an error. Faults of the weight log are warnings, but for a pet that no one
// is: a log is never written anew because of one bad line.
package reading
