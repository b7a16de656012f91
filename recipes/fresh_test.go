package recipes

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// freshDirs hold 276 more recipes, invented for this test and labelled by hand
// before the reader saw any of them: labels.csv has the dish, lines.csv each
// ingredient. What the reader made of each set at first sight stands in
// DEVELOPERS.md.
var freshDirs = []string{"../testdata/recipes/fresh", "../testdata/recipes/fresh-2", "../testdata/recipes/fresh-3", "../testdata/recipes/fresh-4", "../testdata/recipes/fresh-5", "../testdata/recipes/fresh-6", "../testdata/recipes/fresh-7", "../testdata/recipes/fresh-8", "../testdata/recipes/fresh-9", "../testdata/recipes/fresh-10", "../testdata/recipes/fresh-11", "../testdata/recipes/fresh-12", "../testdata/recipes/fresh-13", "../testdata/recipes/fresh-14", "../testdata/recipes/fresh-15", "../testdata/recipes/fresh-16", "../testdata/recipes/fresh-17", "../testdata/recipes/fresh-18"}

// Each fact of a recipe by somebody else's hand is right, or it is marked to be
// checked, or asked for; none is wrong in silence.
func TestFreshRecipes(t *testing.T) {
	for _, dir := range freshDirs {
		t.Run(filepath.Base(dir), func(t *testing.T) { gradeFresh(t, dir) })
	}
}

func gradeFresh(t *testing.T, freshDir string) {
	lines := map[string][][]string{}
	for _, row := range readCSV(t, filepath.Join(freshDir, "lines.csv")) {
		lines[row[0]] = append(lines[row[0]], row)
	}
	var counts [4]int
	var decisions []int
	marks := map[string]int{}
	for _, row := range readCSV(t, filepath.Join(freshDir, "labels.csv")) {
		system, err := units.ParseSystem(row[1])
		require.NoError(t, err)
		im, err := ofCorpora(t, freshDir, row[0])
		if err != nil {
			counts[open] += 5 + len(lines[row[0]])
			t.Log(row[0], err)
			continue
		}
		for _, c := range im.Checks {
			marks[c.Key]++
		}
		grades := gradesOfFresh(im, row)
		for fact, g := range gradesOfLines(t, im, lines[row[0]], system) {
			grades[fact] = g
		}
		decided := len(im.Open)
		for _, fact := range sortedKeys(grades) {
			g := grades[fact]
			counts[g]++
			if g == wrong {
				decided++
				t.Errorf("%s: %s is wrong in silence", row[0], fact)
			} else if g != right {
				t.Logf("%s: %s: %s", row[0], []string{"", "to check", "asked"}[g], fact)
			}
		}
		decisions = append(decisions, decided)
	}
	slices.Sort(decisions)
	all := counts[right] + counts[checked] + counts[open] + counts[wrong]
	t.Logf("of %d facts %d right, %d to be checked, %d asked for, %d wrong; decisions: median %d, most %d",
		all, counts[right], counts[checked], counts[open], counts[wrong], decisions[len(decisions)/2], decisions[len(decisions)-1])
	t.Logf("marked to be checked, right or not: %v", marks)
	assert.GreaterOrEqual(t, 100*counts[right], 92*all, "right")
	assert.LessOrEqual(t, decisions[len(decisions)/2], 2)
}

// cropNames are the names of crops in the kitchen by their ids.
func cropNames(ids string) []string {
	var names []string
	for id := range strings.SplitSeq(ids, ";") {
		names = append(names, CropName(strings.ReplaceAll(id, "-", " ")))
	}
	return names
}

