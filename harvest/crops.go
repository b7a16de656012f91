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
)

//go:embed crops.yaml
var cropRows []byte

// CropRow is one crop of the embedded table.
type CropRow struct {
	Crop     string     `yaml:"crop"`
	Also     []string   `yaml:"also"` // other names it goes by
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

// Crops is the embedded table, in its own order.
func Crops() []CropRow { return slices.Clone(cropTable()) }

// cropTable decodes the table once. It is our own data: a fault in it is our
// bug, and the package's tests read every row.
var cropTable = sync.OnceValue(func() []CropRow {
	var rows []CropRow
	d := yaml.NewDecoder(bytes.NewReader(cropRows))
	d.KnownFields(true)
	if err := d.Decode(&rows); err != nil {
		panic("harvest: crops.yaml: " + err.Error())
	}
	return rows
})

// LookupCrop finds a crop by its name or one of its other names.
func LookupCrop(name string) (CropRow, bool) {
	name = strings.TrimSpace(name)
	for _, row := range cropTable() {
		if strings.EqualFold(row.Crop, name) {
			return row, true
		}
		for _, other := range row.Also {
			if strings.EqualFold(other, name) {
				return row, true
			}
		}
	}
	return CropRow{}, false
}

// CropName is the table's name for a crop ("potatoes" is "potato"), or the
// name in small letters when the table does not know it. Plantings and dishes
// meet on it.
func CropName(name string) string {
	if row, ok := LookupCrop(name); ok {
		return row.Crop
	}
	return strings.ToLower(strings.TrimSpace(name))
}

// Misspelt finds the table's name that a name was most likely meant to be: one
// letter wrong in a word of five or more. Any other unknown name is a crop the
// table does not have.
func Misspelt(name string) (meant string, ok bool) {
	name = strings.ToLower(strings.TrimSpace(name))
	if _, known := LookupCrop(name); known || len(name) < 5 {
		return "", false
	}
	for _, row := range cropTable() {
		for _, each := range append([]string{row.Crop}, row.Also...) {
			if units.LettersApart(name, strings.ToLower(each)) == 1 {
				return row.Crop, true
			}
		}
	}
	return "", false
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
