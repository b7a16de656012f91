package render

import (
	"fmt"
	"io"

	"trencher/harvest/journal"
)

// BegunText says what stands in the new plot and what to do with it.
func BegunText(w io.Writer, begun journal.Begun) error {
	p := &page{}
	p.line(fmt.Sprintf("Your plot stands in %s:", begun.Dir))
	for _, file := range begun.Files {
		p.line("  " + file)
	}
	p.gap()
	p.wrapped("", "Change kitchen.yaml, plantings.yaml and the dishes to what is yours; remove the example lifts in journal/ before your first own. Then:")
	p.line(fmt.Sprintf("  trencher share --plot %s", begun.Dir))
	return p.writeTo(w)
}

// BegunJSON is the same for scripts.
func BegunJSON(w io.Writer, begun journal.Begun) error {
	return writeJSON(w, struct {
		Dir   string   `json:"dir"`
		Files []string `json:"files"`
	}{begun.Dir, begun.Files})
}
