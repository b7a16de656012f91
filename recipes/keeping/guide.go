package keeping

// Guidance is the general guidance on a food, with no batch in hand. Its figures
// are the strictest ones, unless a line says whose they are.
type Guidance struct {
	Food     Food
	Short    string // the answer in one line
	Sections []Section
	Cautions []string
}

// Guide gives the guidance on a food by any of its names. An unknown food is
// an *InputError that lists what is known.
func Guide(food string) (Guidance, error) {
	f, err := LookupFood(food)
	if err != nil {
		return Guidance{}, err
	}
	return Guidance{Food: f, Short: f.Short, Sections: f.Sections, Cautions: Cautions(false)}, nil
}

// Rules lists the rules the guidance rests on, each once, in order.
func (g Guidance) Rules() []string {
	ids := joined(nil, g.Food.Cites)
	for _, s := range g.Sections {
		for _, line := range s.Lines {
			ids = joined(ids, line.Rules)
		}
	}
	return ids
}
