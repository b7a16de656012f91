package render

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/webdriver"
	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// randomReckoner is that of some invented dishes.
func randomReckoner(t testing.TB, random *rand.Rand, dishes int) meal.Reckoner {
	t.Helper()
	q := meal.Question{Mode: meal.One, Plot: "an invented plot", On: at(0, 0), Now: at(12, 0), Kitchen: recipes.DefaultKitchen(units.Metric), AirC: 21}
	for d := range dishes {
		q.Dishes = append(q.Dishes, randomDish(t, random, d))
	}
	r, err := meal.Reckon(q)
	require.NoError(t, err)
	return r
}

func reckonerPage(t testing.TB, r meal.Reckoner) (page string, omitted []string) {
	t.Helper()
	var text strings.Builder
	omitted, err := Reckoner(&text, r)
	require.NoError(t, err)
	return text.String(), omitted
}

// A dish is on the reckoner, or it is named as one that had no room.
func TestReckonerHasOrNamesEveryDish(t *testing.T) {
	for _, dishes := range []int{1, 5, 12} {
		r := randomReckoner(t, rand.New(rand.NewPCG(uint64(dishes), 6)), dishes)
		page, omitted := reckonerPage(t, r)
		for _, dish := range r.Dishes {
			name := dish.Recipe.Name
			assert.Equal(t, !slices.Contains(omitted, name), strings.Contains(page, "<h2>"+name+" "), name)
		}
		says := regexp.MustCompile(`No room for .*\. Choose the dishes for it`)
		assert.Equal(t, len(omitted) > 0, says.MatchString(page))
		assert.Less(t, len(omitted), dishes, "at least one is on it")
	}
}

// It is black on white and needs nothing besides itself.
func TestReckonerStandsAlone(t *testing.T) {
	page, _ := reckonerPage(t, randomReckoner(t, rand.New(rand.NewPCG(2, 6)), 3))
	for _, colour := range regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|rgb|hsl|var\(`).FindAllString(page, -1) {
		assert.Contains(t, []string{"#000000", "#ffffff"}, colour)
	}
	for _, element := range elements(t, page) {
		assert.NotContains(t, []string{"script", "img", "link", "iframe", "object", "base", "form"}, element.Name.Local)
	}
	assert.NotRegexp(t, `(?i)https?:|url\(|@import`, page)
	assert.Contains(t, page, MadeHTML)
}

// Printed: two sides, whatever the dishes; type to be read from where it hangs.
func TestReckonerOnPaper(t *testing.T) {
	if os.Getenv("TRENCHER_LIVE") != "1" {
		t.Skip("TRENCHER_LIVE=1 prints reckoners")
	}
	b := webdriver.Start(t, webdriver.Look{Width: 900})
	for dishes := 1; dishes <= 12; dishes++ {
		r := randomReckoner(t, rand.New(rand.NewPCG(uint64(dishes), 19)), dishes)
		page, omitted := reckonerPage(t, r)
		for _, font := range fontsTried {
			t.Run(fmt.Sprintf("%d dishes in %s", dishes, font), func(t *testing.T) {
				lines, sides, _ := onPaper(t, b, page, font)
				assert.Equal(t, 2, sides)
				var heads []string
				for _, l := range lines {
					assert.GreaterOrEqual(t, l.points, 11.0, "side %d: %q", l.side, l.text)
					if l.points >= 14 {
						heads = append(heads, strings.TrimSpace(l.text))
					}
				}
				for _, head := range []string{"Ready reckoner", "How long a bowl may stand", "Take care"} {
					assert.Contains(t, heads, head)
				}
				all := strings.Join(heads, " ")
				for _, dish := range r.Dishes {
					if name := dish.Recipe.Name; !slices.Contains(omitted, name) {
						assert.Contains(t, all, name)
					}
				}
			})
		}
	}
}
