// Package household owns the user's files and the user's records: the parsed
// household with its line-precise diagnostics, the shared base and its identity,
// saved plans, the guard that keeps an add-on with its base, and the weight log.
//
// It reads and writes files but knows no terminal, no clock and no solver.
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
//
// # Identity and guard
//
// A batch's recipe digest covers what was cooked (see Batch.Identity), its figures
// digest the composition used. A plan carries both. Pair is the only way from a
// plan and a base to something that can be printed; another recipe is refused,
// other figures make the plan stale.
//
// # Records
//
// Records are written once, named by date, number, kind, what they are about and a
// digest of their bytes. The plans of one run stand in one folder, which appears as
// a whole. A record whose bytes do not fit its name is reported and not used, and
// no older one takes its place.
package household
