package page

import (
	"context"
	"errors"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
	"trencher/units/pattern"
)

// field is one box of a form with what was typed into it.
type field struct {
	Name, Label, Value string
	Type               string // of the input; "" = text
	Keys               string // the phone's keyboard: "decimal", "numeric"
	Hint               string // what is accepted
	Wrong              string // what is wrong with what was typed
	Needed             bool
	Options            []option // of a choice
}

type option struct{ Value, Text string }

// read takes what was typed into the box.
func (f *field) read(r *http.Request) {
	if r.Form.Has(f.Name) {
		f.Value = typed(r, f.Name)
	}
}

func typed(r *http.Request, name string) string { return strings.TrimSpace(r.FormValue(name)) }

// find puts an error beside the box it is about.
func (f *field) find(err error) {
	if err == nil || f.Wrong != "" {
		return
	}
	one := mendings(err, nil)[0]
	f.Wrong, f.Hint = one.Says, one.Hint
}

// words are options that show what they send.
func words(list ...string) []option {
	var options []option
	for _, word := range list {
		options = append(options, option{word, word})
	}
	return options
}

// mending is one thing to put right before a form can be taken, with the
// field it stands in when that is known.
type mending struct {
	Field, Says, Hint string
	Insist            string // what the button sends that says it is right as it is; "" = there is none
}

// insisting writes what a form asks for; what is in doubt it writes once the
// same doubts come back with the form.
func insisting(r *http.Request, write func(sure bool) (string, error)) (string, error) {
	says, err := write(false)
	var unsure *harvest.Unsure
	if errors.As(err, &unsure) && typed(r, "sure") == unsure.Mark() {
		return write(true)
	}
	return says, err
}

// tookTooLong is said where an answer was given up.
const tookTooLong = "That took too long. Ask for less at once."

// mendings lists what an error asks for, one by one. The boxes say which box
// of the form stands for a field of the question.
func mendings(err error, boxes map[string]string) []mending {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, context.DeadlineExceeded):
		return []mending{{Says: tookTooLong}}
	}
	var field *units.FieldError
	var unsure *harvest.Unsure
	var none *journal.NoPlotError
	one := mending{Says: sentence(err.Error())}
	switch {
	case errors.As(err, &unsure):
		one.Insist = unsure.Mark()
		return []mending{one}
	case errors.As(err, &none): // its path is nobody's business on the network
		return []mending{{Says: sentence("the plot's folder: " + none.Problem), Hint: "Put it back where it was, or start the page anew where it is now."}}
	case errors.As(err, &field) && boxes[field.Field] != "":
		one.Field, one.Says = boxes[field.Field], sentence(field.Problem)
	}
	if several := units.Several(err); len(several) > 0 && one.Field == "" {
		var all []mending
		for _, one := range several {
			all = append(all, mendings(one, boxes)...)
		}
		return all
	}
	var hinted interface{ Hint() string }
	switch {
	case errors.Is(err, ask.ErrReadOnly):
		one.Hint = "It is only to look at: begin a plot of your own, where what you write down stays."
	case errors.As(err, &hinted):
		one.Hint = sentence(hinted.Hint())
	}
	return []mending{one}
}

// wrongs lists the boxes that have something wrong beside them.
func wrongs(fields ...*field) []mending {
	var list []mending
	for _, f := range fields {
		if f.Wrong != "" {
			list = append(list, mending{Field: f.Name, Says: f.Label + ": " + f.Wrong})
		}
	}
	return list
}

// beside puts each thing to mend beside its box as well.
func beside(list []mending, fields ...*field) {
	for _, one := range list {
		for _, f := range fields {
			if f.Name == one.Field && f.Wrong == "" {
				f.Wrong, f.Hint = one.Says, one.Hint
			}
		}
	}
}

// sentence begins with a capital, unless it begins with a file's name, and
// ends with a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	if word, _, _ := strings.Cut(text, " "); !strings.Contains(word, ".") {
		text = strings.ToUpper(text[:1]) + text[1:]
	}
	if strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}

var bareNumber = pattern.New(`^[-–\d.,/ ½¼¾⅓⅔⅛]+$`)

// withUnit adds the form's unit to a bare number.
func withUnit(text, unit string) string {
	if bareNumber.MatchString(text) {
		return text + " " + unit
	}
	return text
}

// weightUnits are the units a scale shows.
var weightUnits = []string{"kg", "g", "lb", "oz"}

func unitField(r *http.Request) field {
	unit := field{Name: "unit", Label: "The scale shows", Value: weightUnits[0], Options: words(weightUnits...)}
	unit.read(r)
	if !slices.Contains(weightUnits, unit.Value) {
		unit.Value = weightUnits[0]
	}
	return unit
}

// notAmong is what is wrong with a choice that is none of those offered; a
// browser never sends one.
func notAmong(f field) string {
	for _, one := range f.Options {
		if one.Value == f.Value {
			return ""
		}
	}
	return "Choose one of the list."
}

// sortedKeys are a form's names in a steady order.
func sortedKeys(values url.Values) []string {
	return slices.Sorted(maps.Keys(values))
}
