package render

import (
	"encoding/json"
	"io"
	"math"
)

// writeJSON writes one JSON value, indented, with a closing line end.
func writeJSON(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}

// tenth rounds a figure of physics once, for showing.
func tenth(x float64) float64 { return math.Round(x*10) / 10 }
