package keeping

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"time"
)

// Authority is whose rules decide. The zero value is none and is taken as
// Strictest.
type Authority string

// The authorities a batch can be judged by.
const (
	Strictest       Authority = "strictest" // of every limit the stricter
	UnitedKingdom   Authority = "uk"
	UnitedStates    Authority = "us"
	AustraliaAndNZ  Authority = "au-nz"
	authorityAccept           = "strictest, uk, us or au-nz"
)

// Authorities lists the single authorities, in the order their rules are
// named.
func Authorities() []Authority {
	return []Authority{UnitedKingdom, UnitedStates, AustraliaAndNZ}
}

// ParseAuthority reads "strictest", "uk", "us" or "au-nz"; an empty text is
// Strictest. It returns a [*units.FieldError] for anything else.
func ParseAuthority(text string) (Authority, error) {
	a := Authority(strings.ToLower(strings.TrimSpace(text)))
	if a == "" {
		return Strictest, nil
	}
	if a == Strictest || slices.Contains(Authorities(), a) {
		return a, nil
	}
	return "", FactAuthority.wrong(text, "no authority known here", authorityAccept)
}

// Span is a limit of time. The zero Span is no limit.
type Span struct {
	Most  time.Duration
	Under bool // Most itself is already too long
	Rules []string
}

// IsSet tells a limit from none.
func (s Span) IsSet() bool { return len(s.Rules) > 0 }

// Passed tells whether d is longer than the limit allows.
func (s Span) Passed(d time.Duration) bool {
	return s.IsSet() && (d > s.Most || s.Under && d == s.Most)
}

// words writes the limit for a sentence: "under 2 h", "up to 2 h".
func (s Span) words() string {
	if s.Under {
		return "under " + spanWords(s.Most)
	}
	return "up to " + spanWords(s.Most)
}

// by is the word before a last moment: "before" where it is too late itself.
func (s Span) by() string {
	if s.Under {
		return "before"
	}
	return "by"
}

// Degrees is a limit of temperature in °C. The zero Degrees is no limit.
type Degrees struct {
	C     float64
	Rules []string
}

// IsSet tells a limit from none.
func (d Degrees) IsSet() bool { return len(d.Rules) > 0 }

// Times is a limit of how often. The zero Times is no limit.
type Times struct {
	Most  int
	Rules []string
}

// Limits are the limits of one authority (or the strictest of all).
type Limits struct {
	Hot, HotAim         Degrees // kept hot from here up; warn below the aim
	Cooling, CoolingAim Span    // end of cooking or hot holding to the fridge
	Back                Span    // out of the fridge in all, may go back
	Eat                 Span    // out or cooling in all, eaten at once
	HotAir              Degrees // minutes in air above it count twice
	Fridge, FridgeAim   Degrees // warmer counts as out; warn above the aim
	Life, LifeAim       Span    // end of cooking to the last meal
	LifeVulnerable      Span
	Thawed              Span  // life after thawing at most
	Reheatings          Times // how often it may be heated up again
	Reheat              Degrees
	ReheatWords         string

	Stages []Stages // by probe

	// Without power a shut fridge holds for PowerShut, to be checked from
	// PowerCheck on; what is then out longer than PowerOut goes.
	PowerShut, PowerCheck, PowerOut Span
}

// LimitsOf gives the limits of an authority; Strictest and the zero Authority
// take of every limit the stricter one.
func LimitsOf(a Authority) Limits {
	b := library()
	if a == Strictest || a == "" {
		return b.strictest
	}
	return b.authorities[a]
}

