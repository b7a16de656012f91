package meal

import (
	"sync"
	"sync/atomic"

	"trencher/recipes"
)

// makeupsOf are what dishes are made of, each read when it is first asked for.
func makeupsOf(dishes []recipes.Dish) []func() Makeup {
	makeups := make([]func() Makeup, len(dishes))
	for i, dish := range dishes {
		makeups[i] = sync.OnceValue(func() Makeup { return MakeupOf(dish) })
	}
	return makeups
}

// makeup is what one of the question's dishes is made of.
func (q Question) makeup(dish int) Makeup {
	if q.makeups == nil {
		return MakeupOf(q.Dishes[dish])
	}
	return q.makeups[dish]()
}

// readAhead reads makeups beside other work, until it is told to stop.
func readAhead(makeups []func() Makeup) (stop func()) {
	var stopped atomic.Bool
	go func() {
		for _, read := range makeups {
			if stopped.Load() {
				return
			}
			read()
		}
	}()
	return func() { stopped.Store(true) }
}
