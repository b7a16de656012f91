package keeping

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"trencher/units/pattern"
)

// foodRow is a food as foods.yaml has it.
type foodRow struct {
	ID             string               `yaml:"id"`
	Name           string               `yaml:"name"`
	Aliases        []string             `yaml:"aliases"`
	Cooked         bool                 `yaml:"cooked"`
	Reheats        bool                 `yaml:"reheats"`
	Short          string               `yaml:"short"`
	Cites          []string             `yaml:"cites"`
	Ours           string               `yaml:"ours"`
	Warnings       []warningRow         `yaml:"warnings"`
	Sections       []string             `yaml:"sections"`
	Rank           int                  `yaml:"rank"`
	Life           string               `yaml:"life"`
	LifeBy         map[Authority]string `yaml:"life-by"`
	LifeInstead    bool                 `yaml:"life-instead"`
	LifeVulnerable string               `yaml:"life-vulnerable"`
	Cold           bool                 `yaml:"cold"`
	OutVulnerable  string               `yaml:"out-vulnerable"`
	Timing         timing               `yaml:"timing"`
	RawEgg         bool                 `yaml:"raw-egg"`
	Refer          string               `yaml:"refer"`
	CoolingAim     string               `yaml:"cooling-aim"`
	Out            string               `yaml:"out"`
	Fridge         string               `yaml:"fridge"`
	Hot            string               `yaml:"hot"`
	NotVulnerable  string               `yaml:"not-for-vulnerable"`
}

type reasonRow struct {
	Says  string   `yaml:"says"`
	Rules []string `yaml:"rules"`
}

type warningRow struct {
	reasonRow `yaml:",inline"`
	Cooling   bool `yaml:"cooling"`
}

type sectionRow struct {
	ID    string      `yaml:"id"`
	Name  string      `yaml:"name"`
	Lines []reasonRow `yaml:"lines"`
}

func (m *bookMaker) addFoods(rows bookRows) error {
	b, r := &m.book, reader{book: m}
	sections := map[string]int{}
	for at, s := range rows.Sections {
		sections[s.ID] = at
		b.sections = append(b.sections, Section{Name: s.Name, Lines: r.reasons(s.Lines)})
	}
	b.freezing = sections["freeze"]
	named := map[string]int{}
	for i, row := range rows.Foods {
		f := r.food(row, sections)
		b.foods = append(b.foods, f)
		for _, name := range append([]string{f.ID, f.Name}, f.Aliases...) {
			if other, taken := named[plain(name)]; taken && other != i {
				r.err = fmt.Errorf("%q names both %s and %s", name, b.foods[other].ID, f.ID)
			}
			named[plain(name)] = i
		}
	}
	b.foodNamed = placesOf(named)
	b.reheatedOut = r.span("reheated-once-hot at-most")
	if r.err != nil {
		return fmt.Errorf("foods.yaml: %w", r.err)
	}
	return nil
}

func (r *reader) food(row foodRow, sections map[string]int) Food {
	f := Food{
		ID: row.ID, Name: row.Name, Aliases: row.Aliases, Cooked: row.Cooked, Reheats: row.Reheats,
		Short: r.text(row.Short), Cites: row.Cites, Ours: row.Ours,
		rank: row.Rank, lifeInstead: row.LifeInstead, lifeVulnerable: r.span(row.LifeVulnerable), cold: row.Cold,
		outVulnerable: r.span(row.OutVulnerable), timing: row.Timing, rawEgg: row.RawEgg, refer: row.Refer, coolingAim: r.span(row.CoolingAim),
		out: r.span(row.Out), fridge: r.degrees(row.Fridge), hot: r.degrees(row.Hot), notVulnerable: row.NotVulnerable,
	}
	for _, a := range slices.Sorted(maps.Keys(row.LifeBy)) {
		f.lives = append(f.lives, ownLife{a, r.span(row.LifeBy[a])})
	}
	if row.Life != "" {
		f.lives = append(f.lives, ownLife{"", r.span(row.Life)})
	}
	r.known(row.Cites)
	for _, w := range row.Warnings {
		f.Warnings = append(f.Warnings, Warning{r.reason(w.reasonRow), w.Cooling})
	}
	for _, id := range row.Sections {
		section, ok := sections[id]
		if !ok {
			r.err = fmt.Errorf("food %s: no section %q", row.ID, id)
		}
		f.sections = append(f.sections, section)
	}
	return f
}

func (r *reader) reasons(rows []reasonRow) []Reason {
	var reasons []Reason
	for _, row := range rows {
		reasons = append(reasons, r.reason(row))
	}
	return reasons
}

func (r *reader) reason(row reasonRow) Reason {
	r.known(row.Rules)
	if row.Says == "" && len(row.Rules) > 0 && r.err == nil {
		row.Says = r.book.rules[r.book.ids[row.Rules[0]]].Says // a line may be a rule's own words
	}
	return Reason{Says: r.text(row.Says), Rules: row.Rules}
}

func (r *reader) known(ids []string) {
	for _, id := range ids {
		if _, ok := r.book.ids[id]; !ok {
			r.err = fmt.Errorf("no rule %q", id)
		}
	}
}

var braces = pattern.New(`\{[^}]+\}`)

// text puts the rules' figures in the place of "{rule figure}".
func (r *reader) text(template string) string {
	return braces.ReplaceAllStringFunc(template, func(reference string) string {
		_, value := r.figure(strings.Trim(reference, "{}"))
		return value.words()
	})
}

// words writes a figure for the kitchen: "5-10 °C", "4 days", "2 h".
func (v Value) words() string {
	if !v.number {
		return v.Text
	}
	number, unit, _ := strings.Cut(v.Text, " ")
	number = strings.ReplaceAll(number, "..", "-")
	names := map[string]string{"Cel": "°C", "d": "days", "mo": "months", "mg/kg/d": "mg per kg of body weight a day", "mg/kg": "mg per kg"}
	if name, ok := names[unit]; ok {
		unit = name
	}
	if v.High == 1 && (unit == "days" || unit == "months") {
		unit = strings.TrimSuffix(unit, "s")
	}
	return strings.TrimSpace(number + " " + unit)
}
