package sorted_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units/sorted"
)

func Example() {
	weights := sorted.Make(map[string]string{"egg": "50", "clove of garlic": "3"})
	row, ok := weights.Find("egg")
	fmt.Println(row, ok)
	// Output: 50 true
}

// Every row is found by its key, and by nothing else, in tables of every size.
func TestFind(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	for size := range 40 {
		rows := map[string]string{}
		for len(rows) < size {
			rows[strings.Repeat("ab c"[random.IntN(4):], 1+random.IntN(3))+fmt.Sprint(random.IntN(60))] = strings.Repeat("x\ty", random.IntN(3))
		}
		table := sorted.Make(rows)
		assert.Equal(t, rows, maps.Collect(table.All()))
		for key, want := range rows {
			row, ok := table.Find(key)
			assert.True(t, ok, "%q", key)
			assert.Equal(t, want, row, "%q", key)
			for _, near := range []string{key + "0", key[:len(key)-1] + "!", "z" + key, key[1:]} {
				_, known := rows[near]
				_, ok := table.Find(near)
				assert.Equal(t, known, ok, "%q", near)
			}
		}
	}
	_, ok := sorted.Table("").Find("")
	assert.False(t, ok)
	for range sorted.Make(map[string]string{"a": "", "b": ""}).All() {
		break
	}
}

// The longest key is found that some words begin with, whole words only.
func TestLongest(t *testing.T) {
	table := sorted.Make(map[string]string{"oil": "1", "oil of clove": "2", "oil of cloves and mace": "3", "oil's": "4", "oily fish": "5", "oi": "6"})
	for _, test := range []struct {
		words string
		row   string
		taken int
	}{
		{"oil of clove then", "2", 3},
		{"oil of cloves", "1", 1},
		{"oil of cloves and mace", "3", 5},
		{"oil and vinegar", "1", 1},
		{"oily fish", "5", 2},
		{"oily", "", 0},
		{"oil's", "4", 1},
		{"soil", "", 0},
		{"zest", "", 0},
		{"", "", 0},
	} {
		row, taken := table.Longest(strings.Fields(test.words))
		assert.Equal(t, test.row, row, test.words)
		assert.Equal(t, test.taken, taken, test.words)
	}
}

// Looking for the longest key finds what looking for each length would.
func TestLongestAgreesWithFind(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 9))
	words := func(most int) []string {
		list := make([]string, 1+random.IntN(most))
		for i := range list {
			list[i] = strings.Repeat("ab'"[random.IntN(3):][:1], 1+random.IntN(2))
		}
		return list
	}
	for range 2000 {
		rows := map[string]string{}
		for range random.IntN(12) {
			key := strings.Join(words(3), " ")
			rows[key] = "row of " + key
		}
		asked, table := words(5), sorted.Make(rows)
		row, taken := table.Longest(asked)
		want, most := "", 0
		for n := range asked {
			if found, ok := table.Find(strings.Join(asked[:n+1], " ")); ok {
				want, most = found, n+1
			}
		}
		assert.Equal(t, want, row, "%q in %v", asked, rows)
		assert.Equal(t, most, taken, "%q in %v", asked, rows)
	}
}

// What stands under a key is told as by Find, and longer names as by going through all
// rows, in tables of short and long rows.
func TestFindStartAgreesWithAllRows(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 9))
	word := func() string { return strings.Repeat("ab'"[random.IntN(3):][:1], 1+random.IntN(2)) }
	for range 600 {
		rows := map[string]string{}
		for range random.IntN(60) {
			key := strings.Join([]string{word(), word(), word()}[:1+random.IntN(3)], " ")
			rows[key] = strings.Repeat("x", random.IntN(80)+random.IntN(2)*random.IntN(400))
		}
		table := sorted.Make(rows)
		for range 20 {
			key := word()
			row, ok, longer := table.FindStart(key)
			want, known := rows[key]
			more := slices.ContainsFunc(slices.Collect(maps.Keys(rows)), func(one string) bool { return strings.HasPrefix(one, key+" ") })
			assert.Equal(t, []any{want, known, more}, []any{row, ok, longer}, "%q in %v", key, rows)
			found, ok := table.Find(key)
			assert.Equal(t, []any{want, known}, []any{found, ok}, "%q in %v", key, rows)
		}
	}
}
