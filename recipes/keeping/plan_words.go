package keeping

import (
	"fmt"
	"time"
)

// matter is all that the words of a note are made of, so that two dishes of the
// same matter share one note. A part that a kind has no use for is zero.
type matter struct {
	kind   NoteKind
	danger bool

	at     time.Time // the end the note is about
	before bool      // at itself is too late
	cooked time.Time
	table  time.Time // from when it is on the table
	by     time.Time // table: back in the fridge by then; straight: eaten by then
	late   time.Time // when the plan has it, beyond the limit

	cools cooling
	takes time.Duration // how long the cooling takes
	air   airMatter

	fridge Temperature // warmer than limit
	none   bool        // there is no fridge
	limit  float64     // °C
	heatTo string      // how hot what is left is heated up

	head, sentence string // told as they are: a verdict's or a food's words
}

// cooling is how a dish gets cool enough for the fridge.
type cooling int

const (
	notKnown cooling = iota
	inBowl
	onTray
	tooSlowly
)

// airMatter is what the air does to the time on the table.
type airMatter struct {
	kind airKind
	c    float64 // the air, or the limit above which it matters
}

type airKind int

const (
	mildAir airKind = iota
	hotAir
	unknownAir
)

// told is a matter of one dish with the rules it rests on.
type told struct {
	matter
	at    time.Time // to the second
	dish  string
	rules []string
}

func (p *planning) add(m matter, rules ...[]string) {
	at := m.at
	for _, t := range []*time.Time{&m.at, &m.cooked, &m.table, &m.by, &m.late} {
		*t = t.Truncate(time.Minute).UTC()
	}
	m.takes = m.takes.Truncate(time.Minute)
	p.told = append(p.told, told{m, at, p.dish.Name, joined(nil, rules...)})
}

func (p *planning) warning(says string, rules []string) {
	p.add(matter{kind: NoteWarning, sentence: says}, rules)
}

// notesOf makes one note of each matter, in the order of first mention. The
// times in the words are to the minute and as the clock shows them on the day
// of now.
func notesOf(all []told, now time.Time) []Note {
	var notes []Note
	place := map[matter]int{}
	for _, one := range all {
		if i, known := place[one.matter]; known {
			notes[i].Dishes = joined(notes[i].Dishes, []string{one.dish})
			continue
		}
		place[one.matter] = len(notes)
		notes = append(notes, Note{Kind: one.kind, Dishes: []string{one.dish}, At: one.at, Danger: one.danger,
			Rule: one.rules[0], Rules: one.rules, Says: wording{one.matter, now}.says()})
	}
	return notes
}

// wording puts a matter into words.
type wording struct {
	matter
	now time.Time
}

func (w wording) says() string {
	switch {
	case w.head != "":
		return w.verdict()
	case w.kind == NoteCoolBy:
		return w.coolBy()
	case w.kind == NoteDress:
		return fmt.Sprintf("dress it cold, at %s, and back into the fridge until serving.", w.clock(w.at))
	case w.kind == NoteTable:
		return w.onTable()
	case w.kind == NoteStraight:
		return w.straight()
	case w.kind == NoteLeftOver:
		return w.leftOver()
	case w.fridge.Known:
		return fmt.Sprintf("the fridge at %s is too warm to keep it in; %s at most.", degrees(w.fridge.C), degrees(w.limit))
	}
	return w.sentence
}

func (w wording) clock(t time.Time) string { return clockTime(t, w.now) }

// end is the last moment with its word: "by 18:30", "before 18:30".
func (w wording) end() string {
	if w.before {
		return "before " + w.clock(w.at)
	}
	return "by " + w.clock(w.at)
}

// verdict tells a verdict in its own words; of a discard when its time ran out.
func (w wording) verdict() string {
	switch {
	case w.danger && !w.table.IsZero() && !w.at.IsZero():
		return fmt.Sprintf("not for the table at %s: its time ran out at %s. %s", w.clock(w.table), w.clock(w.at), w.sentence)
	case w.danger:
		return uncapital(w.head) + " " + w.sentence
	}
	return fmt.Sprintf("cooked at %s; %s %s", w.clock(w.cooked), uncapital(w.head), w.sentence)
}

func (w wording) coolBy() string {
	says := fmt.Sprintf("cooked at %s, in the fridge by %s.", w.clock(w.cooked), w.clock(w.at))
	switch w.cools {
	case inBowl:
		says += " In its bowl it cools in time."
	case onTray:
		says += " Spread it one layer deep on a tray"
		if w.takes > 0 {
			says += fmt.Sprintf("; heaped in a bowl it would take %s", spanWords(w.takes))
		}
		says += "."
	case tooSlowly:
		says += fmt.Sprintf(" Even spread out it takes %s; cut it smaller, or stand the tray in cold water.", spanWords(w.takes))
	}
	if !w.late.IsZero() {
		says += fmt.Sprintf(" The plan has it there at %s only, too late to keep.", w.clock(w.late))
	}
	return says
}

func (w wording) onTable() string {
	from, air := w.clock(w.table), w.airWords()
	switch {
	case w.by.IsZero():
		return fmt.Sprintf("on the table from %s; eaten %s%s, and then thrown out.", from, w.end(), air)
	case w.by.Before(w.at):
		return fmt.Sprintf("on the table from %s; back in the fridge before %s, or eaten %s%s and then thrown out.", from, w.clock(w.by), w.end(), air)
	}
	return fmt.Sprintf("on the table from %s; eaten or back in the fridge before %s%s, else thrown out.", from, w.clock(w.at), air)
}

func (w wording) straight() string {
	if w.none {
		return w.unkept()
	}
	says := fmt.Sprintf("cooked at %s; eaten or in the fridge by %s%s, unless it is kept at %s or hotter.", w.clock(w.cooked), w.clock(w.at), w.airWords(), degrees(w.limit))
	if !w.by.IsZero() {
		says += fmt.Sprintf(" After that it may be eaten until %s, but not kept.", w.clock(w.by))
	}
	if !w.late.IsZero() {
		says += fmt.Sprintf(" The plan has it on the table at %s only, too late to eat.", w.clock(w.late))
	}
	return says
}

// unkept is straight where there is no fridge.
func (w wording) unkept() string {
	by := w.at
	if !w.by.IsZero() {
		by = w.by
	}
	says := fmt.Sprintf("cooked at %s; eaten by %s%s, unless it is kept at %s or hotter.", w.clock(w.cooked), w.clock(by), w.airWords(), degrees(w.limit))
	if !w.late.IsZero() {
		says += fmt.Sprintf(" The plan has it on the table at %s only, too late to eat.", w.clock(w.late))
	}
	return says
}

func (w wording) leftOver() string {
	says := "what is left and went back in time is eaten " + w.end()
	if w.heatTo != "" {
		says += ", heated up once, to " + w.heatTo
	}
	return says + "."
}

// airWords tells what the air does to the time.
func (w wording) airWords() string {
	switch w.air.kind {
	case hotAir:
		return fmt.Sprintf(" (half the time, in air of %s)", degrees(w.air.c))
	case unknownAir:
		return fmt.Sprintf(" (half that time in air above %s)", degrees(w.air.c))
	}
	return ""
}
