package render

import (
	"fmt"
	"io"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
)

// CheckWords tells what a sound plot holds.
func CheckWords(a ask.CheckAnswer) string {
	well := "all is well"
	if n := len(a.Warnings); n > 0 {
		well = "readable, with " + count(n, "thing", "things") + " to look into"
	}
	return fmt.Sprintf("%s: %s in %s, %s", well, count(a.Entries, "entry", "entries"),
		count(len(a.Seasons), "season", "seasons"), count(a.Dishes, "dish", "dishes"))
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

		Warnings []string `json:"warnings"`
	}{a.Entries, append([]int{}, a.Seasons...), a.Dishes, warningTexts(a.Warnings)})
}

func warningTexts(list []harvest.Warning) []string {
	texts := []string{}
	for _, w := range list {
		texts = append(texts, w.String())
	}
	return texts
}

// MendText tells what mending the journal wrote and moved.
func MendText(w io.Writer, a journal.Mended) error {
	var p page
	if len(a.Written)+len(a.Finished)+len(a.Aside) == 0 {
		p.line("nothing to mend")
	}
	for _, part := range []struct {
		says  string
		files []string
	}{{"settled by", a.Written}, {"brought to its end", a.Finished}, {"moved to", a.Aside}} {
		for _, file := range part.files {
			p.line(part.says + " " + file)
		}
	}
	return p.writeTo(w)
}

// MendJSON writes what mending the journal wrote and moved.
func MendJSON(w io.Writer, a journal.Mended) error {
	return writeJSON(w, struct {
		Written  []string `json:"written"`
		Finished []string `json:"finished"`
		Aside    []string `json:"set_aside"`
	}{append([]string{}, a.Written...), append([]string{}, a.Finished...), append([]string{}, a.Aside...)})
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
