package keeping

// PlotFacts are what of a plan the plot's hygiene is about.
type PlotFacts struct {
	Carried bool // the water is carried: there is no tap
	Lifted  bool // something comes out of the soil or off the plot
	Raw     bool // something from the plot is eaten raw: a crop, or herbs and leaves picked
	Cools   bool // food stands open to cool
}

// PlotNotes are the lines of the plot's hygiene that matter to a plan, once each;
// the guidance on the food "plot" has all of them.
func PlotNotes(f PlotFacts) []Note {
	var notes []Note
	for _, one := range []struct {
		matters bool
		rule    string
	}{
		{f.Carried, "hands-soap"}, {f.Raw, "slug-lungworm"}, {f.Raw, "manure-120"}, {f.Lifted, "lepto"}, {f.Cools, "flies-pets"},
	} {
		if rule, ok := LookupRule(one.rule); ok && one.matters {
			notes = append(notes, Note{Kind: NotePlot, Rule: rule.ID, Rules: []string{rule.ID}, Says: rule.Says})
		}
	}
	return notes
}
