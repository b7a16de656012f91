package ask

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/demo"
	"trencher/recipes/meal"
)

// BenchmarkSchedule is the timetable alone, of the demo's evening and of one with
// twelve dishes: the demo's five, each made two or three times under another name.
func BenchmarkSchedule(b *testing.B) {
	for _, dishes := range []int{5, 12} {
		b.Run(fmt.Sprint(dishes, " dishes"), func(b *testing.B) {
			q, loaded := demoEvening(b, dishes)
			for b.Loop() {
				if _, err := meal.Schedule(b.Context(), q, loaded); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// demoEvening is the demo's evening with so many dishes, up to the timetable.
func demoEvening(tb testing.TB, dishes int) (meal.Question, meal.Loaded) {
	tb.Helper()
	plot, err := Open(PlotRef{Demo: true})
	require.NoError(tb, err)
	q, err := plot.readShare(context.Background(), meal.PlanWords{ServeAt: demo.ServeAt}, meal.Share)
	require.NoError(tb, err)
	own := q.Dishes
	for n := len(own); n < dishes; n++ {
		dish := own[n%len(own)]
		dish.Name = fmt.Sprint(dish.Name, " ", n)
		q.Dishes = append(q.Dishes, dish)
	}
	for d := range q.Dishes {
		q.Dishes[d].Smallest, q.Dishes[d].Largest = 2, 2
	}
	q.MostDishes = dishes
	for i, lot := range q.Lots { // enough for all of them
		more := *lot
		more.Weight, more.Supply = lot.Weight.Shift(1), lot.Supply.Shift(1)
		q.Lots[i] = &more
	}
	solved, err := meal.Solve(context.Background(), q)
	require.NoError(tb, err)
	scaled := meal.Scale(q, solved)
	loaded, err := meal.LoadUp(q, scaled)
	require.NoError(tb, err)
	return q, loaded
}

// The benchmark's evenings are what it says: all their dishes are made.
func TestTheBenchmarksEvenings(t *testing.T) {
	for _, dishes := range []int{5, 12} {
		q, loaded := demoEvening(t, dishes)
		require.Equal(t, dishes, len(loaded.Dishes))
		timetable, err := meal.Schedule(t.Context(), q, loaded)
		require.NoError(t, err)
		require.NotEmpty(t, timetable.Steps)
	}
}
