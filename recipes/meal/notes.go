package meal

import (
	"strings"

	"trencher/harvest"
)

// TastingNotes are the notes that stand against each dish among a plot's
// entries, by the dish's name in small letters, the latest first.
func TastingNotes(entries []harvest.Entry) map[string][]TastingNote {
	notes := map[string][]TastingNote{}
	for _, note := range harvest.Notes(entries) {
		dish := strings.ToLower(note.Dish)
		notes[dish] = append(notes[dish], TastingNote{At: note.At, Says: note.Says})
	}
	return notes
}
