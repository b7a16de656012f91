package recipes

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units/measures"
)

// The fourteen of Regulation (EU) No 1169/2011, Annex II, in its order (read),
// and what a kitchen calls them.
var annexII = []struct{ annex, word string }{
	{"Cereals containing gluten", "gluten"},
	{"Crustaceans", "crustaceans"},
	{"Eggs", "egg"},
	{"Fish", "fish"},
	{"Peanuts", "peanuts"},
	{"Soybeans", "soya"},
	{"Milk", "milk"},
	{"Nuts", "nuts"},
	{"Celery", "celery"},
	{"Mustard", "mustard"},
	{"Sesame seeds", "sesame"},
	{"Sulphur dioxide and sulphites", "sulphites"},
	{"Lupin", "lupin"},
	{"Molluscs", "molluscs"},
}

func TestAnnexIIIsComplete(t *testing.T) {
	fourteen := allAllergens.allergens()
	assert.Len(t, fourteen, len(annexII))
	carried := marks(0)
	for i, a := range fourteen {
		assert.Equal(t, annexII[i].word, a.String())
		m, ok := parseMark(annexII[i].annex)
		if a == Nuts {
			m &^= mark(Peanuts) // a guest's "nuts" are both
		}
		assert.True(t, ok, "the regulation's own words are read: %s", annexII[i].annex)
		assert.Equal(t, mark(a), m, annexII[i].annex)
	}
	for _, item := range Ingredients() {
		carried |= Allergens(item).contains
	}
	assert.Equal(t, fourteen, carried.allergens(), "every one of the fourteen has an ingredient that contains it")
	assert.Equal(t, "no allergen", Allergen(0).String())
}

// The examples by which the Food Standards Agency (UK) shows where each of
// the fourteen is found (allergen list with foods where each is found, read),
// and those of a kitchen garden.
func TestAllergensOfIngredients(t *testing.T) {
	tests := []struct{ item, contains, may string }{
		{"celery", "celery", ""}, {"celeriac", "celery", ""}, {"celery salt", "celery", ""}, {"vegetable stock cubes", "celery", "gluten egg soya milk mustard sulphites"},
		{"plain flour", "gluten", ""}, {"couscous", "gluten", ""}, {"oats", "gluten", ""}, {"pearl barley", "gluten", ""},
		{"prawns", "crustaceans", "sulphites"}, {"crab", "crustaceans", "sulphites"},
		{"eggs", "egg", ""}, {"mayonnaise", "egg", "mustard sulphites"}, {"home-made mayonnaise", "egg", "mustard sulphites"},
		{"anchovies", "fish", ""}, {"Worcestershire sauce", "gluten fish", "soya celery sulphites"}, {"fish sauce", "fish", ""},
		{"lupin flour", "lupin", ""},
		{"butter", "milk", ""}, {"Unsalted Butter", "milk", ""}, {"soured cream", "milk", ""}, {"crème fraîche", "milk", ""}, {"plain yoghurt", "milk", ""},
		{"mussels", "molluscs", ""}, {"squid", "molluscs", ""}, {"oyster sauce", "molluscs", "gluten crustaceans fish soya"},
		{"mustard", "mustard", "gluten sulphites"}, {"wholegrain mustard", "mustard", "gluten sulphites"}, {"mustard powder", "mustard", "gluten"},
		{"ground almonds", "nuts", ""}, {"walnut oil", "nuts", ""}, {"hazelnuts", "nuts", ""},
		{"peanut butter", "peanuts", "nuts"}, {"groundnut oil", "peanuts", ""},
		{"tahini", "sesame", ""}, {"toasted sesame seeds", "sesame", ""}, {"hummus", "sesame", "sulphites"},
		{"soy sauce", "gluten soya", ""}, {"tofu", "soya", "gluten"},
		{"white wine vinegar", "sulphites", ""}, {"malt vinegar", "gluten", "sulphites"}, {"cider vinegar", "", "sulphites"}, {"vinegar", "", "gluten sulphites"},
		{"lovage", "", "celery"}, {"chives", "", ""}, {"chopped chives", "", ""}, {"spring onions", "", ""}, {"capers", "", "sulphites"},
		{"black pepper", "", ""}, {"salt", "", ""}, {"flaky sea salt", "", ""}, {"buttery flakes of the moon", "", "gluten crustaceans egg fish peanuts soya milk nuts celery mustard sesame sulphites lupin molluscs"},
		{"onion, red", "", ""}, {"garlic cloves", "", ""}, {"mint leaves", "", ""}, {"new potatoes", "", ""}, {"horseradish, grated", "", "milk mustard sulphites"},
		{"salad cream", "egg mustard", "gluten milk celery sulphites"}, {"pine nuts", "", ""},
		{"salt and pepper", "", ""}, {"butter or olive oil", "", "milk"}, {"butter and mustard", "milk mustard", "gluten sulphites"},
		{"tomato purée", "", ""}, {"jalapeño", "", ""}, {"Gruyère", "milk", "egg"},
	}
	for _, test := range tests {
		c := Allergens(test.item)
		assert.Equal(t, test.contains, wordsOf(c.Contains()), test.item)
		assert.Equal(t, test.may, wordsOf(c.May()), test.item)
	}
}

