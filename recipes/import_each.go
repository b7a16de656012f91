package recipes

import (
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
)

// eachOf is a line that says one amount of each of several things.
var eachOf = pattern.New(`(?i)^(.{1,30}?) each(?: of|:)? (.+)$`)

// partEach makes a line for each thing that a line says the same amount of: "500 g
// each of parsnips and carrots". One with a thing that no table has stays as it is,
// and is doubted.
func (im *importer) partEach() {
	var lines []saved.Line
	for i, line := range im.recipe.Lines {
		amount, things := eachIn(line.Text, im.options.System)
		if len(things) < 2 || im.inProse(i) || line.Role != saved.Ingredient {
			lines = append(lines, line)
			continue
		}
		for _, thing := range things {
			one := line
			one.Text = amount + " " + thing
			lines = append(lines, one)
		}
	}
	if im.listed == 0 {
		im.recipe.Lines = lines
	}
}

// eachIn is the amount of each, and of what.
func eachIn(text string, s units.System) (amount string, things []string) {
	m := eachOf.FindStringSubmatch(text[:min(len(text), mostOfLine)])
	if m == nil || strings.ContainsAny(m[2], "0123456789(") {
		return "", nil
	}
	for thing := range strings.SplitSeq(strings.NewReplacer(" and ", ",", " & ", ",", " + ", ",").Replace(m[2]), ",") {
		thing = strings.TrimSpace(thing)
		if thing == "" {
			continue
		}
		if l := measures.ReadLine(m[1]+" "+thing, s); !l.Sure() || !l.Known || !l.Amount.IsValid() {
			return "", nil
		}
		things = append(things, thing)
	}
	return m[1], things
}

// mostOfLine is how much of a line is looked at for it, in bytes.
const mostOfLine = 200
