package units

import (
	"fmt"
	"strconv"
	"strings"
)

// Band is a riddle band in whole millimetres: what falls through the upper
// mesh and stays on the lower. The zero value is no band: an ungraded lot, a
// dish that takes any size.
type Band struct{ Low, High int }

// IsGraded tells whether the band has sizes at all.
func (b Band) IsGraded() bool { return b != Band{} }

// Within tells whether the whole of b lies in o, ends included. An ungraded
// band is accepted anywhere, and an ungraded o accepts anything.
func (b Band) Within(o Band) bool {
	if !b.IsGraded() || !o.IsGraded() {
		return true
	}
	return b.Low >= o.Low && b.High <= o.High
}

// String writes the band as [ParseBand] reads it: "20-45 mm", or "" when
// ungraded.
func (b Band) String() string {
	if !b.IsGraded() {
		return ""
	}
	return fmt.Sprintf("%d-%d mm", b.Low, b.High)
}

// largestMesh is beyond any riddle and any vegetable measured across.
const largestMesh = 500

// mesh reads the number that a text begins with, and gives what follows it.
func mesh(text string) (mm int, rest string, ok bool) {
	text = strings.TrimSpace(text)
	rest = strings.TrimLeft(text, "0123456789")
	mm, err := strconv.Atoi(text[:len(text)-len(rest)])
	return mm, strings.TrimSpace(rest), err == nil && len(text)-len(rest) <= 4
}

// afterTo is what follows the hyphen, the dash or the "to" that a text begins
// with; nothing where it begins otherwise.
func afterTo(text string) string {
	for _, to := range [...]string{"-", "–", "to"} {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(text), to); ok {
			return rest
		}
	}
	return ""
}

// ParseBand reads a riddle band: "20-45 mm" or "20 to 45 mm". Its error is a
// [*FieldError] without a field.
func ParseBand(text string) (Band, *FieldError) {
	low, rest, first := mesh(text)
	high, rest, second := mesh(afterTo(strings.TrimPrefix(rest, "mm")))
	switch {
	case !first || !second || rest != "mm":
		return Band{}, WrongField("", "", "no riddle band", "two meshes in millimetres, like 20-45 mm")
	case low > high:
		return Band{}, WrongField("", "", "the sizes run from large to small", Band{high, low}.String())
	case low == high:
		return Band{}, WrongField("", "", "the band has no width", "two meshes, like 20-45 mm")
	case high > largestMesh:
		return Band{}, WrongField("", "", fmt.Sprintf("beyond any riddle (%d mm)", largestMesh), "millimetres across, like 20-45 mm")
	}
	return Band{low, high}, nil
}
