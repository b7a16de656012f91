package keeping

import (
	"cmp"
	"slices"
)

// book is everything the rules come to: what people write in rules/*.yaml,
// authorities.yaml and foods.yaml, with every reference to a rule's figure resolved.
// It is Go that `go generate ./recipes/keeping` makes of them (book_made_test.go), so
// that nothing need be read when a program starts; TestBookIsMade fails until it is.
//
//go:generate go test -run TestBookIsMade -update .
type book struct {
	rules       []Rule
	byID        []place
	authorities []ownLimits
	strictest   Limits
	foods       []Food
	foodNamed   []place   // by every plain name
	sections    []Section // of the guidance on foods
	freezing    int       // which of them
	reheatedOut Span      // how long a dish that was heated up again stands below the hot limit at most
}

// ownLimits are the limits of one authority.
type ownLimits struct {
	authority Authority
	limits    Limits
}

// place is where something stands in a list.
type place struct {
	name string
	at   int
}

// at finds a name among places, which are in the order of their names.
func at(places []place, name string) (int, bool) {
	i, ok := slices.BinarySearchFunc(places, name, func(p place, name string) int { return cmp.Compare(p.name, name) })
	if !ok {
		return 0, false
	}
	return places[i].at, true
}
