package recipes

import (
	"fmt"
	"math/big"
	"strings"
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func scaledTo(t testing.TB, portions int, others string, to int64, system units.System) Scaled {
	t.Helper()
	text := fmt.Sprintf("name: D\nportions: %d\ncrops: [{crop: potato, amount: 30 lb, cut: halves}]\nothers:\n%s", portions, others)
	k := DefaultKitchen(system)
	d, err := LoadDish("d.yaml", []byte(text), k)
	require.NoError(t, err)
	return d.ScaleTo(big.NewRat(to, 1), k)
}

// The rule: factor = wanted yield over stated yield (Virginia Department of
// Education, culinary arts competencies, recipe conversion, read); service
// recipes are for 100 and multiplied by portions / 100 (US Department of
// Defense, information for standardized recipes, read). Its worked example
// (from memory): 348 servings give the working factor 3.48; 1.25 lb x 3.48 =
// 4.35 lb, which is 4 lb and 0.35 x 16 = 5.6 oz.
func TestScaleToWorkedExample(t *testing.T) {
	s := scaledTo(t, 100, "- {item: sugar, amount: 1.25 lb}", 348, units.US)
	assert.Equal(t, "3.48", s.Factor.FloatString(2))
	assert.Zero(t, s.Factor.Cmp(big.NewRat(348, 100)))
	exact := s.Others[0].Exact
	assert.True(t, exact.Equal(units.MustParse("4.35 lb")), exact.String())
	ounces, err := exact.Sub(units.MustParse("4 lb"))
	require.NoError(t, err)
	ounces, err = ounces.In(units.Ounce)
	require.NoError(t, err)
	assert.Equal(t, "5.6 oz", ounces.String())
}

// The same source (from memory) goes from the weight at hand to the factor:
// 102 lb of an ingredient of which 100 servings take 30 lb give 3.40.
func TestPortionsFromWorkedExample(t *testing.T) {
	s := scaledTo(t, 100, "- {item: salt, amount: to taste}", 100, units.US)
	portions, err := s.Dish.PortionsFrom(0, units.MustParse("102 lb"))
	require.NoError(t, err)
	assert.Equal(t, "340", portions.RatString())
	again := s.Dish.ScaleTo(portions, DefaultKitchen(units.US))
	assert.Equal(t, "3.40", again.Factor.FloatString(2))
	assert.True(t, again.Crops[0].Lifted.Equal(units.MustParse("102 lb")), "the weighed crop is never rounded")
}

func TestScalingKinds(t *testing.T) {
	tests := []struct {
		line     string
		portions int64 // from 4
		exact    string
		measured string
		advice   string
	}{
		{"{item: butter, amount: 60 g}", 7, "105 g", "105 g", ""},
		{"{item: butter, amount: 60 g}", 5, "75 g", "75 g", ""},
		{"{item: milk, amount: 120 ml}", 6, "180 ml", "180 ml", ""},
		{"{item: chives, amount: 2 tbsp, state: chopped}", 5, "2.5 tbsp metric", "2½ tbsp", ""},
		{"{item: spring onion, amount: 3}", 10, "7.5", "8", ""},
		{"{item: egg, amount: 2}", 5, "2.5", "3", ""},
		{"{item: capers, amount: 1-2 tsp}", 8, "2-4 tsp metric", "2 tsp to 1 tbsp + 1 tsp", ""},
		{"{item: black pepper, amount: to taste, scales: seasoning}", 40, "to taste", "to taste", ""},
		{"{item: salt, amount: ½ tsp, scales: seasoning}", 4, "0.5 tsp metric", "½ tsp", ""},
		{"{item: salt, amount: ½ tsp, scales: seasoning}", 8, "1 tsp metric", "1 tsp", ""},
		{"{item: salt, amount: 2 tsp, scales: seasoning}", 12, "4.5-6 tsp metric", "1½ tbsp to 2 tbsp", "start low, taste"},
		{"{item: paprika, amount: 1-2 tsp, scales: seasoning}", 16, "3-8 tsp metric", "1 tbsp to 2 tbsp + 2 tsp", "start low, taste"},
		{"{item: bay leaf, amount: 2, scales: fixed}", 12, "2", "2", "the same for any number of portions"},
		{"{item: bay leaf, amount: 2, scales: fixed}", 4, "2", "2", ""},
		{"{item: lemon, amount: ½}", 6, "0.75", "¾", ""},
		{"{item: lemon, amount: 1}", 5, "1.25", "1¼", ""},
		{"{item: onion, amount: 6}", 5, "7.5", "8", ""},
		{"{item: bay leaf, amount: 1}", 6, "1.5", "2", ""},
		{"{item: salt, amount: 2 tsp}", 12, "4.5-6 tsp metric", "1½ tbsp to 2 tbsp", "start low, taste"},
		{"{item: salt, amount: 2 tsp, scales: linear}", 12, "6 tsp metric", "2 tbsp", ""},
		{"{item: vegetable oil, amount: 1 tbsp, state: for frying}", 8, "1 tbsp metric", "1 tbsp", "the same for any number of portions"},
	}
	for _, test := range tests {
		t.Run(fmt.Sprintf("%s for %d", test.line, test.portions), func(t *testing.T) {
			line := scaledTo(t, 4, "- "+test.line, test.portions, units.Metric).Others[0]
			assert.Equal(t, test.exact, line.Exact.String())
			assert.Equal(t, test.measured, line.Measured.Text)
			assert.Equal(t, test.advice, line.Advice)
		})
	}
}

func TestRoundingIsShown(t *testing.T) {
	egg := scaledTo(t, 4, "- {item: egg, amount: 2}", 5, units.Metric).Others[0].Measured
	assert.True(t, egg.Flag, "2½ eggs as 3 is 20 %% too much")
	assert.Contains(t, egg.Alternative, "beaten egg")
	salt := scaledTo(t, 4, "- {item: salt, amount: ⅜ tsp}", 4, units.Metric).Others[0].Measured
	assert.Equal(t, "⅜ tsp", salt.Text, "a quarter is a third too little")
	salt = scaledTo(t, 4, "- {item: salt, amount: 0.27 tsp}", 4, units.Metric).Others[0].Measured
	assert.Equal(t, "¼ tsp", salt.Text, "salt is rounded down")
	pinch := scaledTo(t, 4, "- {item: salt, amount: 2 g}", 1, units.Metric).Others[0].Measured
	assert.Equal(t, "a pinch", pinch.Text, "half a gram of salt is less than the smallest spoon")
	pepper := scaledTo(t, 4, "- {item: nutmeg, amount: ⅜ tsp}", 4, units.Metric).Others[0].Measured
	assert.NotEqual(t, "¼ tsp", pepper.Text, "nutmeg is not")
	little := scaledTo(t, 4, "- {item: salt, amount: 2 g}", 2, units.Metric).Others[0].Measured
	assert.Contains(t, little.Text, "tsp", "1 g is too little for the scales")
	herbs := scaledTo(t, 4, "- {item: chives, amount: 3 tbsp, state: chopped}", 16, units.Metric).Others[0].Measured
	assert.Equal(t, "180 ml", herbs.Text)
	assert.Contains(t, herbs.Alternative, " g by weight")
}

func TestSizeCautions(t *testing.T) {
	for portions, want := range map[int64]int{1: 0, 4: 0, 16: 0, 17: 1, 40: 1} {
		assert.Len(t, scaledTo(t, 4, "- {item: salt, amount: to taste}", portions, units.Metric).Cautions, want, "%d portions", portions)
	}
	assert.Len(t, scaledTo(t, 9, "- {item: salt, amount: to taste}", 2, units.Metric).Cautions, 1, "under a quarter")
	assert.Contains(t, scaledTo(t, 4, "- {item: salt, amount: to taste}", 18, units.Metric).Cautions[0], "4.5 times the recipe")
}

func TestScaleToNothing(t *testing.T) {
	d := Dish{Portions: 4}
	for _, portions := range []*big.Rat{nil, new(big.Rat), big.NewRat(-3, 1)} {
		s := d.ScaleTo(portions, Kitchen{})
		assert.Zero(t, s.Factor.Sign())
		assert.Empty(t, s.Others)
	}
	assert.Zero(t, Dish{}.ScaleToPortions(4, Kitchen{}).Factor.Sign())
}

// Scaling by a and then by b is scaling by a·b, and the parts of a batch add
// up to the whole, for every linear amount, exactly.
func TestScalingIsLinear(t *testing.T) {
	amounts := []units.Quantity{units.MustParse("60 g"), units.MustParse("1 1/3 tbsp"), units.MustParse("3"), units.MustParse("1-2 tsp")}
	rat := func(n, d uint16) *big.Rat { return big.NewRat(int64(n)+1, int64(d)+1) }
	property := func(a, b, c, d uint16, which uint8) bool {
		q := amounts[int(which)%len(amounts)]
		x, y := rat(a, b), rat(c, d)
		once, _ := scaleAmount(q, Linear, x)
		twice, _ := scaleAmount(once, Linear, y)
		direct, _ := scaleAmount(q, Linear, new(big.Rat).Mul(x, y))
		other, _ := scaleAmount(q, Linear, y)
		sum, err := once.Add(other)
		whole, _ := scaleAmount(q, Linear, new(big.Rat).Add(x, y))
		return twice.Equal(direct) && err == nil && sum.Equal(whole)
	}
	require.NoError(t, quick.Check(property, nil))
}

// Seasoning is linear up to double, never above linear, never below three
// quarters of it; fixed amounts stay.
func TestSeasoningStaysInItsBand(t *testing.T) {
	property := func(a, b uint16) bool {
		factor := big.NewRat(int64(a)+1, int64(b)%100+1)
		q := units.MustParse("2 tsp")
		linear, _ := scaleAmount(q, Linear, factor)
		seasoned, advice := scaleAmount(q, Seasoning, factor)
		fixed, _ := scaleAmount(q, Fixed, factor)
		low, _ := seasoned.Low().Compare(linear.Scale(big.NewRat(3, 4)))
		beyond := factor.Cmp(big.NewRat(2, 1)) > 0
		return seasoned.High().Equal(linear) && low >= 0 && beyond == (advice != "") && beyond == seasoned.IsRange() && fixed.Equal(q)
	}
	require.NoError(t, quick.Check(property, nil))
}

// For any number of portions, what the crop line takes as lifted, prepared,
// is the dish's own amount times the factor, exactly.
func TestCropIsNeverRounded(t *testing.T) {
	k := DefaultKitchen(units.Metric)
	d, err := LoadDish("dish.yaml", readFile(t, dishFile), k)
	require.NoError(t, err)
	property := func(a, b uint16) bool {
		s := d.ScaleTo(big.NewRat(int64(a)+1, int64(b)+1), k)
		return s.Crops[0].Prepared.Equal(d.Crops[0].Amount.Scale(s.Factor))
	}
	require.NoError(t, quick.Check(property, nil))
}

// 720 g of scrubbed potatoes are about 706 g once steamed: 0.98, common
// practice, no source (0.96 to 1.00).
func TestCookedWeight(t *testing.T) {
	k := DefaultKitchen(units.Metric)
	d, err := LoadDish("dish.yaml", readFile(t, dishFile), k)
	require.NoError(t, err)
	crop := d.ScaleToPortions(4, k).Crops[0]
	assert.Equal(t, "705.6 g", crop.Cooked.String())
	assert.Equal(t, "practice", standing(crop.Cooking))
	raw, err := LoadDish("dish.yaml", []byte("name: R\nportions: 2\ncrops: [{crop: cucumber, amount: 300 g, prepared: trimmed, cook: raw}]\n"), k)
	require.NoError(t, err)
	assert.False(t, raw.ScaleToPortions(2, k).Crops[0].Cooked.IsValid(), "what is eaten raw is not cooked")
}

func ExampleDish_ScaleTo() {
	k := DefaultKitchen(units.Metric)
	d, err := LoadDish("dishes/mash.yaml", []byte(`name: Mash
portions: 4
crops:
  - {crop: potato, amount: 800 g, prepared: peeled, cut: quarters, until: soft}
others:
  - {item: milk, amount: 120 ml}
  - {item: butter, amount: 40 g}
  - {item: salt, amount: ½ tsp, scales: seasoning}
`), k)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := d.ScaleToPortions(10, k)
	for _, line := range s.Others {
		fmt.Printf("%s %s%s\n", line.Measured.Text, line.Item, strings.TrimSuffix("; "+line.Advice, "; "))
	}
	// Output:
	// 300 ml milk
	// 100 g butter
	// ⅞ tsp to 1¼ tsp salt; start low, taste
}

func BenchmarkScaleTo(b *testing.B) {
	k := DefaultKitchen(units.Metric)
	d, err := LoadDish("dish.yaml", readFile(b, dishFile), k)
	require.NoError(b, err)
	for b.Loop() {
		d.ScaleToPortions(7, k)
	}
}
