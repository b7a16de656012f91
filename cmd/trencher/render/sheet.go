package render

import (
	"embed"
	"html/template"
	"io"
	"strings"
	"sync"

	"trencher/recipes/meal"
)

//go:embed colours.css plan.gohtml plan.css sheet.gohtml sheet.css reckoner.gohtml reckoner.css
var sheetFiles embed.FS

// sheetTemplates holds the document "sheet", to be printed, and the parts of a plan
// that a screen has too.
var sheetTemplates = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(sheetFiles, "plan.gohtml", "sheet.gohtml", "reckoner.gohtml"))
})

// Sheet writes the plan as one self-contained HTML page to print on A4 and take
// apart: a summary with a strip to shop by, a timetable for the wall, a card for
// each dish, what comes afterwards. It needs no network and no script, and fits a
// phone too. Nothing is written when the plan cannot be laid out.
func Sheet(w io.Writer, plan meal.Plan) error {
	view := viewPlan(plan)
	page := struct {
		planView
		Style template.CSS
	}{view, template.CSS(SheetStyle())}
	return execute(w, "sheet", page)
}

// PlanTitle is the heading of a plan: the day and, when there is one, the
// serving time.
func PlanTitle(plan meal.Plan) string { return planTitle(plan) }

// PlanAnswer is the whole plan in one sentence.
func PlanAnswer(plan meal.Plan) string { return planAnswer(plan) }

// SheetStyle is the style sheet of Sheet.
func SheetStyle() string { return styleOf("colours.css", "sheet.css") }

// PlanStyle is the style sheet of PlanScreen.
func PlanStyle() string { return styleOf("colours.css", "plan.css") }

// styleOf is the text of some of the embedded style sheets, in order.
func styleOf(names ...string) string {
	var style strings.Builder
	for _, name := range names {
		text, err := sheetFiles.ReadFile(name)
		if err != nil {
			panic(err) // embedded: can only be our own slip
		}
		style.Write(text)
	}
	return style.String()
}

func execute(w io.Writer, name string, data any) error {
	var text strings.Builder
	if err := sheetTemplates().ExecuteTemplate(&text, name, data); err != nil {
		return err
	}
	_, err := io.WriteString(w, text.String())
	return err
}
