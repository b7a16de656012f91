package journal

import (
	"io"
	"os"
	"path/filepath"
)

// WriteDish writes a new dish file, dishes/STEM.yaml, and returns its path. The
// stem must be free; it may hold letters, digits and hyphens only, as
// [harvest.IsID] tells.
func (f *Folder) WriteDish(stem, text string) (path string, err error) {
	if !f.Writable() {
		return "", f.readOnly()
	}
	path = filepath.Join(f.dir, "dishes", stem+".yaml")
	output := Output{Field: "name", Path: path, Dish: true}
	return path, output.Write(func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	})
}

// HasDish tells whether this very text is the dish file of that stem.
func (f *Folder) HasDish(stem, text string) bool {
	held, err := os.ReadFile(filepath.Join(f.dir, "dishes", stem+".yaml"))
	return err == nil && string(held) == text
}
