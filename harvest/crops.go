package harvest

import (
	"bytes"
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"trencher/units"
	"trencher/units/measures"
)

//go:embed crops.yaml
var cropRows []byte

// CropRow is one crop of the embedded table.
type CropRow struct {
	ID       string     `yaml:"crop"` // by which [measures.CropByID] has its names
	Crop     string     `yaml:"-"`    // its name
	Family   string     `yaml:"family"`
	Cropping string     `yaml:"cropping"` // once, or picked over weeks
	Since    string     `yaml:"since"`    // what the days are counted from
	Windows  []Window   `yaml:"windows"`
	Signs    []Saying   `yaml:"signs"`
	Left     Saying     `yaml:"left"` // what happens if it is left
	Size     *Size      `yaml:"size"`
	Keeps    []KeepsRaw `yaml:"keeps"`
	Yields   []Usual    `yaml:"yields"`
}

// Window is when a crop (of a class, where classes differ) is fit to lift.
type Window struct {
	Class            string `yaml:"class"`
	Days             Range  `yaml:"days"`
	Stands           int    `yaml:"stands"` // days it stays good after that
	Months           string `yaml:"months"` // the usual calendar months in Britain
	units.Provenance `yaml:",inline"`
}

// Saying is a sentence of the trade with its source.
type Saying struct {
	Classes          []string `yaml:"classes"` // the classes it is about; none: all
	Says             string   `yaml:"says"`
	units.Provenance `yaml:",inline"`
}

// Size is what a hand under the surface, or an eye, can judge: millimetres
// across, or long where Measured says so.
type Size struct {
	Small, Good, Large int
	Measured           string
	Says               string
	units.Provenance   `yaml:",inline"`
}

// KeepsRaw is how long a crop keeps raw at home. The account counts with the
// low end.
type KeepsRaw struct {
	Class            string `yaml:"class"`
	Days             Range  `yaml:"days"`
	Where            string `yaml:"where"`
	units.Provenance `yaml:",inline"`
}

// Usual is what a crop usually gives: grams from a litre of tub or a square
// metre of bed.
type Usual struct {
	Class            string `yaml:"class"`
	Per              string `yaml:"per"` // PerLitre or PerM2
	Grams            Range  `yaml:"grams"`
	units.Provenance `yaml:",inline"`
}

// What yields are counted on.
const (
	PerLitre = "litre"
	PerM2    = "m2"
)

// Range is a range of whole numbers, written 3-5.
type Range struct{ Low, High int }

// String writes the range as it stands in the table.
func (d Range) String() string {
	if d.Low == d.High {
		return strconv.Itoa(d.Low)
	}
	return fmt.Sprintf("%d-%d", d.Low, d.High)
}

// UnmarshalYAML reads 3-5.
func (d *Range) UnmarshalYAML(n *yaml.Node) error {
	if _, err := fmt.Sscanf(n.Value, "%d-%d", &d.Low, &d.High); err != nil {
		return fmt.Errorf("%q: write a range such as 3-5", n.Value)
	}
	return nil
}

// Crops is the embedded table, in its own order. It is shared: nobody changes
// it.
func Crops() []CropRow { return cropTable() }

// cropTable decodes the table once. It is our own data: a fault in it is our
// bug, and the package's tests read every row.
var cropTable = sync.OnceValue(func() []CropRow {
	var rows []CropRow
	d := yaml.NewDecoder(bytes.NewReader(cropRows))
	d.KnownFields(true)
	if err := d.Decode(&rows); err != nil {
		panic("harvest: crops.yaml: " + err.Error())
	}
	for i := range rows {
		rows[i].Crop = measures.MustCrop(rows[i].ID).Name
	}
	return rows
})

// LookupCrop finds a crop by any of its names. A name that covers several rows
// is the first of them: French beans are dwarf ones, lettuce makes heads.
func LookupCrop(name string) (CropRow, bool) {
	crop, ok := measures.CropNamed(name)
	if !ok {
		return CropRow{}, false
	}
	rows := Crops()
	for _, each := range crop.Kin() {
		if at := slices.IndexFunc(rows, func(r CropRow) bool { return r.ID == each.ID }); at >= 0 {
			return rows[at], true
		}
	}
	return CropRow{}, false
}

// CropName is the name of the row a crop is found in ("potatoes" is "potato"),
// else the crop's own name, else what was written, folded. Plantings and dishes
// meet on it.
func CropName(name string) string {
	if row, ok := LookupCrop(name); ok {
		return row.Crop
	}
	if crop, ok := measures.CropNamed(name); ok {
		return crop.Name
	}
	return measures.Fold(name)
}

// Misspelt finds the crop that a name was most likely meant to be: one letter
// wrong in a word of five or more. Any other unknown name is a crop the table
// does not have.
func Misspelt(name string) (meant string, ok bool) {
	if _, known := measures.CropNamed(name); known {
		return "", false
	}
	for _, form := range measures.Singulars(measures.Fold(name)) {
		for _, row := range Crops() {
			if len(form) >= 5 && oneLetterOff(form, measures.MustCrop(row.ID)) {
				return row.Crop, true
			}
		}
	}
	return "", false
}

func oneLetterOff(name string, crop measures.Crop) bool {
	return slices.ContainsFunc(append([]string{crop.Name}, crop.Names...), func(each string) bool {
		return units.LettersApart(name, measures.Fold(each)) == 1
	})
}

// Classes lists the classes whose windows differ; none when the crop has no
// classes.
func (c CropRow) Classes() []string {
	var classes []string
	for _, w := range c.Windows {
		if w.Class != "" {
			classes = append(classes, w.Class)
		}
	}
	return classes
}

// window finds the row for a class, else the one for all classes.
func (c CropRow) window(class string) (Window, bool) {
	i := slices.IndexFunc(c.Windows, func(w Window) bool { return strings.EqualFold(w.Class, class) })
	if i < 0 {
		i = slices.IndexFunc(c.Windows, func(w Window) bool { return w.Class == "" })
	}
	if i < 0 {
		return Window{}, false
	}
	return c.Windows[i], true
}

// keeping finds the keeping row for a class, else the one for all classes.
func (c CropRow) keeping(class string) (KeepsRaw, bool) {
	i := slices.IndexFunc(c.Keeps, func(k KeepsRaw) bool { return strings.EqualFold(k.Class, class) })
	if i < 0 {
		i = slices.IndexFunc(c.Keeps, func(k KeepsRaw) bool { return k.Class == "" })
	}
	if i < 0 {
		return KeepsRaw{}, false
	}
	return c.Keeps[i], true
}

// usual finds the usual yield on a litre or a square metre for a class, else
// the one for all classes.
func (c CropRow) usual(class, per string) (Usual, bool) {
	var found Usual
	for _, u := range c.Yields {
		if u.Per == per && (u.Class == "" && found.Per == "" || u.Class != "" && strings.EqualFold(u.Class, class)) {
			found = u
		}
	}
	return found, found.Per != ""
}
