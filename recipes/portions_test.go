package recipes

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func dishFrom(t testing.TB, text string) Dish {
	t.Helper()
	d, err := LoadDish("dishes/d.yaml", []byte(text), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	return d
}

// A count of portions, the dish's own, or what weighed crops make: as many as the
// scarcest allows. By hand: the dish takes 800 g of potatoes as lifted for 4, 200 g
// each, and 400 g of leeks, 100 g each.
func TestPortionsAsked(t *testing.T) {
	d := dishFrom(t, "name: D\nportions: 4\ncrops:\n  - {crop: potato, amount: 800 g, prepared: as-lifted, cut: halves}\n  - {crop: leek, amount: 400 g, prepared: as-lifted, cut: slice 10 mm}\n")
	for _, c := range []struct {
		lifted   []string
		portions int
		want     string
	}{
		{nil, 0, "4"}, {nil, 1, "1"}, {nil, 7, "7"}, {nil, 10_000, "10000"},
		{[]string{"potato=1 kg"}, 0, "5"}, {[]string{"Potatoes = 1.1 kg"}, 0, "11/2"}, {[]string{"potato=200 g"}, 0, "1"}, {[]string{"potato=2000 kg"}, 0, "10000"},
		{[]string{"potato=1 kg", "leek=300 g"}, 0, "3"}, {[]string{"leek=300 g", "potato=1 kg"}, 0, "3"}, {[]string{"potato=600 g", "leek=1 kg"}, 0, "3"},
	} {
		got, err := d.PortionsAsked(c.lifted, c.portions, units.Metric)
		require.NoError(t, err, c)
		assert.Equal(t, c.want, got.RatString(), c)
	}
	for _, c := range []struct {
		lifted   []string
		portions int
		says     string
	}{
		{[]string{"potato=1 kg"}, 3, `lifted "potato=1 kg": a number of portions is given as well, and both say how much`},
		{nil, -1, `portions "-1": no number of portions`}, {nil, 10_001, `portions "10001": no number of portions`},
		{[]string{"potato=199 g"}, 0, `lifted "potato=199 g": not enough for one portion of D`},
		{[]string{"potato=2000.1 kg"}, 0, `lifted "potato=2000.1 kg": more than 10000 portions`},
		{[]string{"1 kg"}, 0, `lifted "1 kg": D is built on several crops: say which`},
		{[]string{"carrot=1 kg"}, 0, `lifted "carrot=1 kg": D has no carrot`},
		{[]string{"potato=1 kg", "potatoes=2 kg"}, 0, `lifted "potatoes=2 kg": potato is given twice`},
		{[]string{"potato=1 l"}, 0, `lifted "potato=1 l": not a weight`}, {[]string{"potato=1-2 kg"}, 0, `lifted "potato=1-2 kg": not a weight`},
		{[]string{"potato=0 g"}, 0, `lifted "potato=0 g": not a weight`}, {[]string{"potato=smoot"}, 0, `lifted "potato=smoot": no number before "smoot"`},
	} {
		_, err := d.PortionsAsked(c.lifted, c.portions, units.Metric)
		assert.EqualError(t, err, c.says)
	}
	_, err := d.PortionsAsked([]string{"carrot=1 kg"}, 0, units.Metric)
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, `"potato=1 kg" or "leek=1 kg"`, wrong.Accepted)
	one := dishFrom(t, "name: D\nportions: 2\ncrops: [{crop: potato, amount: 400 g, prepared: as-lifted, cut: halves}]\n")
	got, err := one.PortionsAsked([]string{"1.1 kg"}, 0, units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "11/2", got.RatString(), "of one crop nobody need say which")
}

