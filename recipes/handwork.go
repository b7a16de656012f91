package recipes

import "strings"

// Handwork is what hands do to a crop before it is cut.
type Handwork uint8

// The kinds of handwork.
const (
	Trim  Handwork = iota // wash, and cut off what is not eaten
	Scrub                 // the skin stays on
	Peel
	Shell // pods
)

// handworkWords says which words of the yields table's states mean which work;
// the first that stands in a state decides.
var handworkWords = map[string]Handwork{
	"scrubbed": Scrub, "rubbed": Scrub, "peeled": Peel, "shelled": Shell,
}

// Handwork is what gets the crop into the state that the line names.
func (c CropLine) Handwork() Handwork {
	for _, word := range strings.FieldsFunc(c.Prepared, func(r rune) bool { return r == ' ' || r == ',' }) {
		if work, ok := handworkWords[word]; ok {
			return work
		}
	}
	return Trim
}

// IsRaw tells a crop that is not cooked.
func (c CropLine) IsRaw() bool { return c.Cook == "raw" }

// IsSteamed tells a crop that goes into the steamer.
func (c CropLine) IsSteamed() bool { return c.Cook == "steam" }

// IsInWater tells a crop that is cooked in boiling water.
func (c CropLine) IsInWater() bool { return c.Cook == "boil" || c.Cook == "blanch" }
