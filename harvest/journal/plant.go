package journal

import (
	"bytes"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// planted is a planting as plantings.yaml has it, in the order it is read in.
type planted struct {
	ID      string     `yaml:"id"`
	Crop    string     `yaml:"crop"`
	Variety string     `yaml:"variety,omitempty"`
	Class   string     `yaml:"class,omitempty"`
	Planted string     `yaml:"planted,omitempty"`
	Sown    string     `yaml:"sown,omitempty"`
	Seed    *yaml.Node `yaml:"seed,omitempty"`
	Tub     string     `yaml:"tub,omitempty"`
	Bed     string     `yaml:"bed,omitempty"`
}

// Plant adds a planting to the end of plantings.yaml, whose other lines stay as they
// are, and returns it as it is read back. One that stands there already, alike in
// every part, is returned and not added twice. Its errors are [units.FieldError]s of
// called, crop, class, planted, count, tub and bed, what is wrong in the file as it
// stands, and [ErrReadOnly].
func (f *Folder) Plant(w harvest.PlantWords, system units.System) (harvest.Planting, error) {
	if !f.Writable() {
		return harvest.Planting{}, f.readOnly()
	}
	source, err := f.plantingsFile()
	if err != nil {
		return harvest.Planting{}, err
	}
	before, err := plantingsIn(source, system)
	if err != nil {
		return harvest.Planting{}, err
	}
	entry, err := entryOf(w)
	if err != nil {
		return harvest.Planting{}, err
	}
	alone, err := plantingsIn(Source{File: plantingsFile, Data: entry}, system)
	if err != nil {
		return harvest.Planting{}, besideBox(err, entry)
	}
	added := alone[0]
	if i := slices.IndexFunc(before, func(p harvest.Planting) bool { return p.ID == added.ID && p.Planted.Equal(added.Planted) }); i >= 0 {
		if isAlike(before[i], added) {
			return before[i], nil
		}
		return harvest.Planting{}, units.WrongField("called", w.Called, "stands there already, with the same day and not as it is here", "another name; a tub may keep its own from year to year")
	}
	whole := appended(source.Data, before, entry)
	after, err := plantingsIn(Source{File: plantingsFile, Data: whole}, system)
	if err != nil || len(after) != len(before)+1 {
		return harvest.Planting{}, &strict.Error{File: plantingsFile, Problem: "is written in a way that nothing can be added to here", Accepted: "the planting into it by hand"}
	}
	return after[len(before)], replaceWith(realDisk{}, filepath.Join(f.dir, plantingsFile), whole)
}

// entryOf writes a planting as a list of one.
func entryOf(w harvest.PlantWords) ([]byte, error) {
	one := planted{ID: w.Called, Crop: w.Crop, Variety: w.Variety, Class: w.Class, Tub: w.Tub, Bed: w.Bed}
	day := w.Day.Format(time.DateOnly)
	if one.Planted = day; w.Sown {
		one.Planted, one.Sown = "", day
	}
	if w.Count != "" {
		one.Seed = &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle, Content: []*yaml.Node{
			{Kind: yaml.ScalarNode, Value: "count"}, {Kind: yaml.ScalarNode, Value: w.Count}}}
	}
	return yaml.Marshal([]planted{one})
}

// besideBox turns what is wrong with a written entry into errors of the fields that
// its lines come from.
func besideBox(err error, entry []byte) error {
	lines := strings.Split(string(entry), "\n")
	var all []error
	for _, one := range units.Several(err) {
		all = append(all, besideBox(one, entry))
	}
	if len(all) > 0 {
		return errors.Join(all...)
	}
	var wrong *strict.Error
	if !errors.As(err, &wrong) || wrong.Line < 1 || wrong.Line > len(lines) {
		return err
	}
	key, value, _ := strings.Cut(strings.TrimLeft(lines[wrong.Line-1], "- "), ":")
	field := map[string]string{"id": "called", "seed": "count", "sown": "planted"}[key]
	if field == "" {
		field = key
	}
	return units.WrongField(field, strings.TrimSpace(value), wrong.Problem, wrong.Accepted)
}

// isAlike tells two plantings that differ in nothing but their place in the file.
func isAlike(a, b harvest.Planting) bool {
	a.Place, b.Place = harvest.Place{}, harvest.Place{}
	same := func(x, y units.Quantity) bool { return x.String() == y.String() }
	return a.Crop == b.Crop && a.Variety == b.Variety && a.Class == b.Class && a.Sown == b.Sown &&
		a.SeedCount == b.SeedCount && same(a.Tub, b.Tub) && same(a.Bed, b.Bed)
}

// appended is the file with an entry behind its list, indented as its first one.
func appended(data []byte, before []harvest.Planting, entry []byte) []byte {
	if len(before) == 0 { // an empty list, or none: its remarks stay
		var remarks [][]byte
		for line := range bytes.Lines(data) {
			if bytes.HasPrefix(line, []byte("#")) {
				remarks = append(remarks, line)
			}
		}
		data = bytes.Join(remarks, nil)
	}
	indent := ""
	if len(before) > 0 {
		line := bytes.Split(data, []byte("\n"))[before[0].Place.Line-1]
		indent = string(line[:len(line)-len(bytes.TrimLeft(line, " "))])
	}
	whole := bytes.Clone(data)
	if len(whole) > 0 && whole[len(whole)-1] != '\n' {
		whole = append(whole, '\n')
	}
	for line := range bytes.Lines(entry) {
		whole = append(append(whole, indent...), line...)
	}
	return whole
}
