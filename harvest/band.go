package harvest

import (
	"fmt"
	"regexp"
	"strconv"
)

// Band is a riddle band in whole millimetres: what falls through the upper
// mesh and stays on the lower. The zero value is ungraded.
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

// String writes the band as it is read: "20-45 mm", or "" when ungraded.
func (b Band) String() string {
	if !b.IsGraded() {
		return ""
	}
	return fmt.Sprintf("%d-%d mm", b.Low, b.High)
}

// key is the band's part of a lot's name.
func (b Band) key() string {
	if !b.IsGraded() {
		return "ungraded"
	}
	return fmt.Sprintf("%d-%d", b.Low, b.High)
}

// largestMesh is beyond any riddle and any vegetable measured across.
const largestMesh = 500

var bandText = regexp.MustCompile(`^\s*(\d{1,4})\s*(?:mm)?\s*(?:-|–|to)\s*(\d{1,4})\s*mm\s*$`)

// ParseBand reads a riddle band: "20-45 mm" or "20 to 45 mm". It returns a
// *TextError.
func ParseBand(text string) (Band, *TextError) {
	parts := bandText.FindStringSubmatch(text)
	if parts == nil {
		return Band{}, &TextError{"no riddle band", "two meshes in millimetres, like 20-45 mm"}
	}
	low, _ := strconv.Atoi(parts[1])
	high, _ := strconv.Atoi(parts[2])
	switch {
	case low > high:
		return Band{}, &TextError{"the sizes run from large to small", fmt.Sprintf("%d-%d mm", high, low)}
	case low == high:
		return Band{}, &TextError{"the band has no width", "two meshes, like 20-45 mm"}
	case high > largestMesh:
		return Band{}, &TextError{fmt.Sprintf("beyond any riddle (%d mm)", largestMesh), "millimetres across, like 20-45 mm"}
	}
	return Band{low, high}, nil
}