func wordsOf(list []Allergen) string {
	var words []string
	for _, a := range list {
		words = append(words, a.String())
	}
	return strings.Join(words, " ")
}

func TestUnknownIngredientMayContainAnything(t *testing.T) {
	for _, item := range []string{"secret sauce", "", "flower", "buttery spread", "pastry cream", "nut", "egg wash glaze", "bread and butter pudding", "salt and vinegar crisps"} {
		c := Allergens(item)
		if item == "nut" {
			assert.True(t, c.Known)
			continue
		}
		assert.False(t, c.Known, item)
		assert.Len(t, c.May(), 14, item)
	}
}

func TestEveryAllergenRow(t *testing.T) {
	assert.GreaterOrEqual(t, len(Ingredients()), 150)
	for _, item := range Ingredients() {
		c := Allergens(item)
		assert.True(t, c.Known, item)
		assert.Equal(t, item, c.Row)
		assert.NotEmpty(t, c.Source, item)
		assert.Contains(t, []string{"read", "memory", "practice"}, c.KnownBy, item)
		assert.Zero(t, c.contains&c.may, "%s: what it contains it does not also perhaps contain", item)
	}
	for crop := range yieldTable().crops {
		assert.True(t, Allergens(crop).Known, "the crop %s is in the allergens table", crop)
	}
}

// A second way to the same answer: a name that speaks of an allergen carries
// it, or stands here with the reason why not.
func TestNamesSpeakOfTheirAllergens(t *testing.T) {
	spoken := map[string]Allergen{
		"milk": Milk, "butter": Milk, "cream": Milk, "cheese": Milk, "yoghurt": Milk, "egg": Egg, "mayonnaise": Egg,
		"flour": Gluten, "wheat": Gluten, "bread": Gluten, "pasta": Gluten, "oat": Gluten, "barley": Gluten, "rye": Gluten, "malt": Gluten, "beer": Gluten,
		"soy": Soya, "tofu": Soya, "almond": Nuts, "walnut": Nuts, "hazelnut": Nuts, "cashew": Nuts, "peanut": Peanuts,
		"celer": Celery, "mustard": Mustard, "sesame": Sesame, "tahini": Sesame, "lupin": Lupin, "wine": Sulphites,
		"prawn": Crustaceans, "crab": Crustaceans, "mussel": Molluscs, "squid": Molluscs, "oyster sauce": Molluscs, "anchov": Fish, "fish": Fish, "salmon": Fish,
	}
	for name := range compositionNames.All() {
		row, _ := compositionOf(name)
		for word, allergen := range spoken {
			if !strings.Contains(name, word) || (row.contains|row.may)&mark(allergen) != 0 {
				continue
			}
			assert.True(t, standIns[name], "%s speaks of %s but does not carry it", name, allergen)
		}
	}
}

