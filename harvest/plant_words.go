package harvest

import (
	"fmt"
	"slices"
	"time"
)

// PlantWords are a planting as a person tells of it; "" is not told.
type PlantWords struct {
	Called  string // its id: "tub-3"
	Crop    string
	Variety string
	Class   string // of potatoes: "second early"
	Sown    bool   // the day is of sowing, not of planting
	Tub     string // "40 l"
	Bed     string // "2 m2", "2 m x 1 m"
	Count   string // of seed tubers, plants or sets
	Day     time.Time
}

// FreeID is a name for the next tub or bed, "tub-4", that no planting has yet.
func FreeID(plantings []Planting, in string) string {
	for n := 1; ; n++ {
		id := fmt.Sprintf("%s-%d", in, n)
		if !slices.Contains(IDs(plantings), id) {
			return id
		}
	}
}
