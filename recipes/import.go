package recipes

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/measures"
)

// ImportOptions answer what a recipe leaves open, and correct what was read of
// it. A line is named by its number among the lines of the read-back.
type ImportOptions struct {
	saved.Options
	System   units.System              // whose a bare "cup" or "pint" is
	Portions int                       // where the recipe does not say; 0 = the recipe's own
	Amounts  map[string]units.Quantity // amounts for the one line that holds this text: "potatoes" -> 900 g
	Grown    []string                  // the crops the plot grows or has on hand; nil = any crop may be weighed
	Rewrite  map[int]string            // lines in other words; "" leaves the line out
	As       map[int]LineUse           // what a line is, where it was taken for something else
	Cook     map[string]Cooking        // by crop, as the cook does it
	Served   Served                    // "" = as the recipe reads
	Name     string                    // "" = the recipe's own
}

// LineUse is what a line of a recipe becomes in a dish file.
type LineUse uint8

// The uses. The zero value is a line that is kept as a remark: a title, a
// heading, a greeting.
const (
	AsHeading LineUse = iota
	AsCrop            // a weighed crop of the plot
	AsOther           // any other ingredient
	AsStep            // something to do
)

var lineUses = []string{"heading", "crop", "other", "step"}

// String is the use in a word: crop, other, heading, step.
func (u LineUse) String() string { return lineUses[u] }

// ParseLineUse reads a use as String writes it.
func ParseLineUse(word string) (LineUse, bool) {
	at := slices.Index(lineUses, word)
	return LineUse(max(at, 0)), at >= 0
}

// Cooking is how a crop is cooked: how it stands in a dish file.
type Cooking struct {
	How     string // steam, boil, blanch, raw, own; "" = not known
	Minutes int    // of boil, blanch and own
	Uses    string // of own: ring, oven, grill, embers, nothing
	Until   string // of steam: just-tender, tender, soft
}

// ImportedLine is a line of a recipe as it was read back.
type ImportedLine struct {
	Number int // from 1
	Line   int // in the file; 0 where it cannot be told
	Text   string
	As     LineUse
	Read   measures.Line // of an ingredient
	Doubts []*units.FieldError
	Group  string // the heading it stands under: "the dressing"
	Inside bool   // it was found inside a sentence, and stands in no list
}

// Sure tells a line that was understood whole.
func (l ImportedLine) Sure() bool { return len(l.Doubts) == 0 }

// Why is what is to check about a line, in words; "" where it was read for
// sure.
func (l ImportedLine) Why() string {
	var list []string
	for _, doubt := range l.Doubts {
		list = append(list, doubt.Problem)
	}
	return strings.Join(list, "; ")
}

func (l *ImportedLine) doubt(field, value, problem, accepted string) {
	l.Doubts = append(l.Doubts, units.WrongField(field, value, problem, accepted))
}

// Imported is a recipe as it was read: every line of it, what is to be settled,
// and the dish file it makes.
type Imported struct {
	Name     string
	Portions int
	Served   Served
	Lines    []ImportedLine
	Checks   []Check       // what the recipe does not say and was filled in
	Open     OpenQuestions // questions without whose answer there is no dish
	Text     string        // the dish file; "" while a question is open
	Dish     Dish          // the same loaded; the zero value while a question is open
	From     string        // the file it was read from
	File     string        // where it was written; "" = nowhere yet
}

// OpenQuestions are what a recipe leaves open, each a field of [ImportWords].
type OpenQuestions []*units.FieldError

