package recipes

import (
	"errors"
	"fmt"
	"math/rand"
	"testing"

	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseGuests(t *testing.T) {
	tests := []struct {
		text   string
		count  int
		child  bool
		label  string
		avoids []Allergen
	}{
		{"6 adults", 6, false, "adult", nil},
		{"1 adult", 1, false, "adult", nil},
		{"2 adults no milk, egg", 2, false, "adult, no egg, no milk", []Allergen{Egg, Milk}},
		{"2 adults without milk and egg", 2, false, "adult, no egg, no milk", []Allergen{Egg, Milk}},
		{"3 children vegetarian", 3, true, "child, vegetarian", []Allergen{Crustaceans, Fish, Molluscs}},
		{"2 vegetarian adults", 2, false, "adult, vegetarian", []Allergen{Crustaceans, Fish, Molluscs}},
		{"1 adult vegan no gluten", 1, false, "adult, vegan, no gluten", []Allergen{Gluten, Crustaceans, Egg, Fish, Milk, Molluscs}},
		{"1 Adult, milk-free", 1, false, "adult, no milk", []Allergen{Milk}},
		{"1 child gluten free", 1, true, "child, no gluten", []Allergen{Gluten}},
		{"2 adults no dairy", 2, false, "adult, no milk", []Allergen{Milk}},
		{"1 adult no nuts", 1, false, "adult, no nuts", []Allergen{Peanuts, Nuts}},
		{"1 adult no tree nuts", 1, false, "adult, no tree nuts", []Allergen{Nuts}},
		{"1 adult no shellfish", 1, false, "adult, no crustaceans, no molluscs", []Allergen{Crustaceans, Molluscs}},
		{"4 adults coeliac", 4, false, "adult, no gluten", []Allergen{Gluten}},
		{"1 adult no sulphites or mustard", 1, false, "adult, no mustard, no sulphites", []Allergen{Mustard, Sulphites}},
	}
	for _, test := range tests {
		t.Run(test.text, func(t *testing.T) {
			groups, err := ParseGuests(test.text)
			require.NoError(t, err)
			require.Len(t, groups, 1)
			g := groups[0]
			assert.Equal(t, test.count, g.Count)
			assert.Equal(t, test.child, g.Child)
			assert.Equal(t, test.label, g.Label())
			assert.Equal(t, wordsOf(test.avoids), wordsOf((g.Diet.avoid & allAllergens).allergens()))
		})
	}
}

func TestParseGuestsSeveralGroups(t *testing.T) {
	for _, text := range []string{
		"6 adults, 2 adults no milk, egg, 3 children vegetarian",
		"6 adults; 2 adults no milk, egg; 3 children vegetarian",
		"6 adults and 2 adults no milk and egg and 3 children vegetarian",
	} {
		groups, err := ParseGuests(text)
		require.NoError(t, err, text)
		var labels []string
		for _, g := range groups {
			labels = append(labels, fmt.Sprintf("%d %s", g.Count, g.Label()))
		}
		assert.Equal(t, []string{"6 adult", "2 adult, no egg, no milk", "3 child, vegetarian"}, labels, text)
	}
}

func TestGuestsThatDoNotParse(t *testing.T) {
	const forms = `write a number and who they are: "6 adults", "2 adults no milk, egg", "3 children vegetarian", "1 adult vegan no gluten"`
	const things = `write vegetarian, vegan, pescetarian, coeliac, pregnant, or "no" before a food or any of gluten, crustaceans, egg, fish, peanuts, soya, milk, nuts, celery, mustard, sesame, sulphites, lupin, molluscs, meat, honey`
	tests := []struct{ text, message, hint string }{
		{"", `guests: how many guests, and are they adults or children?`, forms},
		{"6", `guests "6": how many guests, and are they adults or children?`, forms},
		{"some adults", `guests "some adults": "some" is not a whole number of guests`, forms},
		{"0 adults", `guests "0 adults": 0 guests is out of range, 1 to 500`, forms},
		{"-2 adults", `guests "-2 adults": -2 guests is out of range, 1 to 500`, forms},
		{"5000 adults", `guests "5000 adults": 5000 guests is out of range, 1 to 500`, forms},
		{"1.5 adults", `guests "1.5 adults": "1.5" is not a whole number of guests`, forms},
		{"6 uncles", `guests "6 uncles": are they adults or children?`, forms},
		{"2 adults no moonrock", `guests "2 adults no moonrock": "moonrock" is no food known here, so it cannot be left out`, `write a food by a name the tables have, an allergen, or the dish left out by hand`},
		{"2 adults fruitarian", `guests "2 adults fruitarian": "fruitarian" is not understood of what a guest eats`, things},
		{"2 adults milk", `guests "2 adults milk": "milk" alone does not say whether they eat it`, things},
		{"6 adults, 2 uncles", `guests "6 adults, 2 uncles": are they adults or children?`, forms},
		{"2 adults no", `guests "2 adults no": "no" what?`, things},
	}
	for _, test := range tests {
		t.Run(test.text, func(t *testing.T) {
			_, err := ParseGuests(test.text)
			var wrong *units.FieldError
			require.True(t, errors.As(err, &wrong))
			assert.Equal(t, test.message, wrong.Error())
			assert.Equal(t, test.hint, wrong.Hint())
		})
	}
}

// Whatever a diet is called, the name reads back as the same diet.
func TestDietNameReadsBack(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 2000 {
		d := Diet{avoid: marks(r.Uint32()) & everything}
		if r.Intn(2) == 0 {
			d.avoid &= marks(r.Uint32())
		}
		if d.avoid&mark(Nuts) != 0 && d.avoid&mark(Peanuts) == 0 && r.Intn(2) == 0 {
			d.avoid |= mark(Peanuts)
		}
		back, err := ParseDiet(d.String())
		require.NoError(t, err, d.String())
		assert.Equal(t, d, back, d.String())
	}
}

func FuzzParseGuests(f *testing.F) {
	for _, seed := range []string{"6 adults", "2 adults no milk, egg", "1 child vegan no gluten, 3 adults", "no", "9", "1 adult no\x00", "½ adults", "1 adult -free"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		groups, err := ParseGuests(text)
		if err != nil {
			return
		}
		for _, g := range groups {
			if g.Count < 1 {
				t.Fatalf("%q: %d guests", text, g.Count)
			}
			again, err := ParseGuests(fmt.Sprintf("1 %s", g.Label()))
			if err != nil || len(again) != 1 || again[0].Diet != g.Diet || again[0].Child != g.Child {
				t.Fatalf("%q: label %q does not read back: %v", text, g.Label(), err)
			}
		}
	})
}
