package planner

import "os"

// volume is how many random problems a test draws: a few usually, more with
// TRENCHER_LONG=1, and all that is promised with TRENCHER_LONG=full.
func volume(usual, long, full int) int {
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return usual
	case "full":
		return full
	}
	return long
}
