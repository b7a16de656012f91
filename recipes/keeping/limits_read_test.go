package keeping

import (
	"fmt"
	"slices"
	"strings"
)

// authorityRow is an authority as authorities.yaml has it.
type authorityRow struct {
	Hot              string `yaml:"hot"`
	HotAim           string `yaml:"hot-aim"`
	Cooling          string `yaml:"cooling"`
	CoolingAim       string `yaml:"cooling-aim"`
	Back             string `yaml:"back"`
	BackUnder        bool   `yaml:"back-under"`
	Eat              string `yaml:"eat"`
	EatUnder         bool   `yaml:"eat-under"`
	StillOut         string `yaml:"still-out"`
	HotEat           string `yaml:"hot-eat"`
	FridgeVulnerable string `yaml:"fridge-vulnerable"`
	LifeCold         string `yaml:"life-cold"`
	Refreeze         bool   `yaml:"refreeze"`
	HotAir           string `yaml:"hot-air"`
	Fridge           string `yaml:"fridge"`
	FridgeAim        string `yaml:"fridge-aim"`
	Life             string `yaml:"life"`
	LifeAim          string `yaml:"life-aim"`
	LifeVulnerable   string `yaml:"life-vulnerable"`
	Thawed           string `yaml:"thawed"`
	Reheatings       string `yaml:"reheatings"`
	Reheat           string `yaml:"reheat"`
	ReheatWords      string `yaml:"reheat-words"`
	Stages           string `yaml:"stages"`
}

func (m *bookMaker) addAuthorities(rows map[Authority]authorityRow) error {
	for _, a := range Authorities() {
		row, ok := rows[a]
		if !ok {
			return fmt.Errorf("authorities.yaml: %s is missing", a)
		}
		r := reader{book: m}
		own := ownLimits{a, r.limits(row)}
		if r.err != nil {
			return fmt.Errorf("authorities.yaml: %s: %w", a, r.err)
		}
		m.book.authorities = append(m.book.authorities, own)
		m.book.strictest = m.book.strictest.stricter(own.limits)
	}
	return nil
}

// reader resolves "rule figure" references and keeps the first error.
type reader struct {
	book *bookMaker
	err  error
}

func (r *reader) limits(row authorityRow) Limits {
	l := Limits{
		Hot: r.degrees(row.Hot), HotAim: r.degrees(row.HotAim),
		Cooling: r.span(row.Cooling), CoolingAim: r.span(row.CoolingAim),
		Back: r.span(row.Back), Eat: r.span(row.Eat), HotAir: r.degrees(row.HotAir),
		Fridge: r.degrees(row.Fridge), FridgeAim: r.degrees(row.FridgeAim),
		Life: r.span(row.Life), LifeAim: r.span(row.LifeAim),
		LifeVulnerable: r.span(row.LifeVulnerable), Thawed: r.span(row.Thawed),
		Reheatings: r.times(row.Reheatings), Reheat: r.degrees(row.Reheat),
		ReheatWords: row.ReheatWords,
		Stages:      r.stages(row.Stages),
		PowerShut:   r.span("power-cut-4h door-shut"),
		PowerCheck:  r.span("power-cut-2h door-shut"),
		PowerAfresh: r.span("power-cut-adds-up afresh-after"), PowerReading: r.span("power-cut-reading within"),
		PowerCold:   r.degrees("power-cut-reading accepted-to"),
		FreezerFull: r.span("power-freezer full"), FreezerHalf: r.span("power-freezer half"),
		FreezerCold: r.degrees("power-freezer-after at-most"),
		StillOut:    r.span(row.StillOut), HotEat: r.span(row.HotEat), LifeCold: r.span(row.LifeCold),
		FridgeVulnerable: r.degrees(row.FridgeVulnerable), Refreeze: row.Refreeze,
	}
	l.Back.Under, l.Eat.Under, l.StillOut.Under = row.BackUnder, row.EatUnder, row.EatUnder
	if !l.LifeCold.IsSet() {
		l.LifeCold = l.Life
	}
	return l
}

