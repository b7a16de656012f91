package parallel_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units/parallel"
)

func ExampleEach() {
	squares := make([]int, 5)
	parallel.Each(len(squares), func(i int) { squares[i] = i * i })
	fmt.Println(squares)
	// Output: [0 1 4 9 16]
}

// Every piece is done once, however many there are.
func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 2, 3, 1000} {
		done, want := make([]int, n), slices.Repeat([]int{1}, n)
		parallel.Each(n, func(i int) { done[i]++ })
		assert.Equal(t, want, done)
	}
}
