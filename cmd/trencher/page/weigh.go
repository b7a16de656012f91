package page

import (
	"context"
	"fmt"
	"net/http"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
	"trencher/units"
)

const (
	leastBowls  = 3
	leastGrades = 2
	mostRows    = 20
)

// weighForm is a lift being weighed in.
type weighForm struct {
	Done               string
	Mend               []mending
	Once, Replaces     string // Replaces: the file of the lift that is corrected
	Net                string // of the bowls so far; "" = not added up
	Planting, Unit, At field
	Bowls              []bowl
	Grades             []grade
}

// bowl is one bowl on the scale: full, and empty.
type bowl struct{ Full, Empty field }

// grade is a part of the lift that is alike in size and condition.
type grade struct {
	Number                   int
	Weight, Low, High, Count field
	Condition                field
}

// readWeigh is the form as it was sent, or an empty one.
func (p *Page) readWeigh(r *http.Request) (weighForm, error) {
	plantings, err := ask.Plantings(p.ask())
	if err != nil {
		return weighForm{}, err
	}
	form := weighForm{
		Once:     typed(r, "once"),
		Planting: field{Name: "planting", Label: "Lifted from", Options: plantingOptions(plantings)},
		Unit:     unitField(r),
		At:       field{Name: "at", Label: "When", Type: "datetime-local", Hint: "Leave it empty for now."},
	}
	if form.Once == "" {
		form.Once = p.written.token()
	}
	form.Replaces = correctedFile(r)
	before, err := p.corrected(r.Context(), form.Replaces)
	if err != nil {
		return weighForm{}, err
	}
	lift, _ := before.(*harvest.Lift)
	whole := lift != nil
	if !r.Form.Has("planting") && lift == nil {
		lift = p.lastLift(r.Context())
	}
	form.Planting.read(r)
	form.At.read(r)
	for i := range rows(r, "bowl", leastBowls) {
		form.Bowls = append(form.Bowls, readBowl(r, i+1))
	}
	for i := range rows(r, "grade", leastGrades) {
		form.Grades = append(form.Grades, readGrade(r, i+1))
	}
	if lift != nil && !r.Form.Has("planting") {
		form.fillFrom(lift, whole)
	}
	return form, nil
}

func plantingOptions(plantings []harvest.Planting) []option {
	var options []option
	seen := map[string]bool{}
	for _, planting := range plantings {
		if !seen[planting.ID] {
			seen[planting.ID] = true
			options = append(options, option{planting.ID, strings.TrimSpace(planting.ID + ": " + planting.Crop + " " + planting.Variety)})
		}
	}
	return options
}

// rows is how many rows of a kind to show: all that were sent, and more when
// more were asked for.
func rows(r *http.Request, kind string, least int) int {
	n := least
	for n < mostRows && (r.Form.Has(rowName(kind, n+1, "full")) || r.Form.Has(rowName(kind, n+1, "weight"))) {
		n++
	}
	if r.Form.Has("more") {
		n += 2
	}
	return min(n, mostRows)
}

func rowName(kind string, row int, part string) string {
	return fmt.Sprintf("%s-%d-%s", kind, row, part)
}

func readBowl(r *http.Request, row int) bowl {
	b := newBowl(row)
	b.Full.read(r)
	b.Empty.read(r)
	return b
}

func newBowl(row int) bowl {
	return bowl{
		Full:  field{Name: rowName("bowl", row, "full"), Label: fmt.Sprintf("Bowl %d, full", row), Keys: "decimal"},
		Empty: field{Name: rowName("bowl", row, "empty"), Label: fmt.Sprintf("Bowl %d, empty", row), Keys: "decimal"},
	}
}

// conditions are what a crop can be like, in the words of the trade.
var conditions = []option{
	{string(harvest.Sound), "sound"},
	{string(harvest.Scabby), "scabby: scrub or peel"},
	{string(harvest.Damaged), "damaged: trim, use today"},
	{string(harvest.Green), "green: never to the kitchen"},
	{string(harvest.Rotten), "rotten: never to the kitchen"},
}

func readGrade(r *http.Request, row int) grade {
	g := newGrade(row)
	for _, f := range []*field{&g.Weight, &g.Low, &g.High, &g.Count, &g.Condition} {
		f.read(r)
	}
	return g
}

func newGrade(row int) grade {
	return grade{
		Number:    row,
		Weight:    field{Name: rowName("grade", row, "weight"), Label: "Weight", Keys: "decimal"},
		Low:       field{Name: rowName("grade", row, "low"), Label: "From mm", Keys: "numeric"},
		High:      field{Name: rowName("grade", row, "high"), Label: "to mm", Keys: "numeric"},
		Count:     field{Name: rowName("grade", row, "count"), Label: "Pieces", Keys: "numeric"},
		Condition: field{Name: rowName("grade", row, "condition"), Label: "Condition", Value: string(harvest.Sound), Options: conditions},
	}
}

