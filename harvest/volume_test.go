package harvest

import "os"

// Volume is how many random cases a property is tried on: by default, with
// TRENCHER_LONG=1, and with TRENCHER_LONG=full.
func Volume(usual, long, full int) int {
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return usual
	case "full":
		return full
	}
	return long
}
