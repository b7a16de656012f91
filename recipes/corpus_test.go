package recipes

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// grade is how one fact of a recipe was read.
type grade uint8

const (
	right   grade = iota
	checked       // right or not, it is marked to be checked
	open          // asked for
	wrong         // wrong in silence
)

// 60 whole recipes, invented for this test, 30 of them each in two of twelve
// forms; labels.csv says by hand what each is: portions, how it is served, each
// weighed crop with its grams, way of cooking and minutes, how many ingredients
// and steps it has. Nothing may be wrong in silence; a recipe needs two
// decisions of a person at most, by the median.
func TestCorpusOfRecipes(t *testing.T) {
	file, err := os.Open("../testdata/recipes/corpus/labels.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(rows)-1, 60)
	var counts [4]int
	var decisions []int
	for _, row := range rows[1:] {
		im, err := ofCorpora(t, "../testdata/recipes/corpus", row[0])
		require.NoError(t, err, row[0])
		decided := len(im.Open)
		for fact, g := range gradesOf(im, row) {
			counts[g]++
			if g == wrong {
				decided++ // somebody has to see it and mend it
				t.Errorf("%s: %s is wrong in silence\n%s", row[0], fact, im.Text)
			}
		}
		decisions = append(decisions, decided)
	}
	slices.Sort(decisions)
	all := counts[right] + counts[checked] + counts[open] + counts[wrong]
	t.Logf("of %d facts %d right, %d to be checked, %d asked for, %d wrong; decisions: median %d, most %d",
		all, counts[right], counts[checked], counts[open], counts[wrong], decisions[len(decisions)/2], decisions[len(decisions)-1])
	assert.GreaterOrEqual(t, 100*counts[right], 92*all, "right")
	assert.Zero(t, counts[wrong])
	assert.LessOrEqual(t, decisions[len(decisions)/2], 2)
}

// gradesOf grades each fact of a row of labels.
func gradesOf(im Imported, row []string) map[string]grade {
	marked := map[string]bool{}
	for _, c := range im.Checks {
		marked[c.Key] = true
	}
	asked := map[string]bool{}
	for _, q := range im.Open {
		asked[q.Field] = true
	}
	grades := map[string]grade{}
	take := func(fact string, isRight, isMarked, isAsked bool) {
		switch {
		case isAsked:
			grades[fact] = open
		case isRight:
			grades[fact] = right
		case isMarked:
			grades[fact] = checked
		default:
			grades[fact] = wrong
		}
	}
	take("name", im.Name == row[1], false, false)
	take("portions", strconv.Itoa(im.Portions) == row[2], marked["portions"], asked["portions"])
	take("served", string(im.Served) == row[3], marked["served"], false)
	var crops []string
	for _, c := range im.Dish.Crops {
		grams, err := c.Amount.In(units.Gram)
		if err == nil {
			crops = append(crops, fmt.Sprintf("%s %s %s %d %s", c.Crop, grams.Rat().FloatString(0), c.Cook, c.Minutes, orDash(c.Uses)))
		}
	}
	toCheck := strings.Contains(im.Text, "check: steam | boil | blanch | raw | own")
	take("crops "+strings.Join(crops, "; "), strings.Join(crops, "; ") == inKitchen(row[4]), toCheck, len(im.Open) > 0)
	ingredients, steps := 0, 0
	for _, l := range im.Lines {
		switch l.As {
		case AsCrop, AsOther:
			ingredients++
			take(fmt.Sprintf("line %d", l.Number), l.Read.Amount.IsValid(), !l.Sure(), false)
		case AsStep:
			steps++
		}
	}
	take("ingredients", strconv.Itoa(ingredients) == row[5], false, false)
	take("steps", strconv.Itoa(steps) == row[6], false, false)
	return grades
}

// inKitchen brings the crops of a label to the names they have in the kitchen:
// winter squash is pumpkin there.
func inKitchen(label string) string {
	crops := strings.Split(label, "; ")
	for i, crop := range crops {
		at := strings.IndexFunc(crop, func(c rune) bool { return c >= '0' && c <= '9' })
		crops[i] = CropName(strings.TrimSpace(crop[:at])) + " " + crop[at:]
	}
	return strings.Join(crops, "; ")
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}
