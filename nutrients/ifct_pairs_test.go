package nutrients

// ifctPairs match foods of the catalogue with foods of the Indian food composition
// tables (IFCT 2017) that are the same part of the same kind, both raw unless said.
var ifctPairs = [][2]string{
	{"rice-brown-long-raw", "A013"}, {"rice-white-long-unenriched-raw", "A015"}, {"barley-pearled-raw", "A004"},
	{"quinoa-raw", "A009"}, {"lentils-raw", "B014"}, {"lentils-red-raw", "B013"},
	{"chickpeas-raw", "B002"}, {"peas-split-raw", "B017"}, {"brussels-sprouts-raw", "C012"},
	{"cabbage-raw", "C015"}, {"parsley-raw", "C028"}, {"spinach-raw", "C033"},
	{"cauliflower-raw", "D036"}, {"celery-raw", "D037"}, {"bell-pepper-red-raw", "D034"},
	{"cucumber-raw", "D043"}, {"green-beans-raw", "D050"}, {"peas-green-raw", "D061"},
	{"pumpkin-raw", "D066"}, {"zucchini-raw", "D077"}, {"apple-with-skin-raw", "E001"},
	{"banana-raw", "E012"}, {"cantaloupe-raw", "E045"}, {"pear-raw", "E051"},
	{"strawberry-raw", "E063"}, {"beet-raw", "F001"}, {"carrot-raw", "F002"},
	{"potato-raw", "F006"}, {"sweet-potato-raw", "F014"}, {"cassava-raw", "F015"},
	{"flaxseed", "H014"}, {"sunflower-seed-kernels-dried", "H020"}, {"sesame-seed-whole-dried", "H011"},
	{"coconut-dried-unsweetened", "H006"}, {"milk-cow-whole-unfortified", "L002"}, {"egg-whole-raw", "M001"},
	{"egg-white-raw", "M002"}, {"egg-yolk-raw", "M003"}, {"egg-whole-hard-boiled", "M004"},
	{"egg-duck-raw", "M012"}, {"egg-quail-raw", "M014"}, {"chicken-thigh-skinless-raw", "N002"},
	{"chicken-breast-skinless-raw", "N003"}, {"chicken-liver-raw", "N005"}, {"chicken-gizzard-raw", "N006"},
	{"duck-with-skin-raw", "N011"}, {"goat-raw", "O003"}, {"lamb-liver-raw", "O021"},
	{"lamb-kidney-raw", "O024"}, {"lamb-heart-raw", "O020"}, {"lamb-spleen-raw", "O023"},
	{"beef-eye-of-round-lean-raw", "O027"}, {"beef-heart-raw", "O031"}, {"beef-liver-raw", "O032"},
	{"beef-kidney-raw", "O035"}, {"beef-lung-raw", "O030"}, {"veal-liver-raw", "O042"},
	{"veal-kidney-raw", "O044"}, {"pork-shoulder-lean-raw", "O048"}, {"pork-heart-raw", "O052"},
	{"pork-liver-raw", "O053"}, {"pork-kidney-raw", "O056"}, {"pork-spleen-raw", "O055"},
	{"rabbit-raw", "O063"}, {"tilapia-raw", "P083"},
}

// ifctColumns say which column of IFCT holds a nutrient and what turns its g per
// 100 g into our unit.
var ifctColumns = map[ID]struct {
	column  string
	perGram float64
}{
	Water: {"water", 1}, Protein: {"protcnt", 1}, Fat: {"fatce", 1}, Ash: {"ash", 1}, Fiber: {"fibtg", 1},
	Calcium: {"ca", 1e3}, Phosphorus: {"p", 1e3}, Magnesium: {"mg", 1e3}, Sodium: {"na", 1e3}, Potassium: {"k", 1e3},
	Iron: {"fe", 1e3}, Copper: {"cu", 1e3}, Zinc: {"zn", 1e3}, Manganese: {"mn", 1e3}, Selenium: {"se", 1e6},
	Retinol: {"retol", 1e6}, BetaCarotene: {"cartb", 1e6}, Phylloquinone: {"vitk1", 1e6},
	Thiamin: {"thia", 1e3}, Riboflavin: {"ribf", 1e3}, Niacin: {"nia", 1e3}, PantothenicAcid: {"pantac", 1e3},
	VitaminB6: {"vitb6c", 1e3}, Folate: {"folsum", 1e6}, VitaminC: {"vitc", 1e3}, Cholesterol: {"cholc", 1e3},
}

// ifctMedian is how far the median quotient of the two tables may lie from one. The
// foods come from two continents, so single values differ by breed, variety, soil
// and feed; over dozens of foods that averages out, and a wrong unit or a shifted
// column does not.
var ifctMedian = map[ID]float64{
	// Analysed alike everywhere, and little room to vary.
	Water: 1.05, Protein: 1.1, Ash: 1.1, Phosphorus: 1.15, Potassium: 1.15, Magnesium: 1.15,
	// Total fibre of IFCT is by another enzyme method and higher.
	Fiber: 1.5,
	// Degrades in the sample, or was measured by methods that differ.
	Riboflavin: 3, Phylloquinone: 2, BetaCarotene: 2, Thiamin: 1.5,
}

// ifctMedianOther holds for the nutrients without a line above.
const ifctMedianOther = 1.35

// ifctFar is the quotient from which a single pair has to be explained.
const ifctFar = 10

// ifctExplained lists the pairs that differ by more than ifctFar, and why.
var ifctExplained = map[[2]string]string{
	{"tilapia-raw", "vitamin-b6"}:                       "IFCT prints fish 1000 times too high, a unit slip of that table",
	{"egg-white-raw", "vitamin-b6"}:                     "IFCT 4.4 mg cannot be: the whole egg has 0.2",
	{"egg-white-raw", "niacin"}:                         "traces in both",
	{"egg-yolk-raw", "niacin"}:                          "near nothing in SR28; cause not known",
	{"zucchini-raw", "sodium"}:                          "both near nothing",
	{"veal-liver-raw", "copper"}:                        "beef and calf liver of IFCT are near 1; cause not known",
	{"parsley-raw", "selenium"}:                         "selenium of plants follows the soil",
	{"peas-split-raw", "selenium"}:                      "selenium of plants follows the soil",
	{"rice-white-long-unenriched-raw", "selenium"}:      "selenium of plants follows the soil",
	{"pumpkin-raw", "phylloquinone"}:                    "both pumpkins of IFCT are above 80; cause not known",
	{"rice-white-long-unenriched-raw", "phylloquinone"}: "both near nothing",
	{"beet-raw", "phylloquinone"}:                       "both near nothing",
	{"lamb-liver-raw", "riboflavin"}:                    "all livers and kidneys of IFCT are 0.3 to 0.4, a tenth of SR28; cause not known",
	{"beef-kidney-raw", "riboflavin"}:                   "all livers and kidneys of IFCT are 0.3 to 0.4, a tenth of SR28; cause not known",
	{"apple-with-skin-raw", "beta-carotene"}:            "cause not known; both far below a need",
	{"pumpkin-raw", "beta-carotene"}:                    "varieties from pale to deep orange",
	{"sweet-potato-raw", "beta-carotene"}:               "IFCT's figure is that of pale flesh, SR28's of orange flesh",
}
