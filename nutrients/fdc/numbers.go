package fdc

import "bowlwright/nutrients"

// target says where a FoodData Central nutrient number goes. Where two numbers
// give one nutrient, the lower rank is the more exact and wins.
type target struct {
	id   nutrients.ID
	rank int
}

// byNumber maps USDA nutrient numbers, which SR28 and FoodData Central share
// (USDA SR28 documentation, nutrient definition file).
var byNumber = map[string]target{
	"255": {nutrients.Water, 0}, "203": {nutrients.Protein, 0}, "204": {nutrients.Fat, 0},
	"205": {nutrients.Carbohydrate, 0}, "291": {nutrients.Fiber, 0}, "269": {nutrients.Sugars, 0},
	"269.3": {nutrients.Sugars, 1}, "207": {nutrients.Ash, 0},
	"301": {nutrients.Calcium, 0}, "305": {nutrients.Phosphorus, 0}, "304": {nutrients.Magnesium, 0},
	"307": {nutrients.Sodium, 0}, "306": {nutrients.Potassium, 0}, "303": {nutrients.Iron, 0},
	"312": {nutrients.Copper, 0}, "309": {nutrients.Zinc, 0}, "315": {nutrients.Manganese, 0},
	"317": {nutrients.Selenium, 0}, "314": {nutrients.Iodine, 0},
	"320": {nutrients.VitaminARAE, 0}, "319": {nutrients.Retinol, 0}, "321": {nutrients.BetaCarotene, 0},
	"322": {nutrients.AlphaCarotene, 0}, "334": {nutrients.Cryptoxanthin, 0},
	"328": {nutrients.VitaminD, 0}, "324": {nutrients.VitaminD, 1}, "323": {nutrients.VitaminE, 0},
	"430": {nutrients.Phylloquinone, 0}, "428": {nutrients.Menaquinone4, 0},
	"404": {nutrients.Thiamin, 0}, "405": {nutrients.Riboflavin, 0}, "406": {nutrients.Niacin, 0},
	"410": {nutrients.PantothenicAcid, 0}, "415": {nutrients.VitaminB6, 0}, "417": {nutrients.Folate, 0},
	"418": {nutrients.VitaminB12, 0}, "416": {nutrients.Biotin, 0}, "421": {nutrients.Choline, 0},
	"401": {nutrients.VitaminC, 0},
	"501": {nutrients.Tryptophan, 0}, "502": {nutrients.Threonine, 0}, "503": {nutrients.Isoleucine, 0},
	"504": {nutrients.Leucine, 0}, "505": {nutrients.Lysine, 0}, "506": {nutrients.Methionine, 0},
	"507": {nutrients.Cystine, 0}, "508": {nutrients.Phenylalanine, 0}, "509": {nutrients.Tyrosine, 0},
	"510": {nutrients.Valine, 0}, "511": {nutrients.Arginine, 0}, "512": {nutrients.Histidine, 0},
	"606": {nutrients.Saturated, 0}, "645": {nutrients.Monounsaturated, 0}, "646": {nutrients.Polyunsaturated, 0},
	"601": {nutrients.Cholesterol, 0}, "629": {nutrients.EPA, 0}, "621": {nutrients.DHA, 0}, "631": {nutrients.DPA, 0},
	"675": {nutrients.LinoleicAcid, 0}, "618": {nutrients.LinoleicAcid, 1},
	"851": {nutrients.AlphaLinolenicAcid, 0}, "619": {nutrients.AlphaLinolenicAcid, 1},
	"855": {nutrients.ArachidonicAcid, 0}, "620": {nutrients.ArachidonicAcid, 1},
}

// assumedMatters lists the nutrients of which a zero is taken over only when it was
// measured: animals need them. A zero that is assumed (derivation code Z), or whose
// derivation is not given, leaves them unknown.
var assumedMatters = map[nutrients.ID]bool{
	nutrients.VitaminD: true, nutrients.VitaminARAE: true, nutrients.Retinol: true, nutrients.VitaminE: true,
	nutrients.Phylloquinone: true, nutrients.Menaquinone4: true, nutrients.Selenium: true, nutrients.Iodine: true,
	nutrients.EPA: true, nutrients.DHA: true, nutrients.DPA: true, nutrients.ArachidonicAcid: true,
	nutrients.VitaminB12: true, nutrients.Choline: true, nutrients.Biotin: true,
}

// assumedZero is FoodData Central's derivation code of a zero nobody measured.
const assumedZero = "Z"