func (l Limits) stricter(o Limits) Limits {
	return Limits{
		Hot: hotter(l.Hot, o.Hot), HotAim: hotter(l.HotAim, o.HotAim),
		Cooling: shorter(l.Cooling, o.Cooling), CoolingAim: shorter(l.CoolingAim, o.CoolingAim),
		Back: shorter(l.Back, o.Back), Eat: shorter(l.Eat, o.Eat),
		HotAir: colder(l.HotAir, o.HotAir),
		Fridge: colder(l.Fridge, o.Fridge), FridgeAim: colder(l.FridgeAim, o.FridgeAim),
		Life: shorter(l.Life, o.Life), LifeAim: shorter(l.LifeAim, o.LifeAim),
		LifeVulnerable: shorter(l.LifeVulnerable, o.LifeVulnerable),
		Thawed:         shorter(l.Thawed, o.Thawed),
		Reheatings:     fewer(l.Reheatings, o.Reheatings),
		Reheat:         hotter(l.Reheat, o.Reheat),
		ReheatWords:    "75 °C in the middle, steaming all through",
		Stages:         append(slices.Clone(l.Stages), o.Stages...),
		PowerShut:      shorter(l.PowerShut, o.PowerShut),
		PowerCheck:     shorter(l.PowerCheck, o.PowerCheck),
		PowerOut:       shorter(l.PowerOut, o.PowerOut),
	}
}

// shorter takes the stricter of two spans; rules with the same figure are all
// named, and "under" wins a tie.
func shorter(a, b Span) Span {
	switch {
	case !b.IsSet():
		return a
	case !a.IsSet() || b.Most < a.Most:
		return b
	case a.Most < b.Most:
		return a
	}
	return Span{a.Most, a.Under || b.Under, joined(a.Rules, b.Rules)}
}

func colder(a, b Degrees) Degrees {
	switch {
	case !b.IsSet():
		return a
	case !a.IsSet() || b.C < a.C:
		return b
	case a.C < b.C:
		return a
	}
	return Degrees{a.C, joined(a.Rules, b.Rules)}
}

func hotter(a, b Degrees) Degrees {
	switch {
	case !b.IsSet():
		return a
	case !a.IsSet() || b.C > a.C:
		return b
	case a.C > b.C:
		return a
	}
	return Degrees{a.C, joined(a.Rules, b.Rules)}
}

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

// joined appends what is not yet there.
func joined(ids []string, more ...[]string) []string {
	ids = slices.Clone(ids)
	for _, list := range more {
		for _, id := range list {
			if !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

// authorityRow is an authority as authorities.yaml has it.
type authorityRow struct {
	Hot            string `yaml:"hot"`
	HotAim         string `yaml:"hot-aim"`
	Cooling        string `yaml:"cooling"`
	CoolingAim     string `yaml:"cooling-aim"`
	Back           string `yaml:"back"`
	BackUnder      bool   `yaml:"back-under"`
	Eat            string `yaml:"eat"`
	EatUnder       bool   `yaml:"eat-under"`
	HotAir         string `yaml:"hot-air"`
	Fridge         string `yaml:"fridge"`
	FridgeAim      string `yaml:"fridge-aim"`
	Life           string `yaml:"life"`
	LifeAim        string `yaml:"life-aim"`
	LifeVulnerable string `yaml:"life-vulnerable"`
	Thawed         string `yaml:"thawed"`
	Reheatings     string `yaml:"reheatings"`
	Reheat         string `yaml:"reheat"`
	ReheatWords    string `yaml:"reheat-words"`
	Stages         string `yaml:"stages"`
}

func (b *book) readAuthorities(files fs.FS) error {
	var rows map[Authority]authorityRow
	if err := readYAML(files, "authorities.yaml", &rows); err != nil {
		return err
	}
	b.authorities = map[Authority]Limits{}
	for _, a := range Authorities() {
		row, ok := rows[a]
		if !ok {
			return fmt.Errorf("authorities.yaml: %s is missing", a)
		}
		r := reader{book: b}
		b.authorities[a] = r.limits(row)
		if r.err != nil {
			return fmt.Errorf("authorities.yaml: %s: %w", a, r.err)
		}
		b.strictest = b.strictest.stricter(b.authorities[a])
	}
	return nil
}

// reader resolves "rule figure" references and keeps the first error.
type reader struct {
	book *book
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
		PowerOut:    r.span("power-cut-4h then-at-most"),
	}
	l.Back.Under, l.Eat.Under = row.BackUnder, row.EatUnder
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

// name writes the authority for a sentence.
func (a Authority) name() string {
	names := map[Authority]string{UnitedKingdom: "the UK", UnitedStates: "the US", AustraliaAndNZ: "Australia and New Zealand"}
	if name, ok := names[a]; ok {
		return name
	}
	return "the strictest authority"
}
