package sorted_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
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