// question turns the form into a lift to log, putting each fault it can tell
// beside its box.
func (form *weighForm) question(where ask.PlotRef) ask.LiftQuestion {
	q := ask.LiftQuestion{PlotRef: where, LiftWords: harvest.LiftWords{Planting: form.Planting.Value}, At: form.At.Value}
	for i := range form.Bowls {
		if text := form.Bowls[i].text(form.Unit.Value); text != "" {
			q.Weighings = append(q.Weighings, text)
		}
	}
	for i := range form.Grades {
		if text := form.Grades[i].text(form.Unit.Value); text != "" {
			q.Grades = append(q.Grades, text)
		}
	}
	if len(q.Weighings) == 0 && form.Bowls[0].Full.Wrong == "" {
		form.Bowls[0].Full.Wrong = "No bowl has been weighed yet."
	}
	return q
}

// text is the bowl in one line, "1.46 kg - 0.31 kg"; "" when the row is empty.
func (b *bowl) text(unit string) string {
	full, empty := withUnit(b.Full.Value, unit), withUnit(b.Empty.Value, unit)
	switch {
	case full == "" && empty == "":
		return ""
	case full == "":
		b.Full.Wrong = "The full bowl's weight is missing."
		return ""
	case empty == "":
		_, err := harvest.ParseWeighing(full, units.Metric)
		b.Full.find(err)
		return full
	}
	_, err := harvest.ParseWeight(full, units.Metric)
	b.Full.find(err)
	_, err = harvest.ParseWeight(empty, units.Metric)
	b.Empty.find(err)
	text := full + " - " + empty
	if b.Full.Wrong == "" && b.Empty.Wrong == "" {
		_, err = harvest.ParseWeighing(text, units.Metric)
		b.Empty.find(err)
	}
	return text
}

// text is the grade in one line, "820 g 20-45 mm scabby"; "" when the row is
// empty.
func (g *grade) text(unit string) string {
	weight := withUnit(g.Weight.Value, unit)
	if weight == "" {
		if g.Low.Value+g.High.Value+g.Count.Value != "" {
			g.Weight.Wrong = "Its weight is missing."
		}
		return ""
	}
	_, err := harvest.ParseWeight(weight, units.Metric)
	g.Weight.find(err)
	text := weight
	if g.Low.Value+g.High.Value != "" {
		band := g.Low.Value + "-" + g.High.Value + " mm"
		if _, err := units.ParseBand(band); err != nil {
			g.High.find(err)
		}
		text += " " + band
	}
	if g.Count.Value != "" {
		if strings.Trim(g.Count.Value, "0123456789") != "" {
			g.Count.Wrong = "Write a whole number."
		}
		text += " " + g.Count.Value + " pieces"
	}
	return text + " " + g.Condition.Value
}

// boxes lists every box of the form.
func (form *weighForm) boxes() []*field {
	list := []*field{&form.Planting, &form.At}
	for i := range form.Bowls {
		list = append(list, &form.Bowls[i].Full, &form.Bowls[i].Empty)
	}
	for i := range form.Grades {
		g := &form.Grades[i]
		list = append(list, &g.Weight, &g.Low, &g.High, &g.Count, &g.Condition)
	}
	return list
}

// liftFields tells which box a flag of `lift` stands for here.
var liftFields = map[string]string{"planting": "planting", "weighing": "bowl-1-full", "grade": "grade-1-weight", "at": "at"}

func (p *Page) askWeigh(w http.ResponseWriter, r *http.Request) {
	form, err := p.readWeigh(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	form.Done = p.written.of(r)
	p.show(w, r, http.StatusOK, "weigh", screen{Title: "Weigh in", Data: form})
}

// takeWeigh writes the lift and goes to the stock, or shows the form again
// with everything typed and what to mend.
func (p *Page) takeWeigh(w http.ResponseWriter, r *http.Request) {
	form, err := p.readWeigh(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	if r.Form.Has("same") {
		form.sameBowl()
	}
	if r.Form.Has("more") || r.Form.Has("same") || r.Form.Has("net") {
		form.addUp(p.ask())
		p.show(w, r, http.StatusOK, "weigh", screen{Title: "Weigh in", Data: form})
		return
	}
	q := form.question(p.ask())
	before, err := p.corrected(r.Context(), form.Replaces)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	keepRest(&q.LiftWords, before)
	form.Mend = wrongs(form.boxes()...)
	if len(form.Mend) == 0 {
		err = p.written.do(r, &form.Once, func(once string) (string, error) {
			return insisting(r, func(sure bool) (string, error) {
				q.Sure, q.Form = sure, once
				return p.lift(r.Context(), q)
			})
		})
		form.Mend = mendings(err, liftFields)
		beside(form.Mend, form.boxes()...)
	}
	if len(form.Mend) > 0 {
		p.show(w, r, http.StatusUnprocessableEntity, "weigh", screen{Title: "Weigh in", Data: form})
		return
	}
	http.Redirect(w, r, "/?done="+form.Once, http.StatusSeeOther)
}

func (p *Page) lift(ctx context.Context, q ask.LiftQuestion) (string, error) {
	answer, err := ask.Lift(ctx, q)
	if err != nil {
		return "", err
	}
	return render.Weight(answer.Net()) + " from " + q.Planting + " written down.", nil
}