// A weight that does not tell is an error, and so is a line that is not there.
func TestNoPortionsOfNothing(t *testing.T) {
	d := dishFrom(t, "name: D\nportions: 4\ncrops: [{crop: potato, amount: 800 g, prepared: as-lifted, cut: halves}]\n")
	for _, line := range []int{-1, 1} {
		_, _, err := d.NeedPerPortion(line)
		assert.EqualError(t, err, fmt.Sprintf("D has no crop line %d", line+1))
		_, err = d.PortionsFrom(line, units.MustParse("1 kg"))
		assert.Error(t, err)
	}
	_, err := d.PortionsFrom(0, units.MustParse("1 l"))
	assert.Error(t, err)
	empty := d
	empty.Crops = []CropLine{d.Crops[0]}
	empty.Crops[0].Amount = units.MustParse("0 g")
	_, err = empty.PortionsFrom(0, units.MustParse("1 kg"))
	assert.EqualError(t, err, "D: the crop potato has no weight")
	empty.Crops[0].Amount = units.Quantity{}
	_, _, err = empty.NeedPerPortion(0)
	assert.EqualError(t, err, "D: the crop potato has no weight")
	empty.Crops[0].Amount, empty.Portions = units.MustParse("1 kg"), 0
	_, _, err = empty.NeedPerPortion(0)
	assert.EqualError(t, err, "D: the crop potato has no weight")
	empty.Portions = 1
	need, _, err := empty.NeedPerPortion(0)
	require.NoError(t, err)
	assert.Equal(t, "1000", need.RatString())
	bare := Dish{Portions: 2, Crops: []CropLine{{Crop: "potato", Amount: units.MustParse("1 kg")}}}
	assert.False(t, bare.ScaleToPortions(2, DefaultKitchen(units.Metric)).Crops[0].Lifted.IsValid(), "without a yield nothing is known of its lifted weight")
}

// Dishes are loaded in their order; one that does not load, or is called as another,
// is left out and told.
func TestLoadDishes(t *testing.T) {
	file := func(name string) []byte {
		return fmt.Appendf(nil, "name: %s\nportions: 4\ncrops: [{crop: potato, amount: 800 g, prepared: peeled, cut: halves}]\n", name)
	}
	dishes, wrong := LoadDishes([]DishFile{{"a.yaml", file("Mash")}, {"b.yaml", []byte("name: x")}, {"c.yaml", file("Mash")}, {"d.yaml", file("Crush")}}, DefaultKitchen(units.Metric))
	assert.Equal(t, []string{"Mash", "Crush"}, NamesOf(dishes))
	require.Len(t, wrong, 2)
	assert.ErrorContains(t, wrong[0], "b.yaml")
	assert.EqualError(t, wrong[1], `c.yaml:1:1: the name "Mash" stands in a.yaml too`)
}

// A dish is found by its name, its file's, or a beginning of either.
func TestFindAs(t *testing.T) {
	all := []Dish{{Name: "Mash", File: "dishes/mash.yaml"}, {Name: "Mashed peas", File: "dishes/peas.yaml"}, {Name: "Crush", File: "dishes/crush.yaml"}}
	for typed, want := range map[string]string{"mash": "Mash", "mashed": "Mashed peas", "peas": "Mashed peas", "cru": "Crush"} {
		dish, err := FindAs("dish", all, typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, dish.Name)
	}
	for typed, says := range map[string]string{"ma": `dish "ma": may be several dishes`, "leek": `dish "leek": no dish of that name`} {
		_, err := FindAs("dish", all, typed)
		assert.EqualError(t, err, says)
	}
	_, err := FindAs("dish", all, "ma")
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "one of Mash, Mashed peas", wrong.Accepted)
	for _, c := range []struct{ only, without []string }{{[]string{"leek"}, nil}, {nil, []string{"leek"}}} {
		_, err := Choose(all, c.only, c.without)
		assert.ErrorContains(t, err, "leek")
	}
	assert.Equal(t, []string{"potato", "leek"}, CropNames([]string{"Potatoes", "leeks", "potato", "Leek"}))
	assert.Empty(t, CropNames(nil))
}

// What a way of cooking keeps busy is a ring, of which there may be several, a place of
// which there is one, or nothing.
func TestPlaceOf(t *testing.T) {
	for uses, want := range map[string]string{"ring": "", "": "", "nothing": "", "oven": "oven", "grill": "grill", "embers": "embers"} {
		ring, place := PlaceOf(uses)
		assert.Equal(t, uses == "ring", ring, uses)
		assert.Equal(t, want, place, uses)
	}
	assert.True(t, RawIsKnown("carrots"))
	assert.False(t, RawIsKnown("cassava"))
}

// A crop that is cut in two ways is offered once.
func TestACropCutTwiceIsOfferedOnce(t *testing.T) {
	d := Dish{Name: "D", Crops: []CropLine{{Crop: "potato"}, {Crop: "carrot"}, {Crop: "potato"}}}
	_, err := d.PortionsAsked([]string{"1 kg"}, 0, units.Metric)
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, `"potato=1 kg" or "carrot=1 kg"`, wrong.Accepted)
}
