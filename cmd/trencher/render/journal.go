package render

import (
	"fmt"
	"io"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
)

// ImportWords tells what came of a table of weights.
func ImportWords(a journal.Imported) string {
	text := fmt.Sprintf("%s: %s written", a.Table, count(len(a.Written), "entry", "entries"))
	if a.Already > 0 {
		text += fmt.Sprintf(", %d in the journal already", a.Already)
	}
	if len(a.Bad) > 0 {
		text += fmt.Sprintf(", %s left out", count(len(a.Bad), "row", "rows"))
	}
	return text
}

// CheckWords tells what a sound plot holds.
func CheckWords(a ask.CheckAnswer) string {
	return fmt.Sprintf("all is well: %s in %s, %s", count(a.Entries, "entry", "entries"),
		count(len(a.Seasons), "season", "seasons"), count(a.Dishes, "dish", "dishes"))
}

// ImportJSON writes what came of a table of weights.
func ImportJSON(w io.Writer, a journal.Imported) error {
	return writeJSON(w, struct {
		Table   string   `json:"table"`
		Written []string `json:"written"`
		Already int      `json:"already"`
	}{a.Table, append([]string{}, a.Written...), a.Already})
}

// VoidJSON writes a void, as it was written.
func VoidJSON(w io.Writer, v *harvest.Void) error {
	return writeJSON(w, struct {
		Kind  string `json:"kind"`
		Voids string `json:"voids"`
		File  string `json:"file"`
	}{v.Kind(), v.Voids, v.File})
}

// CheckJSON writes what a sound plot holds.
func CheckJSON(w io.Writer, a ask.CheckAnswer) error {
	return writeJSON(w, struct {
		Entries int   `json:"entries"`
		Seasons []int `json:"seasons"`
		Dishes  int   `json:"dishes"`
	}{a.Entries, append([]int{}, a.Seasons...), a.Dishes})
}

// ImportText is ImportWords as a line.
func ImportText(w io.Writer, a journal.Imported) error {
	_, err := fmt.Fprintln(w, ImportWords(a))
	return err
}

// VoidText tells what was struck out, and where that stands.
func VoidText(w io.Writer, v *harvest.Void) error {
	_, err := fmt.Fprintf(w, "struck out %s\nwritten to %s\n", v.Voids, v.File)
	return err
}

// CheckText is CheckWords as a line.
func CheckText(w io.Writer, a ask.CheckAnswer) error {
	_, err := fmt.Fprintln(w, CheckWords(a))
	return err
}
