package units

import "os"

// Cases is how many random cases a test tries: the second with TRENCHER_LONG.
func Cases(usual, long int) int {
	if os.Getenv("TRENCHER_LONG") == "" {
		return usual
	}
	return long
}
