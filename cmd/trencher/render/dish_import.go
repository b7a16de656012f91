package render

import (
	"encoding/json"
	"fmt"
	"io"

	"trencher/recipes"
	"trencher/units"
)

// ImportedDish writes the dish file itself.
func ImportedDish(w io.Writer, d recipes.Imported) error {
	_, err := io.WriteString(w, d.Text)
	return err
}

// ImportedText reads a recipe back line by line, with what is to settle.
func ImportedText(w io.Writer, d recipes.Imported) error {
	var p page
	if d.File != "" {
		p.line(fmt.Sprintf("%s, %s, written to %s", d.Name, portions(d.Portions), d.File))
		p.line("Open it and settle the lines marked \"check\".")
		return p.writeTo(w)
	}
	p.line(ImportedTitle(d))
	p.line("")
	for _, l := range d.Lines {
		p.line(readBackLine(l))
		if !l.Sure() {
			p.wrapped("             check: ", l.Why())
		}
	}
	p.line("")
	for _, crop := range d.Dish.Crops {
		p.line(ReadCrop(crop))
	}
	for _, c := range d.Checks {
		p.wrapped("check: ", RecipeCheck(c))
	}
	for _, open := range d.Open {
		p.line("open: " + openWords(open))
		p.line(fmt.Sprintf("      --%s \"%s\"", open.Field, open.Accepted))
	}
	switch {
	case len(d.Open) > 0:
		p.line("No dish yet: answer what is open, with the flags shown.")
	default:
		p.line("Nothing is written yet: add --to dishes/NAME.yaml. A line is corrected by its")
		p.line("number: --line \"3=250 g carrots\", --as \"3=other\"; --cook \"potato=boil 20 min\".")
	}
	return p.writeTo(w)
}

// RecipeCheck is something that a recipe does not settle, as it was taken and what
// else it may be.
func RecipeCheck(c recipes.Check) string {
	return fmt.Sprintf("%s %s (%s)", c.Key, c.Value, c.Accepted)
}

// ImportedTitle is what a recipe was read as, in a line.
func ImportedTitle(d recipes.Imported) string {
	text := d.Name
	if d.Portions > 0 {
		text += ", " + portions(d.Portions)
	}
	return joinNonEmpty(", ", text, string(d.Served))
}

// ReadBack is a line of a recipe as it was read, in a few words.
func ReadBack(l recipes.ImportedLine) string {
	switch {
	case !l.Read.Amount.IsValid():
	case l.As == recipes.AsCrop || l.As == recipes.AsOther:
		return joinNonEmpty(", ", joinNonEmpty(" ", l.Read.Amount.String(), l.Read.Item), l.Read.State)
	case !l.Sure() && l.As == recipes.AsHeading:
		return "kept as it is"
	}
	return ""
}

func readBackLine(l recipes.ImportedLine) string {
	mark := " "
	if !l.Sure() {
		mark = "?"
	}
	text := fmt.Sprintf("%3d %s %-7s %s", l.Number, mark, l.As, short(l.Text, 64))
	if read := ReadBack(l); read != "" && read != l.Text && (l.As == recipes.AsCrop || l.As == recipes.AsOther) {
		text = fmt.Sprintf("%s\n             = %s", text, short(read, 64))
	}
	return text
}

// ReadCrop is how a weighed crop was read.
func ReadCrop(c recipes.CropLine) string {
	how := ownTimeWords(c)
	switch {
	case c.IsRaw():
		how = "raw"
	case c.IsSteamed():
		how = joinNonEmpty(" ", "steamed until", c.Until)
	}
	return joinNonEmpty(", ", c.Amount.String()+" "+c.Crop, c.Prepared, c.Cut, how)
}

func openWords(open *units.FieldError) string { return joinNonEmpty(": ", open.Value, open.Problem) }

// importedLine is a line of a recipe for scripts. Line is its text.
type importedLine struct {
	Number int    `json:"number"`
	At     int    `json:"at,omitempty"` // the line of the file
	Line   string `json:"line"`
	lineAmount
	Item  string `json:"item,omitempty"`
	State string `json:"state,omitempty"`
	As    string `json:"as"`
	Sure  bool   `json:"sure"`
	Why   string `json:"why,omitempty"`
}

// lineAmount is an exact amount for scripts: as a quantity's, its value called
// amount.
type lineAmount struct {
	Amount string `json:"amount,omitempty"`
	Unit   string `json:"unit,omitempty"`
	Low    string `json:"low,omitempty"`
	High   string `json:"high,omitempty"`
	Ratio  string `json:"ratio,omitempty"`
}

func amountOf(q units.Quantity) (lineAmount, error) {
	if !q.IsValid() {
		return lineAmount{}, nil
	}
	if q.IsToTaste() {
		return lineAmount{Amount: "to taste"}, nil
	}
	data, err := json.Marshal(q)
	if err != nil {
		return lineAmount{}, err
	}
	var read struct{ Value, Unit, Low, High, Ratio string }
	err = json.Unmarshal(data, &read)
	return lineAmount{read.Value, read.Unit, read.Low, read.High, read.Ratio}, err
}

// ImportedJSON is a recipe read back for scripts: the dish with its file's text,
// each line, and what is open.
func ImportedJSON(w io.Writer, d recipes.Imported) error {
	type dish struct {
		Name     string     `json:"name"`
		Portions int        `json:"portions,omitempty"`
		Served   string     `json:"served,omitempty"`
		Crops    []readCrop `json:"crops,omitempty"`
		Checks   []check    `json:"checks,omitempty"`
		Text     string     `json:"text,omitempty"`
		File     string     `json:"file,omitempty"`
	}
	type question struct {
		Field    string `json:"field"`
		About    string `json:"about,omitempty"`
		Asks     string `json:"asks"`
		Accepted string `json:"accepted"`
	}
	lines := []importedLine{}
	for _, l := range d.Lines {
		amount, err := amountOf(l.Read.Amount)
		if err != nil {
			return err
		}
		lines = append(lines, importedLine{l.Number, l.Line, l.Text, amount, l.Read.Item, l.Read.State, l.As.String(), l.Sure(), l.Why()})
	}
	questions := []question{}
	for _, open := range d.Open {
		questions = append(questions, question{open.Field, open.Value, open.Problem, open.Accepted})
	}
	return writeJSON(w, struct {
		Dish      dish           `json:"dish"`
		Lines     []importedLine `json:"lines"`
		Questions []question     `json:"questions"`
	}{dish{d.Name, d.Portions, string(d.Served), each(d.Dish.Crops, readCropOf), each(d.Checks, checkOf), d.Text, d.File}, lines, questions})
}

type check struct {
	Key      string `json:"key"`
	Value    string `json:"value"`
	Accepted string `json:"accepted"`
}

func checkOf(c recipes.Check) check { return check{c.Key, c.Value, c.Accepted} }

// readCrop is a weighed crop of an imported dish for scripts.
type readCrop struct {
	Crop     string `json:"crop"`
	Amount   string `json:"amount"`
	Prepared string `json:"prepared"`
	Cut      string `json:"cut,omitempty"`
	Cook     string `json:"cook"`
	Takes    int    `json:"takes_minutes,omitempty"`
	Uses     string `json:"uses,omitempty"`
	Until    string `json:"until,omitempty"`
}

func readCropOf(c recipes.CropLine) readCrop {
	return readCrop{c.Crop, c.Amount.String(), c.Prepared, c.Cut, c.Cook, c.Minutes, c.Uses, c.Until}
}
