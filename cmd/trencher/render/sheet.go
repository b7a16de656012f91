package render

import (
	"embed"
	"html/template"
	"io"
	"strings"

	"trencher/recipes/meal"
)

//go:embed sheet.gohtml sheet.css
var sheetFiles embed.FS

// sheetTemplates holds the document "sheet" and its parts.
var sheetTemplates = template.Must(template.ParseFS(sheetFiles, "sheet.gohtml"))

// Sheet writes the plan as one self-contained HTML page to pin up in the
// kitchen: it needs no network and no script, fits a phone and prints on A4.
// Nothing is written when the plan cannot be laid out.
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

// SheetStyle is the style sheet of Sheet and PlanScreen.
func SheetStyle() string {
	text, err := sheetFiles.ReadFile("sheet.css")
	if err != nil {
		panic(err) // embedded: can only be our own slip
	}
	return string(text)
}

func execute(w io.Writer, name string, data any) error {
	var text strings.Builder
	if err := sheetTemplates.ExecuteTemplate(&text, name, data); err != nil {
		return err
	}
	_, err := io.WriteString(w, text.String())
	return err
}
