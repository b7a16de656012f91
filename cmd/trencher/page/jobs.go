package page

// jobs lists what the page does, in the order of a day.
func jobs() []job {
	return []job{}
}

// plotName is how the page names its plot.
func (p *Page) plotName() string {
	switch {
	case p.where.Demo:
		return "the demo plot"
	case p.where.Dir == "":
		return "this folder's plot"
	}
	return p.where.Dir
}
