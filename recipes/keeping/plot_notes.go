package keeping

// PlotFacts are what of a plan the plot's hygiene is about.
type PlotFacts struct {
	Made    bool // something is made of what the plot gave
	Carried bool // the water is carried: there is no tap
	Raw     bool // something from the plot is eaten raw: a crop, or herbs and leaves picked
	Lay     bool // something lay where rats come, or is damaged, or nobody knows
	Cools   bool // food stands open to cool
}

// PlotNotes are the lines of the plot's hygiene that matter to a plan, once each
// and short enough for one line of a terminal; the guidance on the food "plot" has
// all of it.
func PlotNotes(f PlotFacts) []Note {
	var notes []Note
	for _, one := range []struct {
		matters bool
		rules   []string
		says    string
	}{
		{f.Made && !f.Carried, []string{"water-potable"}, "Drinking water for steam, hands and herbs, never from butt or dip tank."},
		{f.Made && f.Carried, []string{"hands-soap", "water-potable"}, "No tap: soap and poured drinking water, 20 seconds; no butt, no dip tank."},
		{f.Raw, []string{"manure-120", "feed-120"}, "No fresh manure, and no feed made of it, in the 120 days before picking."},
		{f.Raw, []string{"slug-lungworm"}, "Wash what is eaten raw leaf by leaf in two waters: slugs carry a worm."},
		{f.Lay, []string{"lepto"}, "What rats gnawed or dirtied is thrown out; then wash your hands."},
		{f.Cools, []string{"flies-pets"}, "Cover what cools, off the ground, away from flies and pets."},
	} {
		if one.matters {
			notes = append(notes, Note{Kind: NotePlot, Rule: one.rules[0], Rules: one.rules, Says: one.says})
		}
	}
	return notes
}
