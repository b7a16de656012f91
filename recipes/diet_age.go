package recipes

import (
	"slices"
	"strconv"
)

// age is how old somebody is, in years, or how old at least or at most.
type age struct {
	years float64
	least bool // or older
	most  bool // or younger
}

// ageAt reads an age: "85 years old", "aged 3", "over 65", "9 months", or a bare
// number between commas; and how many words it takes.
func (r *dietReader) ageAt() (age, int) {
	rest := r.words[r.at:]
	number := func(i int) (float64, bool) {
		if i >= len(rest) {
			return 0, false
		}
		years, err := strconv.Atoi(rest[i])
		return float64(years), err == nil && years >= 0 && years <= 120
	}
	word := func(i int, words ...string) bool { return i < len(rest) && slices.Contains(words, rest[i]) }
	if years, ok := number(0); ok {
		switch {
		case r.weeksGone(): // of the child to come
			return age{}, 0
		case word(1, "month"):
			return age{years: years / 12}, 2 + btoi(word(2, "old"))
		case word(1, "year", "yr", "y"):
			return age{years: years}, 2 + btoi(word(2, "old"))
		}
		return age{years: years}, 1
	}
	years, ok := number(1)
	if !ok {
		return age{}, 0
	}
	after := 2 + btoi(word(2, "year"))
	after += btoi(word(after, "old"))
	if word(2, "month") {
		years, after = years/12, 3+btoi(word(3, "old"))
	}
	switch {
	case word(0, "aged", "age"):
		return age{years: years}, after
	case word(0, "over", "above"):
		return age{years: years, least: true}, after
	case word(0, "under", "below"):
		return age{years: years, most: true}, after
	}
	return age{}, 0
}

func btoi(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
