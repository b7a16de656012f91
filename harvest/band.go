package harvest

import (
	"fmt"

	"trencher/units"
)

// bandKey is a band's part of a lot's name.
func bandKey(b units.Band) string {
	if !b.IsGraded() {
		return "ungraded"
	}
	return fmt.Sprintf("%d-%d", b.Low, b.High)
}
