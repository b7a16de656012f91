// Package recipes reads the grower's kitchen and dishes and says what a dish
// needs: how much of a crop as lifted, what of everything else at any number
// of portions, in measures a kitchen has, and whom it suits.
//
// [LoadKitchen] and [LoadDish] read the files and return all that is wrong with
// one together. [Dish.NeedPerPortion] is what a portion takes of a crop as
// lifted, by the yields of the table and the kitchen's own ([YieldOf]).
// [Dish.ScaleTo] brings the dish to any number of portions, and
// [Kitchen.MeasureOut] to measures the kitchen has; a weighed crop is never
// rounded. [Dish.Suits] judges a [Diet], which [ParseGuests] reads with the
// guests; an ingredient that is not in the table may hold anything.
// [ImportRecipe] makes a dish file of a schema.org Recipe, [Dish.JSONLD] the
// other way about.
//
// It knows no plot folder and prints nothing. Three embedded tables carry its
// outside facts, each row with its source: yields.csv (as lifted to prepared
// to cooked), allergens.csv (what an ingredient holds) and the measures table
// of package units/measures, which has the names of crops too ([CropName]).
package recipes
