package harvest

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trencher/units"
	"trencher/units/measures"
)

// CropRow is one crop of the embedded table.
type CropRow struct {
	ID        string     `yaml:"crop"` // by which [measures.CropByID] has its names
	Crop      string     `yaml:"-"`    // its name
	Family    string     `yaml:"family"`
	Verb      Verb       `yaml:"verb"`
	Cropping  string     `yaml:"cropping"`  // once, or picked over weeks
	Perennial bool       `yaml:"perennial"` // it gives year after year
	Frost     Frost      `yaml:"frost"`
	Windows   []Window   `yaml:"windows"`
	Signs     []Saying   `yaml:"signs"`
	Left      Saying     `yaml:"left"` // what happens if it is left
	Size      *Size      `yaml:"size"`
	Spacing   Spacing    `yaml:"spacing"`
	Tub       TubRoom    `yaml:"tub"`
	Keeps     []KeepsRaw `yaml:"keeps"`
	Yields    []Usual    `yaml:"yields"`
	SowAgain  SowAgain   `yaml:"sow_again"`
}

// Verb is what one does to gather a crop.
type Verb string

// The ways of gathering.
const (
	VerbLift Verb = "lift"
	VerbPull Verb = "pull"
	VerbCut  Verb = "cut"
	VerbPick Verb = "pick"
)

// Spacing is how far apart plants stand in the open ground.
type Spacing struct {
	InRowCM          float64 `yaml:"in_row_cm"`
	RowsCM           float64 `yaml:"rows_cm"`
	units.Provenance `yaml:",inline"`
}

// PlantsPerM2 is how many plants stand on a square metre, paths left out.
func (s Spacing) PlantsPerM2() float64 { return 1e4 / (s.InRowCM * s.RowsCM) }

// TubRoom is the litres of compost a plant has in a tub.
type TubRoom struct {
	Litres           float64 `yaml:"litres"`
	units.Provenance `yaml:",inline"`
}

// SowAgain is after how many days a crop is sown again, so that there is always
// some; zero where one sowing lasts.
type SowAgain struct {
	Days             Range `yaml:"days"`
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
// low end. A row with a place is for what is kept there.
type KeepsRaw struct {
	Class            string  `yaml:"class"`
	Place            Keeping `yaml:"place"`
	Days             Range   `yaml:"days"`
	AtC              float64 `yaml:"at_c"` // the temperature meant; 0: none told
	Where            string  `yaml:"where"`
	units.Provenance `yaml:",inline"`
}

// Usual is what a crop usually gives in a garden over a season.
type Usual struct {
	Class            string `yaml:"class"`
	Per              string `yaml:"per"` // PerPlant, PerM2, PerMetre or PerLitre
	Grams            Range  `yaml:"grams"`
	units.Provenance `yaml:",inline"`
}

// What yields are counted on.
const (
	PerPlant = "plant"
	PerM2    = "m2"
	PerMetre = "metre" // of single row
	PerLitre = "litre" // of tub
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
		for _, row := range cropTable {
			if crop := measures.MustCrop(row.ID); len(form) >= 5 && oneLetterOff(form, crop) {
				return crop.Name, true
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
		if w.Class != "" && !slices.Contains(classes, w.Class) {
			classes = append(classes, w.Class)
		}
	}
	return classes
}

// usual finds the usual yield on a measure for a class, else the first one for
// all classes; where there are only others of classes, the widest over them.
func (c CropRow) usual(class, per string) (Usual, bool) {
	var all, widest Usual
	for _, u := range c.Yields {
		switch {
		case u.Per != per:
		case u.Class != "" && strings.EqualFold(u.Class, class):
			return u, true
		case u.Class == "" && all.Per == "":
			all = u
		case widest.Per == "":
			widest = u
		default:
			widest.Grams.Low, widest.Grams.High = min(widest.Grams.Low, u.Grams.Low), max(widest.Grams.High, u.Grams.High)
		}
	}
	if all.Per == "" {
		all = widest
		all.Class = ""
	}
	return all, all.Per != ""
}
