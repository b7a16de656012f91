package page

import (
	"fmt"
	"net/http"
	"strconv"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes"
)

// recipeForm is a pasted recipe, how it was read, and what is to be settled.
type recipeForm struct {
	Mend                                 []mending
	Once                                 string
	Text, Portions, Weight, Cook, Served field
	Read                                 string // what it was read as, in a line; "" before it was
	Doubtful, Certain                    []recipeLine
	Crops, Checks                        []string
	Ready                                bool // nothing is open: it can be kept
}

// recipeLine is a line read back, with a box to correct it, and where its place in
// the recipe is not clear, a choice of what it is.
type recipeLine struct {
	Number      int
	Text, Means string
	As          string
	Why         string
	Other, Use  *field
}

// mostRecipeLines bounds the corrections a form may hold.
const mostRecipeLines = 400

func (p *Page) readRecipe(r *http.Request) recipeForm {
	form := recipeForm{
		Once:     typed(r, "once"),
		Text:     field{Name: "text", Label: "The recipe, as it is written", Hint: "Its name, for how many, what goes in, what is done."},
		Portions: field{Name: "portions", Label: "Portions", Keys: "numeric", Hint: "Empty: as the recipe says."},
		Weight:   field{Name: "amount", Label: "What the crop weighs", Hint: "Where the recipe does not say: potatoes=900 g."},
		Cook:     field{Name: "cook", Label: "How a crop is cooked", Hint: "Where it was read wrongly: potato=boil 20 min, carrot=oven 40 min, pea=steam."},
		Served:   field{Name: "served", Label: "Comes to the table", Options: []option{{"", "as the recipe reads"}, {"hot", "hot"}, {"warm", "warm"}, {"cold", "cold"}}},
	}
	if form.Once == "" {
		form.Once = p.written.token()
	}
	for _, f := range form.boxes() {
		f.read(r)
	}
	return form
}

func (form *recipeForm) boxes() []*field {
	return []*field{&form.Text, &form.Portions, &form.Weight, &form.Cook, &form.Served}
}

// question turns the form into a recipe to read, its corrections with it.
func (form *recipeForm) question(r *http.Request, where ask.PlotRef) ask.ImportQuestion {
	q := ask.ImportQuestion{PlotRef: where, File: "pasted", Text: []byte(form.Text.Value)}
	q.Amounts, q.Cook, q.Served = lines(form.Weight.Value), lines(form.Cook.Value), form.Served.Value
	if form.Portions.Value != "" {
		n, err := strconv.Atoi(form.Portions.Value)
		if err != nil || n < 1 {
			form.Portions.Wrong = "Write a whole number, such as 4."
		}
		q.Portions = n
	}
	for n := 1; n <= mostRecipeLines; n++ {
		name := fmt.Sprintf("line-%d", n)
		if r.Form.Has(name) && typed(r, name) != typed(r, name+"-was") {
			q.Lines = append(q.Lines, fmt.Sprintf("%d=%s", n, typed(r, name)))
		}
		if use := typed(r, fmt.Sprintf("as-%d", n)); use != "" {
			q.As = append(q.As, fmt.Sprintf("%d=%s", n, use))
		}
	}
	return q
}

// readBack lays out how the recipe was read.
func (form *recipeForm) readBack(r *http.Request, read recipes.Imported) {
	form.Read, form.Ready = render.ImportedTitle(read), len(read.Open) == 0
	for _, l := range read.Lines {
		line := form.line(r, l)
		if l.Sure() && line.Use == nil {
			form.Certain = append(form.Certain, line)
		} else {
			form.Doubtful = append(form.Doubtful, line)
		}
	}
	for _, c := range read.Checks {
		form.Checks = append(form.Checks, render.RecipeCheck(c))
	}
	for _, crop := range read.Dish.Crops {
		form.Crops = append(form.Crops, render.ReadCrop(crop))
	}
	form.Mend = append(form.Mend, mendings(read.Open.Err(), recipeFields)...)
	beside(form.Mend, form.boxes()...)
}

// line is one line of the read-back with its boxes.
func (form *recipeForm) line(r *http.Request, l recipes.ImportedLine) recipeLine {
	line := recipeLine{Number: l.Number, Text: l.Text, Means: render.ReadBack(l), As: l.As.String(), Why: l.Why()}
	if l.Number > mostRecipeLines {
		return line
	}
	if l.As == recipes.AsCrop || l.As == recipes.AsOther {
		line.Other = &field{Name: fmt.Sprintf("line-%d", l.Number), Label: "In other words", Value: l.Text, Hint: "Empty: leave it out."}
		line.Other.read(r)
	}
	name := fmt.Sprintf("as-%d", l.Number)
	if l.As == recipes.AsHeading && !l.Sure() || typed(r, name) != "" {
		line.Use = &field{Name: name, Label: "What it is", Options: []option{{"", "a remark"}, {"other", "an ingredient"}, {"step", "something to do"}}}
		line.Use.read(r)
	}
	return line
}

var recipeFields = map[string]string{"portions": "portions", "amount": "amount", "cook": "cook", "served": "served", "name": "text"}

func (p *Page) askRecipe(w http.ResponseWriter, r *http.Request) {
	p.show(w, r, http.StatusOK, "recipe", screen{Title: "A recipe of yours", Data: p.readRecipe(r)})
}

// takeRecipe reads the recipe back, or keeps it where that is asked and nothing
// is open.
func (p *Page) takeRecipe(w http.ResponseWriter, r *http.Request) {
	form := p.readRecipe(r)
	q := form.question(r, p.ask())
	if form.Text.Value == "" {
		form.Text.Wrong = "Nothing is written here yet."
	}
	form.Served.Wrong = notAmong(form.Served)
	form.Mend = wrongs(form.boxes()...)
	status := http.StatusOK
	if len(form.Mend) == 0 {
		read, err := ask.ImportDish(q)
		if err == nil {
			form.readBack(r, read)
		}
		if err == nil && r.Form.Has("keep") && form.Ready {
			err = p.written.do(r, &form.Once, func(string) (string, error) {
				q.Again = p.written.isOfEarlier(form.Once)
				kept, err := ask.AddDish(q)
				return kept.Name + " is one of your dishes now.", err
			})
			if err == nil {
				http.Redirect(w, r, "/?done="+form.Once, http.StatusSeeOther)
				return
			}
		}
		form.Mend = append(form.Mend, mendings(err, recipeFields)...)
		beside(form.Mend, form.boxes()...)
	}
	if len(form.Mend) > 0 {
		status = http.StatusUnprocessableEntity
	}
	p.show(w, r, status, "recipe", screen{Title: "A recipe of yours", Data: form})
}