// stages reads a two-stage cooling rule; its second stage counts from the
// start (all-within) or from the end of the first (further).
func (r *reader) stages(id string) []Stages {
	if id == "" || r.err != nil {
		return nil
	}
	s := Stages{
		From: r.degrees(id + " from").C, FirstTo: r.degrees(id + " first-to").C, ThenTo: r.degrees(id + " then-to").C,
		First: r.span(id + " first-within").Most, Rule: id,
	}
	if _, err := r.book.figureOf(id, "further"); err == nil {
		s.Further = r.span(id + " further").Most
		s.All = s.First + s.Further
		return []Stages{s}
	}
	s.All = r.span(id + " all-within").Most
	return []Stages{s}
}

func (r *reader) figure(reference string) (string, Value) {
	if reference == "" || r.err != nil {
		return "", Value{}
	}
	id, name, _ := strings.Cut(reference, " ")
	value, err := r.book.figureOf(id, name)
	r.err = err
	return id, value
}

func (r *reader) span(reference string) Span {
	id, value := r.figure(reference)
	if id == "" || r.err != nil {
		return Span{}
	}
	d, ok := value.duration()
	if !ok {
		r.err = fmt.Errorf("%s: %q is no span of time", reference, value.Text)
	}
	return Span{Most: d, Rules: []string{id}}
}

func (r *reader) degrees(reference string) Degrees {
	id, value := r.figure(reference)
	if id == "" || r.err != nil {
		return Degrees{}
	}
	if value.Unit != "Cel" {
		r.err = fmt.Errorf("%s: %q is no temperature", reference, value.Text)
	}
	return Degrees{C: value.High, Rules: []string{id}}
}

func (r *reader) times(reference string) Times {
	id, value := r.figure(reference)
	if id == "" || r.err != nil {
		return Times{}
	}
	if value.Unit != "" {
		r.err = fmt.Errorf("%s: %q is no count", reference, value.Text)
	}
	return Times{Most: int(value.High), Rules: []string{id}}
}

// stricter takes of every limit of two authorities the stricter.
func (l Limits) stricter(o Limits) Limits {
	return Limits{
		Hot: hotter(l.Hot, o.Hot), HotAim: hotter(l.HotAim, o.HotAim),
		Cooling: shorter(l.Cooling, o.Cooling), CoolingAim: shorter(l.CoolingAim, o.CoolingAim),
		Back: shorter(l.Back, o.Back), Eat: shorter(l.Eat, o.Eat), StillOut: shorter(l.StillOut, o.StillOut),
		HotAir: colder(l.HotAir, o.HotAir), HotEat: shorter(l.HotEat, o.HotEat),
		Fridge: colder(l.Fridge, o.Fridge), FridgeAim: colder(l.FridgeAim, o.FridgeAim),
		Life: shorter(l.Life, o.Life), LifeAim: shorter(l.LifeAim, o.LifeAim),
		LifeVulnerable: shorter(l.LifeVulnerable, o.LifeVulnerable), LifeCold: shorter(l.LifeCold, o.LifeCold),
		FridgeVulnerable: colder(l.FridgeVulnerable, o.FridgeVulnerable),
		Thawed:           shorter(l.Thawed, o.Thawed),
		Reheatings:       fewer(l.Reheatings, o.Reheatings),
		Reheat:           hotter(l.Reheat, o.Reheat),
		ReheatWords:      "75 °C in the middle, steaming all through",
		Stages:           append(slices.Clone(l.Stages), o.Stages...),
		PowerShut:        shorter(l.PowerShut, o.PowerShut),
		PowerCheck:       shorter(l.PowerCheck, o.PowerCheck),
		PowerAfresh:      o.PowerAfresh, PowerReading: o.PowerReading, PowerCold: o.PowerCold,
		FreezerFull: o.FreezerFull, FreezerHalf: o.FreezerHalf, FreezerCold: o.FreezerCold,
	}
}

// fewer takes the stricter of two numbers of times.
func fewer(a, b Times) Times {
	switch {
	case len(b.Rules) == 0:
		return a
	case len(a.Rules) == 0 || b.Most < a.Most:
		return b
	case a.Most < b.Most:
		return a
	}
	return Times{a.Most, joined(a.Rules, b.Rules)}
}
