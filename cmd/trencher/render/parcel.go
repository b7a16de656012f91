package render

import (
	"fmt"
	"io"
	"strings"

	"trencher/harvest/journal"
)

// ParcelWords says what a parcel carries: "12 entries, 3427 g lifted". The weight
// is not rounded, so that both ends can be compared.
func ParcelWords(p journal.Parcel) string {
	if len(p.Files) == 0 {
		return "nothing"
	}
	words := []string{counted(p.Entries, "entry", "entries")}
	if p.Net.Sign() > 0 {
		words = append(words, p.Net.String()+" g lifted")
	}
	if others := len(p.Files) - p.Entries; others > 0 {
		words = append(words, counted(others, "other file", "other files"))
	}
	return strings.Join(words, ", ")
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// BroughtWords says what bringing a parcel did, in one sentence each.
func BroughtWords(b journal.Brought) []string {
	says := []string{"brought: " + ParcelWords(b.Parcel)}
	if b.Already > 0 {
		says = append(says, counted(b.Already, "file was", "files were")+" here already")
	}
	if len(b.Replaced) > 0 {
		says = append(says, "newer now: "+strings.Join(b.Replaced, ", "))
	}
	if len(b.Kept) > 0 {
		says = append(says, "different there, yours stand: "+strings.Join(b.Kept, ", "))
	}
	return says
}

// BroughtText tells what bringing a parcel did.
func BroughtText(w io.Writer, b journal.Brought) error {
	_, err := fmt.Fprintln(w, strings.Join(BroughtWords(b), "\n"))
	return err
}

// BroughtJSON writes what bringing a parcel did.
func BroughtJSON(w io.Writer, b journal.Brought) error {
	return writeJSON(w, struct {
		Entries  int      `json:"entries"`
		NetG     string   `json:"net_g"`
		Files    []string `json:"files"`
		Already  int      `json:"already"`
		Kept     []string `json:"kept"`
		Replaced []string `json:"replaced"`
	}{b.Entries, b.Net.String(), append([]string{}, b.Files...), b.Already, append([]string{}, b.Kept...), append([]string{}, b.Replaced...)})
}
