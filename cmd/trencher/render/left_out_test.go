package render

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes/meal"
	"trencher/recipes/planner"
)

// Of many dishes that are not made, those of one reason stand in one row.
func TestManyDishesLeftOutStandInFewRows(t *testing.T) {
	var all []meal.LeftOut
	for i := range 90 {
		all = append(all, meal.LeftOut{Dish: fmt.Sprint("Mash ", i), Reason: planner.NotNeeded})
	}
	for i := range 10 {
		all = append(all, meal.LeftOut{Dish: fmt.Sprint("Soup ", i), Reason: planner.TooLittle, Of: "leek", Smallest: 2, Short: big.NewRat(int64(10+i), 1)})
	}
	all = append(all, meal.LeftOut{Dish: "Pie", Reason: planner.NoLot, Of: "onion"})
	assert.Equal(t, []leftOutView{
		{"Mash 0, Mash 1, Mash 2, Mash 3, Mash 4, Mash 5 and 84 more", "not needed: as many are fed, as well, without it"},
		{"Soup 0, Soup 1, Soup 2, Soup 3, Soup 4, Soup 5 and 4 more", "too little leek for their smallest batches"},
		{"Pie", "no onion on hand"},
	}, leftOutRows(all))
	assert.Len(t, leftOutRows(all[:mostLeftOut]), mostLeftOut, "few stand one by one")
}
