// Package recipes reads the grower's kitchen and dishes and says what a dish
// needs: how much of a crop as lifted, what of everything else at any number
// of portions, in measures a kitchen has, and whom it suits.
//
// It knows no plot folder and prints nothing. Three embedded tables carry its
// outside facts, each row with its source: yields.csv (as lifted to prepared
// to cooked), allergens.csv (what an ingredient holds) and the measures table
// of package units/measures.
package recipes
