package measures_test

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/measures"
)

// nameRows is names.csv as it stands.
func nameRows(t *testing.T) []map[string]string {
	t.Helper()
	file, err := os.Open("names.csv")
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, r := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = r[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// isFood tells a row that names a food from a word that stands beside one.
func isFood(row map[string]string) bool {
	return slices.Contains([]string{"food", "same", "sort", "kin", "form"}, row["kind"])
}

// said is the name a row says its own is another word for, by the table alone.
func said(row map[string]string) string {
	name := row["name"]
	if row["kind"] == "same" {
		name = row["food"]
		if row["weighs_as"] != "" {
			name = row["weighs_as"]
		}
	}
	return plainPlural(name)
}

// plainPlural is a plural of the table in the singular, told here by hand.
func plainPlural(name string) string {
	name = strings.ToLower(strings.ReplaceAll(measures.Fold(name), "-", " "))
	for _, ending := range [][2]string{{"ies", "y"}, {"leaves", "leaf"}, {"loaves", "loaf"}, {"halves", "half"}, {"oes", "o"}, {"shes", "sh"}, {"ches", "ch"}, {"ss", "ss"}, {"s", ""}} {
		if stem, ok := strings.CutSuffix(name, ending[0]); ok {
			return stem + ending[1]
		}
	}
	return name
}

// Over all pairs of the table's names, two are one good if and only if the table
// says so: never because one holds the other or looks like it.
func TestNothingMergesByItsLooks(t *testing.T) {
	goods := map[string]map[string]string{} // good -> what the table says the names are -> one of them
	names, merged := 0, 0
	for _, row := range nameRows(t) {
		if !isFood(row) {
			continue
		}
		names++
		good := measures.GoodOf(row["name"])
		if goods[good] == nil {
			goods[good] = map[string]string{}
		} else {
			merged++
		}
		goods[good][said(row)] = row["name"]
	}
	for good, told := range goods {
		assert.Len(t, told, 1, "names that the table keeps apart are taken for one good, %s", good)
	}
	require.GreaterOrEqual(t, names, 1000, "names of foods")
	assert.Greater(t, merged, 100, "names that the table joins are among them")
}

// What looks like a food and is not, by the table's own list, never becomes it.
func TestLookAlikesStayApart(t *testing.T) {
	checked := 0
	for _, row := range nameRows(t) {
		for like := range strings.SplitSeq(row["unlike"], ";") {
			if like == "" || plainPlural(like) == plainPlural(row["name"]) {
				continue
			}
			checked++
			assert.False(t, measures.SameGood(row["name"], like), "%s is no %s", like, row["name"])
		}
	}
	assert.Greater(t, checked, 300)
}

// Words of the same good are joined, whatever a region calls it.
func TestOneGoodByItsOtherWords(t *testing.T) {
	for a, b := range map[string]string{
		"scallions": "spring onion", "zucchini": "Courgettes", "garbanzo beans": "chickpeas", "heavy cream": "double cream", "cilantro": "fresh coriander",
		"large eggs": "eggs", "freshly ground black pepper": "black pepper", "potatoes": "potato", "bay leaves": "bay leaf", "baking soda": "bicarbonate of soda",
	} {
		assert.True(t, measures.SameGood(a, b), "%s: %s, %s: %s", a, measures.GoodOf(a), b, measures.GoodOf(b))
	}
	for a, b := range map[string]string{
		"potatoes": "sweet potatoes", "cayenne pepper": "white pepper", "waxy potatoes": "floury potatoes", "double cream": "single cream",
		"unsalted butter": "butter", "frozen peas": "peas", "smoked paprika": "paprika", "red onion": "onion", "chopped tomatoes": "tomatoes",
		"Kestrel potatoes": "potatoes", "moonberry": "moonberry jam", "raspberries": "strawberries",
	} {
		assert.False(t, measures.SameGood(a, b), "%s is not %s", a, b)
	}
}
