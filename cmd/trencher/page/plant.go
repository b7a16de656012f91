package page

import (
	"net/http"
	"strings"
	"unicode"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// plantForm is what was put into the ground, to be written down.
type plantForm struct {
	Mend                                                        []mending
	Once                                                        string
	First                                                       bool // nothing stands in the plot yet
	Carried                                                     bool // the page is in a phone, from which plantings do not come home
	Crop, Variety, Class, Called, In, Size, How, Planted, Count field
}

// Where a planting stands, and how it began.
const (
	inTub, inBed = "tub", "bed"
	wasSown      = "sown"
)

func (p *Page) readPlant(r *http.Request) (plantForm, error) {
	plantings, err := ask.Plantings(p.ask())
	if err != nil {
		return plantForm{}, err
	}
	form := plantForm{
		Once: typed(r, "once"), First: len(plantings) == 0, Carried: p.pocket,
		Crop:    field{Name: "crop", Label: "Crop", Hint: "As potato, beetroot, French bean.", Needed: true},
		Variety: field{Name: "variety", Label: "Variety", Hint: "If you like."},
		Class:   field{Name: "class", Label: "Of potatoes, the class", Options: classes(), Hint: "It tells when they are due."},
		In:      field{Name: "in", Label: "It stands in", Value: inTub, Options: []option{{inTub, "a tub, of so many litres"}, {inBed, "a bed, of so many m²"}}},
		Size:    field{Name: "size", Label: "How large", Keys: "decimal", Hint: "Litres or m², or 2 m x 1 m; empty if you do not know."},
		Called:  field{Name: "called", Label: "Called", Value: harvest.FreeID(plantings, inTub), Hint: "Short, without spaces: it stands on every weighing."},
		How:     field{Name: "how", Label: "It was", Options: []option{{"planted", "planted"}, {wasSown, "sown"}}, Value: "planted"},
		Planted: field{Name: "planted", Label: "On", Type: "date", Hint: "Leave it empty for today."},
		Count:   field{Name: "count", Label: "How many plants, sets or seed tubers", Keys: "numeric", Hint: "If you like."},
	}
	if form.Once == "" {
		form.Once = p.written.token()
	}
	for _, f := range form.boxes() {
		f.read(r)
	}
	return form, nil
}

// classes are the potatoes' that a window is known for.
func classes() []option {
	list := []option{{"", "not said"}}
	if row, ok := harvest.LookupCrop("potato"); ok {
		list = append(list, words(row.Classes()...)...)
	}
	return list
}

func (form *plantForm) boxes() []*field {
	return []*field{&form.Crop, &form.Variety, &form.Class, &form.In, &form.Size, &form.Called, &form.How, &form.Planted, &form.Count}
}

// question turns the form into a planting.
func (form *plantForm) question(where ask.PlotRef) ask.PlantQuestion {
	q := ask.PlantQuestion{PlotRef: where, On: form.Planted.Value, PlantWords: harvest.PlantWords{Called: form.Called.Value, Crop: form.Crop.Value,
		Variety: form.Variety.Value, Class: form.Class.Value, Sown: form.How.Value == wasSown, Count: form.Count.Value}}
	switch form.In.Value {
	case inTub:
		q.Tub = withUnit(form.Size.Value, "l")
	case inBed:
		q.Bed = withUnit(form.Size.Value, "m2")
	}
	if form.Size.Value == "" {
		q.Tub, q.Bed = "", ""
	}
	for _, f := range []*field{&form.Class, &form.In, &form.How} {
		f.Wrong = notAmong(*f)
	}
	if form.Crop.Value == "" {
		form.Crop.Wrong = "The crop is missing."
	}
	if form.Called.Value == "" {
		form.Called.Wrong = "The name is missing."
	}
	if strings.ContainsFunc(form.Count.Value, func(r rune) bool { return !unicode.IsDigit(r) }) {
		form.Count.Wrong = "Write a whole number."
	}
	return q
}

func (p *Page) askPlant(w http.ResponseWriter, r *http.Request) {
	form, err := p.readPlant(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	p.show(w, r, http.StatusOK, "plant", screen{Title: "Plant or sow", Data: form})
}

// plantFields tells which box a field of the question stands for here.
var plantFields = map[string]string{"called": "called", "crop": "crop", "class": "class", "planted": "planted", "count": "count", "tub": "size", "bed": "size"}

// takePlant writes the planting down and goes to what is ready, or shows the form
// again with what is wrong beside each box.
func (p *Page) takePlant(w http.ResponseWriter, r *http.Request) {
	form, err := p.readPlant(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	q := form.question(p.ask())
	if form.Mend = wrongs(form.boxes()...); len(form.Mend) == 0 && !p.pocket {
		err = p.written.do(r, &form.Once, func(string) (string, error) {
			added, err := ask.Plant(q)
			return render.PlantedWords(added), err
		})
		form.Mend = mendings(err, plantFields)
		beside(form.Mend, form.boxes()...)
	}
	if len(form.Mend) > 0 || p.pocket {
		p.show(w, r, http.StatusUnprocessableEntity, "plant", screen{Title: "Plant or sow", Data: form})
		return
	}
	http.Redirect(w, r, "/ready?done="+form.Once, http.StatusSeeOther)
}

// leads says where an empty plot begins: with the first planting, then the first
// lift, then the first dish.
type leads struct{ Plant, Lift, Dish bool }

func (p *Page) leads(lots int) (l leads) {
	plantings, err := ask.Plantings(p.ask())
	if err != nil || lots > 0 {
		return l
	}
	names, err := ask.DishNames(p.ask())
	l.Plant, l.Lift = len(plantings) == 0, len(plantings) > 0
	l.Dish = err == nil && len(names) == 0
	return l
}