func readCSV(t *testing.T, path string) [][]string {
	t.Helper()
	file, err := os.Open(path)
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func sortedKeys(grades map[string]grade) []string {
	var keys []string
	for key := range grades {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// gradesOfFresh grades what is true of the whole dish. "-" is a fact that the
// recipe does not tell: then any value has to be marked or asked for.
func gradesOfFresh(im Imported, row []string) map[string]grade {
	marked, asked := map[string]bool{}, map[string]bool{}
	for _, c := range im.Checks {
		marked[c.Key] = true
	}
	for _, q := range im.Open {
		asked[q.Field] = true
	}
	grades := map[string]grade{}
	take := func(fact, got, want string, isMarked, isAsked bool) {
		g := wrong
		switch {
		case isAsked:
			g = open
		case slices.Contains(strings.Split(want, "|"), got):
			g = right
		case isMarked:
			g = checked
		}
		grades[fact+" "+got] = g
	}
	if row[4] != "-" {
		take("name", fold(im.Name), fold(row[4]), marked["name"], false)
	}
	take("portions", strconv.Itoa(im.Portions), row[5], marked["portions"], asked["portions"])
	take("served", string(im.Served), row[6], marked["served"], false)
	var crops []string
	unsure := marked["cook"] || marked["crops"]
	for _, c := range im.Dish.Crops {
		if grams, err := c.Amount.In(units.Gram); err == nil {
			crops = append(crops, fmt.Sprintf("%s %s %s %d %s", c.Crop, grams.Rat().FloatString(0), c.Cook, c.Minutes, orDash(c.Uses)))
		}
	}
	for _, l := range im.Lines {
		unsure = unsure || l.As == AsCrop && !l.Sure()
	}
	take("crops", strings.Join(crops, "; "), row[7], unsure, im.Text == "")
	steps := 0
	for _, l := range im.Lines {
		if l.As == AsStep {
			steps++
		}
	}
	if row[8] != "-" {
		take("steps", strconv.Itoa(steps), row[8], marked["steps"], false)
	}
	return grades
}

// gradesOfLines holds each ingredient against its label: the amount, and the
// words it is called by.
func gradesOfLines(t *testing.T, im Imported, labels [][]string, system units.System) map[string]grade {
	grades := map[string]grade{}
	used := map[int]bool{}
	for _, label := range labels {
		words := strings.Fields(measures.Fold(label[2]))
		named := func(l ImportedLine) bool {
			return !used[l.Number] && strings.Contains(measures.Fold(l.Text), words[len(words)-1])
		}
		listed := func(l ImportedLine) bool { return named(l) && (l.As == AsCrop || l.As == AsOther) }
		at := slices.IndexFunc(im.Lines, func(l ImportedLine) bool { return listed(l) && l.Read.Amount.IsValid() })
		if at < 0 {
			at = slices.IndexFunc(im.Lines, listed)
		}
		if at < 0 { // kept as a remark, and said to be
			at = slices.IndexFunc(im.Lines, func(l ImportedLine) bool { return named(l) && l.As == AsHeading && !l.Sure() })
		}
		fact := "line " + label[1] + " " + label[2]
		if at < 0 {
			grades[fact+": lost"] = wrong
			if slices.ContainsFunc(im.Checks, func(c Check) bool { return c.Key == "ingredients" }) { // it says that there may be more
				grades[fact+": lost"] = checked
			}
			continue
		}
		l := im.Lines[at]
		used[l.Number] = true
		asRead := sameAmount(t, l.Read, label[1], system) && sameName(l.Read, label[2])
		fact += fmt.Sprintf(" < %q: %s | %s | %s", l.Text, l.Read.Amount, l.Read.Item, l.Why())
		switch sure := l.Sure() || knownAmount(l) && label[1] != "ask"; {
		case !sure:
			grades[fact] = checked
			if l.Inside && l.Read.Sure() && asRead { // marked for standing in a sentence alone
				grades[fact] = right
			}
			if slices.Contains(strings.Split(label[1], "|"), "ask") { // a doubt is what is wanted
				grades[fact] = right
			}
		case asRead:
			grades[fact] = right
		default:
			grades[fact] = wrong
		}
	}
	for _, l := range im.Lines {
		if (l.As == AsCrop || l.As == AsOther) && !used[l.Number] {
			grades[fmt.Sprintf("line too many: %q", l.Text)] = wrong
			if !l.Sure() {
				grades[fmt.Sprintf("line too many: %q", l.Text)] = checked
			}
		}
	}
	return grades
}

// knownAmount tells a line whose only doubt is what the ingredient holds.
func knownAmount(l ImportedLine) bool {
	return l.Read.Amount.IsValid() && !slices.ContainsFunc(l.Doubts, func(d *units.FieldError) bool { return d.Field != "item" })
}

// sameAmount tells whether the line's amount, or the same said otherwise, is one
// of those the label takes.
func sameAmount(t *testing.T, got measures.Line, label string, system units.System) bool {
	for _, one := range strings.Split(label, "|") {
		if one == "ask" {
			continue
		}
		want, err := units.Parse(one, system)
		require.NoError(t, err, label)
		if want.IsToTaste() && got.Amount.IsToTaste() {
			return true
		}
		for _, have := range append([]units.Quantity{got.Amount}, got.Also...) {
			if have.IsValid() && !want.IsToTaste() && (have.Equal(want) || sameCount(have, want)) {
				return true
			}
		}
	}
	return false
}

// sameName tells whether the item has the label's words, in it or in what is said of
// it.
func sameName(got measures.Line, label string) bool {
	item := measures.Fold(got.Item)
	for _, other := range got.Instead {
		item += " or " + measures.Fold(other.Item)
	}
	for _, word := range strings.Fields(measures.Fold(label)) {
		if unit, err := units.ParseUnit(word, units.NoSystem); err == nil && unit == got.Amount.Unit() {
			continue // "mint leaves" by the leaf
		}
		if !strings.Contains(item+" "+measures.Fold(got.State)+" "+measures.Fold(got.Note), word) {
			return false
		}
	}
	return true
}

// sameCount tells whether four fillets of anchovy are four anchovy fillets.
func sameCount(have, want units.Quantity) bool {
	return want.Unit() == units.Piece && have.Unit().Kind() != "" && have.Rat().Cmp(want.Rat()) == 0
}
