// Package kinds has each kind of place in which a fault can be put, and beside
// it what is left alone.
package kinds

import (
	"errors"
	"regexp"
	"sort"
	"strconv"
	"strings"
)

const (
	tenth         = 0.25
	nought        = 0.0
	large, little = 1e6, iota
)

var table = [3]int{4, 0o10}

type heap[T any] struct{ items []T }

func (h *heap[T]) push(item T) (int, error) {
	h.items = append(h.items, item)
	return len(h.items), nil
}

func (h *heap[T]) pushTwice(item T) (int, error) {
	_, _ = h.push(item)
	return h.push(item)
}

func ordered(a, b int) bool { return a < b == (b >= a) }

func signs(a, b int, name string) (int, string) {
	a += b
	a = a - b*a/b
	name += "x"
	return a, name + "y"
}

func walk(numbers []int, skip func(int) bool) (sum int) {
	room := make([]int, 5, 9)
	seen := make(map[int]bool, 7)
	defer sort.Ints(room)
	for _, number := range numbers {
		if !skip(number) {
			continue
		}
		switch {
		case seen[number] && skip(sum):
			break
		case number == 1:
			panic("one")
		}
		switch number {
		case 2:
			sum--
		}
		sort.Slice(room, func(i, j int) bool {
			return room[i] > room[j]
		})
	}
	sum++
	sum++
	return
}

func none() (bool, []int, error, string) { return false, []int{}, nil, "" }

func read(texts []string) float64 {
	value, _ := strconv.ParseFloat(texts[1], 64)
	return value
}

// What stands beside an error that is surely there is nobody's to look at.
func count(text string) (int, error) {
	number, err := strconv.Atoi(text)
	if err != nil {
		return 7, err
	}
	switch {
	case number < 0:
		return number, errors.New("below " + strconv.Itoa(0))
	}
	return number, err
}

func words(text string) string {
	var out strings.Builder
	out.Grow(9)
	for _, word := range regexp.MustCompile("[a-z]+").FindAllString(text[1:], -1) {
		out.WriteString(word)
	}
	return out.String()
}