// standIns are names that only sound like an allergen.
var standIns = map[string]bool{"breadfruit": true,
	"butternut squash": true, "butterhead lettuce": true, "butter bean": true, "peanut butter": true, "nut butter": true, "almond butter": true,
	"oat milk": true, "oat cream": true, "soya milk": true, "soy milk": true, "soya cream": true, "soya yoghurt": true, "almond milk": true, "rice milk": true,
	"coconut milk": true, "coconut cream": true, "cream of tartar": true, "vegan cheese": true, "plant cheese": true, "vegan cream": true, "plant cream": true,
	"vegan butter": true, "plant butter": true, "eggplant": true, "egg-free mayonnaise": true, "vegan mayonnaise": true, "vegan mayo": true,
	"rice flour": true, "potato flour": true, "gram flour": true, "chickpea flour": true, "almond flour": true, "lupin flour": true, "lupin": true,
	"gluten-free bread": true, "gluten-free flour": true, "gluten-free pasta": true, "goat's cheese": true, "goats cheese": true, "goat cheese": true,
	"goat's milk": true, "buckwheat": true,
	"crayfish": true, "cuttlefish": true, "cornflour": true,
}

// Everything the measures table can weigh has a known make-up.
func TestMeasuredIngredientsAreKnown(t *testing.T) {
	for _, item := range measures.Default().Ingredients() {
		assert.True(t, Allergens(item).Known, item)
	}
}

// An ingredient of animal origin is never vegan.
func TestAnimalOrigin(t *testing.T) {
	for item, diet := range map[string]string{
		"honey": "vegan", "egg": "vegan", "milk": "vegan", "butter": "vegan",
		"bacon": "vegetarian", "anchovy": "vegetarian", "gelatine": "vegetarian", "Parmesan": "vegetarian", "prawn": "vegetarian", "mussel": "vegetarian",
		"lard": "no meat",
	} {
		d, err := ParseDiet(diet)
		assert.NoError(t, err)
		assert.NotZero(t, Allergens(item).contains&d.avoid, "%s is not %s", item, diet)
	}
	vegetarian, _ := ParseDiet("vegetarian")
	assert.NotZero(t, Allergens("Cheddar").may&vegetarian.avoid, "Cheddar may be set with animal rennet")
	for _, item := range []string{"egg", "milk", "honey", "mayonnaise"} {
		assert.Zero(t, Allergens(item).contains&vegetarian.avoid, item)
	}
}

// Whatever a crop is called, a guest hears the same of it, and nothing that the
// table of crops names is left to "may hold anything".
func TestACropHoldsTheSameByEveryName(t *testing.T) {
	for _, crop := range measures.Crops() {
		want := Allergens(crop.Name)
		assert.True(t, want.Known, crop.Name)
		for _, name := range append([]string{CropName(crop.Name)}, crop.Names...) {
			got := Allergens(name)
			assert.True(t, got.Known, name)
			assert.Equal(t, want.Contains(), got.Contains(), "%s and %s", crop.Name, name)
			assert.Equal(t, want.May(), got.May(), "%s and %s", crop.Name, name)
		}
	}
}

// A row lists no name that the table of crops has already: each name of a crop
// stands in one place.
func TestNamesOfCropsStandOnce(t *testing.T) {
	for name := range compositionNames.All() {
		row, _ := compositionOf(name)
		crop, ok := measures.CropNamed(name)
		if !ok || name == fold(crop.Name) || name == fold(row.Row) {
			continue
		}
		other, _ := compositionOf(fold(crop.Name))
		assert.NotSame(t, row, other, "%q is a name of %s in the table of crops", name, crop.Name)
	}
}
