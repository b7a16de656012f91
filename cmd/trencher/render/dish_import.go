package render

import (
	"fmt"
	"io"
	"trencher/recipes"
)

// ImportedDish writes the dish file itself.
func ImportedDish(w io.Writer, d recipes.ImportedDish) error {
	_, err := io.WriteString(w, d.Text)
	return err
}

// ImportedText says what was written and what to do next.
func ImportedText(w io.Writer, d recipes.ImportedDish) error {
	_, err := fmt.Fprintf(w, "%s, %d portions, written to %s\nOpen it and settle the lines marked \"check\".\n", d.Name, d.Portions, d.File)
	return err
}

// ImportedJSON is the same for scripts: the dish file's text, and where it was
// written if it was.
func ImportedJSON(w io.Writer, d recipes.ImportedDish) error {
	return writeJSON(w, struct {
		Name     string `json:"name"`
		Portions int    `json:"portions"`
		Text     string `json:"text"`
		File     string `json:"file,omitempty"`
	}{d.Name, d.Portions, d.Text, d.File})
}
