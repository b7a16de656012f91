package render

import (
	"bytes"
	"encoding/json"
	"io"
	"iter"
	"math"
)

// writeJSON writes one JSON value, indented, with a closing line end.
func writeJSON(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}

// writeJSONList writes a list of any length as writeJSON does, one element after
// the other.
func writeJSONList[T any](w io.Writer, elements iter.Seq[T]) error {
	var one bytes.Buffer
	encoder := json.NewEncoder(&one)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("  ", "  ")
	before, end := "[\n  ", "[]\n"
	for element := range elements {
		one.Reset()
		one.WriteString(before)
		if err := encoder.Encode(element); err != nil {
			return err
		}
		if _, err := w.Write(bytes.TrimSuffix(one.Bytes(), []byte("\n"))); err != nil {
			return err
		}
		before, end = ",\n  ", "\n]\n"
	}
	_, err := io.WriteString(w, end)
	return err
}

// tenth rounds a figure of physics once, for showing.
func tenth(x float64) float64 { return math.Round(x*10) / 10 }
