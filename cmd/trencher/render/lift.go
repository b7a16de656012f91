package render

import (
	"cmp"
	"fmt"
	"io"

	"trencher/harvest"
)

// LiftText tells what a lift gave and where it was written.
func LiftText(w io.Writer, a harvest.LoggedLift) error {
	var p page
	p.line(fmt.Sprintf("%s: %s %s", a.Planting, grams(a.Net()), gathered(a.From.Crop)))
	for _, l := range a.Lots {
		p.row("  ", 10, grams(l.Gave), joinWords(l.Sizes.String(), string(l.Condition), fate(l.Condition)))
	}
	p.line("written to " + a.File)
	return p.writeTo(w)
}

// gathered says what was done to a crop to have it: a courgette is cut.
func gathered(crop string) string {
	row, _ := harvest.LookupCrop(crop)
	done := map[harvest.Verb]string{harvest.VerbPull: "pulled", harvest.VerbCut: "cut", harvest.VerbPick: "picked"}
	return cmp.Or(done[row.Verb], "lifted")
}

// fate is what a condition means for the next hour.
func fate(c harvest.Condition) string {
	switch c {
	case harvest.Damaged:
		return "(trim, use today)"
	case harvest.Scabby:
		return "(scrub or peel)"
	case harvest.Green, harvest.Rotten:
		return "(never to the kitchen)"
	}
	return ""
}

func joinWords(words ...string) string {
	text := ""
	for _, word := range words {
		if word != "" && text != "" {
			text += " "
		}
		text += word
	}
	return text
}

// moveVerbs say what became of grams that left a lot.
var moveVerbs = map[string]string{harvest.KindUse: "to the kitchen", harvest.KindGive: "given away",
	harvest.KindCompost: "composted", harvest.KindStore: "put in store"}

// MoveText tells what left a lot and what is left of it.
func MoveText(w io.Writer, a harvest.LoggedMove) error {
	var p page
	detail := joinWords(a.Dish, a.Whom, a.Where, a.Reason)
	if detail != "" {
		detail = ": " + detail
	}
	p.wrapped("", fmt.Sprintf("%s of %s %s%s", grams(a.Grams), a.From.Name, moveVerbs[a.To], detail))
	switch {
	case a.To == harvest.KindStore:
	case a.Left.Sign() == 0:
		p.line("nothing of it is left")
	default:
		p.line(grams(a.Left) + " left")
	}
	p.line("written to " + a.File)
	return p.writeTo(w)
}

// NoteText tells where a tasting note was written.
func NoteText(w io.Writer, n *harvest.Note) error {
	var p page
	p.wrapped("", fmt.Sprintf("noted for %s: %s", n.Dish, n.Says))
	p.line("written to " + n.File)
	return p.writeTo(w)
}
