package meal

import (
	"time"

	"trencher/harvest"
	"trencher/units"
)

// PlanWords is what a plan is asked for, as it was typed; "" = as usual.
type PlanWords struct {
	Only     []string // only these dishes, in this order; none = all in file-name order
	Without  []string // none of these
	Limits   []string // "butter=150 g"
	KeepBack []string // "500 g potato"
	ServeAt  string   // "18:30"; "" = as soon as can be
	Air      string   // where the food stands: "24 C"; "" = the kitchen's room
	Eaters   EaterWords
	Given    GivenWords
}

// Recorded is what a recorded plan was asked for, when, and how.
type Recorded struct {
	PlanWords
	Mode Mode
	Now  time.Time
}

// fields are the words under the names that the journal keeps them by.
func (r *Recorded) fields() (one map[string]*string, many map[string]*[]string) {
	w := &r.PlanWords
	return map[string]*string{"serve-at": &w.ServeAt, "air": &w.Air, "for": &w.Eaters.For, "sides": &w.Eaters.Sides,
			"dishes": &w.Eaters.Dishes, "rounds": &w.Eaters.Rounds, "layers": &w.Eaters.Layers,
			"start": &w.Given.Start, "hands": &w.Given.Hands, "gas": &w.Given.Gas, "water": &w.Given.Water},
		map[string]*[]string{"only": &w.Only, "without": &w.Without, "limit": &w.Limits, "keep-back": &w.KeepBack, "guests": &w.Eaters.Guests}
}

// recordedFields is the order in which the words are written.
var recordedFields = []string{"only", "without", "limit", "keep-back", "serve-at", "air", "guests", "for", "sides", "dishes", "rounds", "layers",
	"start", "hands", "gas", "water"}

// Asked are the words as the journal keeps them with the plan.
func (r Recorded) Asked() []harvest.Asked {
	asked := []harvest.Asked{{Field: "mode", Says: string(r.Mode)}, {Field: "now", Says: r.Now.Format(time.RFC3339Nano)}}
	one, many := r.fields()
	for _, field := range recordedFields {
		if text := one[field]; text != nil && *text != "" {
			asked = append(asked, harvest.Asked{Field: field, Says: *text})
		}
		if list := many[field]; list != nil {
			for _, text := range *list {
				asked = append(asked, harvest.Asked{Field: field, Says: text})
			}
		}
	}
	return asked
}

// ReadRecorded reads what a recorded plan was asked for. Its error is a
// [units.FieldError] of plan, for a plan that was written down without it.
func ReadRecorded(p *harvest.Planned) (Recorded, error) {
	var r Recorded
	one, many := r.fields()
	var err error
	for _, asked := range p.Asked {
		switch field := asked.Field; {
		case field == "mode":
			r.Mode = Mode(asked.Says)
		case field == "now":
			r.Now, err = time.Parse(time.RFC3339Nano, asked.Says)
		case one[field] != nil:
			*one[field] = asked.Says
		case many[field] != nil:
			*many[field] = append(*many[field], asked.Says)
		default:
			err = units.WrongField("plan", p.ID, "asked for with "+field+", which this program does not know", "the program that wrote it down")
		}
		if err != nil {
			return r, err
		}
	}
	if r.Now.IsZero() || r.Mode != Share && r.Mode != Table {
		return r, units.WrongField("plan", p.ID, "it was written down without what it was asked for, so that it cannot be followed", "a plan written down by this program")
	}
	return r, nil
}
