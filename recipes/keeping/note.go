package keeping

import "time"

// NoteKind is what a note of a plan is about.
type NoteKind string

// The kinds of notes.
const (
	NoteCoolBy   NoteKind = "cool-by"   // in the fridge by then, before the table
	NoteDress    NoteKind = "dress"     // dressed cold
	NoteTable    NoteKind = "table"     // from the fridge to the table: how long
	NoteStraight NoteKind = "straight"  // from the heat to the table: how long
	NoteLeftOver NoteKind = "left-over" // what is left: by when it is eaten
	NoteWarning  NoteKind = "warning"   // what to mind with this food or fridge
	NoteNarrowed NoteKind = "narrowed"  // the plan keeps one authority's rules
	NoteStanding NoteKind = "standing"  // of the stove and the sink, with any plan
	NotePlot     NoteKind = "plot"      // of the plot's hygiene, where it matters
)

// Note is one thing a plan's rules ask for.
type Note struct {
	Kind   NoteKind
	Dishes []string  // whom it is about, in the plan's order; none for all of it
	At     time.Time // the moment it is about; zero when none
	Danger bool      // the plan breaks the rule
	Rule   string    // the rule that decides
	Rules  []string  // all it rests on, Rule first
	Says   string    // in words, without the dishes
}

// StandingNotes are the cautions of the stove and the sink that go with any
// plan, whatever its dishes; Cautions has those on eating.
func StandingNotes() []Note {
	var notes []Note
	for _, one := range []struct{ rule, says string }{
		{"stove-co", "A gas stove, lit or still warm, stays outdoors, never in a tent, awning, caravan, shed or greenhouse; carbon monoxide cannot be seen or smelt."},
		{"steam-lid", "Steam scalds: flame down, lid up far edge first, face and arms back; top up with hot water only."},
		{"scald-20min", "A scald goes under cool running water for 20 minutes."},
		{"green-bitter-discard", "Throw out green, bitter or strongly sprouted potatoes, and pour the steaming water away."},
		{"wash-soil-off", "Scrub the soil off away from food that is ready to eat; then wash hands, board and sink."},
	} {
		notes = append(notes, Note{Kind: NoteStanding, Rule: one.rule, Rules: []string{one.rule}, Says: one.says})
	}
	return notes
}
