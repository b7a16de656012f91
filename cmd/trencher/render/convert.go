package render

import (
	"encoding/json"
	"io"
	"strings"

	"trencher/units"
	"trencher/units/measures"
)

// ConvertText writes the answer on one line, then what was assumed.
func ConvertText(w io.Writer, a measures.Answer, why bool) error {
	var p page
	answer := given(a)
	p.wrapped("", asked(a)+" = "+answer)
	if a.Kitchen.Text != "" && answer != "about "+a.Kitchen.Text {
		p.wrapped("", "to measure out: "+a.Kitchen.Text)
	}
	for _, remark := range a.Remarks {
		p.wrapped("  ", remarkWords(remark))
	}
	if full, ended := a.Given.Rounded(16); why && !ended && a.Row == nil {
		p.heading("In full")
		p.wrapped("  ", full.Format(a.System)+", rounded; exactly "+a.Given.Format(a.System))
	}
	reasons(&p, a.Reasons, why)
	return p.writeTo(w)
}

// asked says the amount asked about: "2 tbsp of mayonnaise", "3 eggs".
func asked(a measures.Answer) string {
	text := a.Asked.Format(a.System)
	switch {
	case a.Of == "":
		return text
	case a.Asked.Unit() == units.Piece || a.Asked.Unit().IsSize():
		return text + " " + a.Of
	}
	return text + " of " + a.Of
}

// given says what it comes to: every digit of an exact figure, seven of one
// that does not end, three of one that was weighed.
func given(a measures.Answer) string {
	switch {
	case a.Row != nil || a.Asked.IsRough():
		rounded, _ := a.Given.Rounded(3)
		return "about " + rounded.Format(a.System)
	case a.Exact || a.Given.Unit() == units.GasMark:
		return a.Given.Format(a.System)
	case a.Given.Dimension() == units.Temperature:
		rounded, _ := a.Given.Rounded(4)
		return rounded.Format(a.System) + ", rounded"
	}
	rounded, _ := a.Given.Rounded(7)
	return rounded.Format(a.System) + ", rounded"
}

// remarkWords says one thing a cook should know of an answer.
func remarkWords(r measures.Remark) string {
	switch r.Kind {
	case measures.OffTheDial:
		return r.Off.Error()
	case measures.Assumed:
		return strings.Join(each(r.Assumed, assumptionWords), "; ")
	case measures.LetterRead:
		return "read " + r.Letter + " as " + r.Unit.Name() + "; tbsp and tsp cannot be mistaken"
	case measures.OunceIsWeight:
		return "oz is a weight here, not a fluid ounce"
	case measures.Caution:
		return r.Unit.Name() + ": " + r.Unit.Caution()
	case measures.Rough:
		return "a rough measure: take it as a guide"
	}
	return basis(*r.Row)
}

func assumptionWords(a measures.Assumption) string {
	if a.Kind == measures.WeighedAs {
		return "weighed " + a.What
	}
	return "taken as " + a.What
}

// basis is what a weighed answer rests on, on one line.
func basis(row measures.Row) string {
	origin := row.Source
	if row.Record != "" {
		origin = row.Record + ", " + row.KnownBy
	}
	size := row.Measure.Format(units.Metric)
	if row.Size != "" {
		size += " (" + row.Size + ")"
	}
	if row.Note != "" {
		origin += "; " + row.Note
	}
	return "from: " + size + " = " + row.Weight().String() + " (" + origin + ")"
}

type convertJSON struct {
	Value     string       `json:"value,omitempty"`
	Low       string       `json:"low,omitempty"`
	High      string       `json:"high,omitempty"`
	Unit      string       `json:"unit"`
	Exact     bool         `json:"exact"`
	Ratio     string       `json:"ratio,omitempty"`
	LowRatio  string       `json:"low_ratio,omitempty"`
	HighRatio string       `json:"high_ratio,omitempty"`
	Rough     bool         `json:"rough,omitempty"`
	Of        string       `json:"of,omitempty"`
	Measure   *measureJSON `json:"measure,omitempty"`
	Via       *measureJSON `json:"via,omitempty"`
	Kitchen   string       `json:"kitchen,omitempty"`
	Remarks   []string     `json:"remarks,omitempty"`
	Why       []figureJSON `json:"why,omitempty"`
}

// measureJSON is the row a conversion went by.
type measureJSON struct {
	Ingredient string `json:"ingredient"`
	State      string `json:"state,omitempty"`
	Size       string `json:"size,omitempty"`
	Measure    string `json:"measure"`
	Grams      string `json:"grams"`
	Source     string `json:"source"`
	Record     string `json:"record"`
	KnownBy    string `json:"known_by"`
	Note       string `json:"note,omitempty"`
}

// figureJSON is one figure with its source.
type figureJSON struct {
	Figure  string `json:"figure"`
	Value   string `json:"value"`
	Source  string `json:"source"`
	KnownBy string `json:"known_by"`
}

// ConvertJSON writes the answer for scripts.
func ConvertJSON(w io.Writer, a measures.Answer, why bool) error {
	amount, err := json.Marshal(a.Given)
	if err != nil {
		return err
	}
	var out convertJSON
	if err := json.Unmarshal(amount, &out); err != nil {
		return err
	}
	out.Exact, out.Of, out.Kitchen = a.Exact, a.Of, a.Kitchen.Text
	out.Remarks = each(a.Remarks, remarkWords)
	out.Rough = a.Asked.IsRough() || a.Given.IsRough()
	out.Measure, out.Via = measureOf(a.Row), measureOf(a.Via)
	if why {
		out.Why = each(a.Reasons, func(r units.Reason) figureJSON {
			return figureJSON{r.Figure, r.Value, r.Source, r.KnownBy}
		})
	}
	return writeJSON(w, out)
}

func measureOf(row *measures.Row) *measureJSON {
	if row == nil {
		return nil
	}
	grams, _ := row.Weight().Decimal()
	return &measureJSON{Ingredient: row.Ingredient, State: row.State, Size: row.Size, Measure: row.Measure.String(),
		Grams: grams.String(), Source: row.Source, Record: row.Record, KnownBy: row.KnownBy, Note: row.Note}
}