// Error lists the questions, one on a line.
func (o OpenQuestions) Error() string {
	lines := make([]string, len(o))
	for i, one := range o {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Err is the questions as an error; nil where none is open.
func (o OpenQuestions) Err() error {
	if len(o) == 0 {
		return nil
	}
	return o
}

// Unwrap is the list, for errors.As.
func (o OpenQuestions) Unwrap() []error {
	list := make([]error, len(o))
	for i, one := range o {
		list[i] = one
	}
	return list
}

// Check is something of a dish that the recipe does not say.
type Check struct{ Key, Value, Accepted string }

// ImportRecipe reads a recipe in any form that [saved.Read] knows, and makes a
// dish file of it for a kitchen. Lines that cannot be read are kept as they are
// and marked, and block nothing. What a dish cannot be without (a weighed crop,
// portions, minutes) is among the open questions, each a field of the options:
// amount, portions, cook. Its errors are those of [saved.Read], and for an
// answer that fits no line, or several, a [units.FieldError].
func ImportRecipe(file string, data []byte, o ImportOptions, kitchen Kitchen) (Imported, error) {
	recipe, err := saved.Read(file, data, o.Options)
	if err != nil {
		return Imported{}, err
	}
	im := &importer{file: file, options: o, recipe: recipe, kitchen: kitchen}
	if im.takeOwn() {
		return im.done()
	}
	im.listFromProse()
	im.partEach()
	im.readLines()
	if err := im.answersFit(); err != nil {
		return Imported{}, err
	}
	if err := im.takeAnswers(); err != nil {
		return Imported{}, err
	}
	im.chooseCrops()
	if err := im.cookedCrops(); err != nil {
		return Imported{}, err
	}
	im.readDish()
	if recipe.Unmarked {
		im.check("page", "read as plain text", "its words as they are shown: nothing in the page marks the recipe")
	}
	im.checkWhole()
	if len(im.result.Open) == 0 {
		im.result.Text = im.dishFile()
	}
	return im.done()
}

// importer is one recipe on its way to a dish file.
type importer struct {
	file    string
	options ImportOptions
	recipe  saved.Recipe
	kitchen Kitchen
	result  Imported
	crops   []*cropDraft
	acts    []clause // what the steps do, once it is read
	listed  int      // lines the recipe has of its own, where others were found in its sentences; 0 = all
}

// done loads the dish file that was made.
func (im *importer) done() (Imported, error) {
	im.result.From = im.file
	if im.result.Text == "" {
		return im.result, nil
	}
	dish, err := LoadDish(im.file, []byte(im.result.Text), im.kitchen)
	if err != nil {
		return Imported{}, fmt.Errorf("%s: the dish file made of it does not load: %w", im.file, err)
	}
	im.result.Dish, im.result.Name, im.result.Portions, im.result.Served = dish, dish.Name, dish.Portions, dish.Served
	return im.result, nil
}

func (im *importer) ask(field, value, problem, accepted string) {
	im.result.Open = append(im.result.Open, units.WrongField(field, value, problem, accepted))
}

func (im *importer) check(key, value, accepted string) {
	im.result.Checks = append(im.result.Checks, Check{key, value, accepted})
}

// readLines reads every line of the recipe for what it is.
func (im *importer) readLines() {
	group := ""
	for i, line := range im.recipe.Lines {
		l := ImportedLine{Number: i + 1, Line: line.Line, Text: line.Text}
		text := line.Text
		if other, ok := im.options.Rewrite[l.Number]; ok {
			if text = strings.TrimSpace(other); text == "" {
				l.doubt("line", line.Text, "left out, as you said", "")
				im.result.Lines = append(im.result.Lines, l)
				continue
			}
		}
		role := im.roleOf(line, l.Number)
		switch role {
		case saved.Heading:
			group = text
		case saved.Ingredient:
			im.readIngredient(&l, text)
			if l.Group, l.Inside = group, im.inProse(i); l.Inside {
				l.doubt("line", text, "found inside a sentence: there is no list", "")
			}
		case saved.Step:
			l.As = AsStep
			l.Text = text
		case saved.Note:
			if !saved.IsAside(text) {
				l.doubt("line", text, "neither an ingredient nor a step: kept as a remark", "")
			}
		}
		im.result.Lines = append(im.result.Lines, l)
	}
}

// roleOf is what a line is, as it is told or as it was found.
func (im *importer) roleOf(line saved.Line, number int) saved.Role {
	switch use, told := im.options.As[number]; {
	case told && (use == AsCrop || use == AsOther):
		return saved.Ingredient
	case told && use == AsStep:
		return saved.Step
	case told:
		return saved.Heading
	}
	return line.Role
}

// readIngredient reads one ingredient; an amount that is given for it comes
// first.
func (im *importer) readIngredient(l *ImportedLine, text string) {
	read := measures.ReadLine(text, im.options.System)
	if read.Kind != measures.Ingredient {
		return // a heading among the ingredients
	}
	if !read.Amount.IsValid() {
		if turned, ok := amountInFront(text); ok {
			if again := measures.ReadLine(turned, im.options.System); again.Sure() && again.Known {
				read = again
			}
		}
	}
	l.As, l.Read = AsOther, read
	l.Doubts = append(l.Doubts, read.Doubts...)
	if _, joined := together(read.Item); !read.Known && read.Sure() && !joined {
		l.doubt("item", read.Item, "an ingredient that is not known here: what it holds is not known", "another name for it, or `contains` in the dish file")
	}
}

// answersFit refuses what is said of a line that the recipe does not have.
func (im *importer) answersFit() error {
	last := len(im.result.Lines)
	for _, told := range []struct {
		field   string
		numbers []int
	}{{"line", slices.Sorted(maps.Keys(im.options.Rewrite))}, {"as", slices.Sorted(maps.Keys(im.options.As))}} {
		if n := len(told.numbers); n > 0 && told.numbers[n-1] > last {
			return units.WrongField(told.field, strconv.Itoa(told.numbers[n-1]), "the recipe has no such line", fmt.Sprintf("a number from 1 to %d", last))
		}
	}
	return nil
}

// cookedCrops tells of a crop that is said to be cooked and is none of the recipe's.
func (im *importer) cookedCrops() error {
	var crops []string
	for _, d := range im.crops {
		if !slices.Contains(crops, d.crop) {
			crops = append(crops, d.crop)
		}
	}
	for _, told := range slices.Sorted(maps.Keys(im.options.Cook)) {
		if !slices.Contains(crops, told) {
			return units.WrongField("cook", told, "no weighed crop of the recipe is called that", "one of "+strings.Join(crops, ", "))
		}
	}
	return nil
}

// takeAnswers gives each answer to the one line it is for. The error tells of an
// answer that fits no line, or several.
func (im *importer) takeAnswers() error {
	for _, key := range slices.Sorted(maps.Keys(im.options.Amounts)) {
		lines := im.linesOf(key)
		switch {
		case len(lines) == 0:
			return units.WrongField("amount", key, "no ingredient is called that", "words that stand in the ingredient's line")
		case len(lines) > 1:
			return units.WrongField("amount", key, fmt.Sprintf("%d ingredients fit that", len(lines)), "more words of the one line that is meant")
		}
		l := lines[0]
		if again := measures.ReadLine(im.options.Amounts[key].String()+" "+key, im.options.System); !l.Read.Known && again.Known {
			l.Read, l.Doubts = again, nil
		}
		l.Doubts = slices.DeleteFunc(l.Doubts, func(d *units.FieldError) bool { return d.Field != "item" })
		l.Read.Amount, l.Read.Also, l.Read.Doubts = im.options.Amounts[key], nil, nil
	}
	return nil
}

// linesOf are the ingredients a name fits: the one that is called just that,
// else those whose lines hold it as whole words.
func (im *importer) linesOf(key string) []*ImportedLine {
	var called, holding []*ImportedLine
	for i := range im.result.Lines {
		l := &im.result.Lines[i]
		if l.As != AsOther {
			continue
		}
		if plainWordsOf(l.Read.Item) == plainWordsOf(key) || measures.SameGood(l.Read.Item, key) {
			called = append(called, l)
		}
		if strings.Contains(" "+plainWordsOf(l.Text)+" ", " "+plainWordsOf(key)+" ") {
			holding = append(holding, l)
		}
	}
	if len(called) == 1 {
		return called
	}
	return holding
}

// plainWordsOf is a text folded, its words parted by single spaces.
func plainWordsOf(text string) string {
	return strings.Join(strings.FieldsFunc(fold(text), func(c rune) bool {
		return strings.ContainsRune(" ,;:.()/&+", c)
	}), " ")
}
