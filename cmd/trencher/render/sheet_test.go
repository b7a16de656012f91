package render

import (
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/keeping"
)

func sheetOf(t *testing.T, plan ask.Plan) string {
	t.Helper()
	var text strings.Builder
	require.NoError(t, Sheet(&text, plan))
	return text.String()
}

// allPlans are the example and every ugly case.
func allPlans() map[string]ask.Plan {
	plans := uglyPlans()
	plans["example"] = examplePlan()
	return plans
}

// elements walks a page and gives each start tag with its attributes. Tags
// that HTML leaves open are closed as HTML does; anything else unbalanced is
// an error.
func elements(t *testing.T, page string) []xml.StartElement {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader(page))
	decoder.Strict, decoder.AutoClose, decoder.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var found []xml.StartElement
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return found
		}
		require.NoError(t, err)
		if start, ok := token.(xml.StartElement); ok {
			found = append(found, start.Copy())
		}
	}
}

func TestSheetStandsAlone(t *testing.T) {
	for name, plan := range allPlans() {
		t.Run(name, func(t *testing.T) {
			page := sheetOf(t, plan)
			for _, element := range elements(t, page) {
				assert.NotContains(t, []string{"script", "img", "link", "iframe", "object", "base", "form"}, element.Name.Local)
				for _, attribute := range element.Attr {
					assert.NotContains(t, []string{"src", "href", "style", "action"}, attribute.Name.Local)
					assert.False(t, strings.HasPrefix(attribute.Name.Local, "on"), attribute.Name.Local)
				}
			}
			assert.NotRegexp(t, `(?i)https?:|url\(|@import`, page)
		})
	}
}

func TestSheetSaysEverything(t *testing.T) {
	page := sheetOf(t, examplePlan())
	for _, text := range []string{
		"Saturday 12 July 2031, on the table at 18:30",
		"24 portions of 5 dishes from 4.47 kg of the crop. Start at 16:20.",
		"Crushed potatoes with lovage", "7 portions", "1.25 kg scrubbed", "As lifted 1.26 kg: 935 g of tub-3/45-65-sound + 325 g of bed-1/damaged",
		"105 g", "1¾ tbsp", "(exactly 6.125 g)", "or 1 shallot, or 5 Welsh onions", "if you like",
		"8 min (6–12)", "until just tender", "420 ml water", // up to the next 10 ml: never too little
		"Contains</b> egg, milk. <b>May contain</b> mustard, sulphites.",
		"green tubers are never eaten", "no lot of 65 mm and over", "Another 180 g of potatoes",
		"The soured cream ran out.", "Leftovers: into the fridge by 20:30", "Steam burns",
		"Scrub and halve 891 g potato", "use today", "1.64 kg</b> potato Weir Gold, 20-45 mm, sound; all taken",
	} {
		assert.Truef(t, strings.Contains(page, strings.ReplaceAll(text, "+", "&#43;")), "the sheet does not say %q", text)
	}
}

func TestSheetPutsTheAnswerFirst(t *testing.T) {
	page := sheetOf(t, examplePlan())
	assert.Less(t, strings.Index(page, `class="answer"`), strings.Index(page, "<h2>"))
	assert.Contains(t, sheetOf(t, uglyPlans()["nothing to share"]), "Nothing to cook from this stock.")
}

func TestSheetIsTheSameEveryTime(t *testing.T) {
	assert.Equal(t, sheetOf(t, examplePlan()), sheetOf(t, examplePlan()))
}

func TestSheetEscapesWhatThePlotHolds(t *testing.T) {
	page := sheetOf(t, bracketed())
	assert.NotContains(t, page, "<script")
	assert.NotContains(t, page, "<img")
	assert.Contains(t, page, "&lt;script&gt;")
}

// Every box to tick, and every picture, has its words (WCAG 2.2, 1.1.1 and 4.1.2).
func TestSheetPicturesHaveWords(t *testing.T) {
	for _, element := range elements(t, sheetOf(t, examplePlan())) {
		if element.Name.Local != "svg" {
			continue
		}
		attributes := map[string]string{}
		for _, attribute := range element.Attr {
			attributes[attribute.Name.Local] = attribute.Value
		}
		assert.True(t, attributes["aria-hidden"] == "true" || attributes["aria-label"] != "", "%v", attributes)
	}
}

func TestSheetGathersNotesOnOneDish(t *testing.T) {
	got := gathered([]keeping.Note{
		{Dishes: []string{"Salad"}, Says: "cooked at 16:08."}, {Dishes: []string{"Salad"}, Says: "dress it cold."},
		{Dishes: []string{"Mash", "Salad"}, Says: "no deeper than 5 cm."}, {Says: "Check the labels."}, {Says: "Salad: eat by Monday."},
	})
	want := []string{"Salad: cooked at 16:08. Dress it cold.", "Mash, Salad: no deeper than 5 cm.", "Check the labels.", "Salad: eat by Monday."}
	assert.Equal(t, want, got)
}

func TestClockStripKeepsBarsApart(t *testing.T) {
	for name, plan := range allPlans() {
		t.Run(name, func(t *testing.T) {
			strip := viewStrip(plan)
			if len(plan.Timetable) == 0 {
				assert.Nil(t, strip)
				return
			}
			seen := 0
			for _, placed := range strip.Lanes {
				until := map[int]float64{}
				for _, bar := range placed.Bars {
					seen++
					from, width := number(t, bar.X), number(t, bar.Width)
					assert.GreaterOrEqual(t, from, 0.0)
					assert.LessOrEqual(t, from+width, 100.01)
					assert.GreaterOrEqual(t, from, until[bar.Y]-0.01, "task %d covers the one before it", bar.Number)
					until[bar.Y] = from + width
					assert.Less(t, bar.Y, strip.Floor)
				}
			}
			assert.Equal(t, len(plan.Timetable), seen, "every task has its bar")
			assert.LessOrEqual(t, len(strip.Ticks), 8)
		})
	}
}

func number(t *testing.T, percentage string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(strings.TrimSuffix(percentage, "%"), 64)
	require.NoError(t, err)
	return value
}

func TestCuttingPictures(t *testing.T) {
	tests := []struct {
		name         string
		cut          ask.CutPart
		lines        int // knife lines in both views together
		width        string
		wantNothing  bool
		onlyOnePiece bool
	}{
		{name: "whole: no cut", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "whole", PieceMM: 40}, lines: 0, width: "20.6mm"},
		{name: "halves: one plane, seen in both views", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "halves"}, lines: 2, width: "20.6mm"},
		{name: "quarters: two planes lengthways", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "quarters"}, lines: 3, width: "20.6mm"},
		{name: "eighths: the quarters cut across", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "eighths"}, lines: 4, width: "20.6mm"},
		{name: "wedges: eighths lengthways", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "wedges"}, lines: 5, width: "20.6mm"},
		{name: "slices: across the length only", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "slice", PieceMM: 10}, lines: 6, width: "20.6mm"},
		{name: "batons: along the length", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "baton", PieceMM: 15}, lines: 6, width: "20.6mm"},
		{name: "cubes: both ways in both views", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "cube", PieceMM: 25}, lines: 8, width: "20.6mm"},
		{name: "not graded: the piece alone", cut: ask.CutPart{Shape: "cube", PieceMM: 25}, width: "5.8mm", onlyOnePiece: true},
		{name: "not graded and no piece size: no picture", cut: ask.CutPart{Shape: "whole"}, wantNothing: true},
		{name: "a piece of no size draws no endless cuts", cut: ask.CutPart{LowMM: 30, HighMM: 50, Shape: "cube"}, lines: 0, width: "20.6mm"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			picture := drawCut(test.cut)
			if test.wantNothing {
				assert.Nil(t, picture)
				return
			}
			assert.Equal(t, test.width, picture.Width, "(1.3 x 40 + 40 + 5 + 3 x 2 mm) / 5, or (25 + 2 x 2 mm) / 5")
			assert.Equal(t, test.lines, strings.Count(picture.Lines, "M"))
			assert.Equal(t, test.onlyOnePiece, picture.Outline == "")
			assert.NotContains(t, picture.Piece+picture.Lines, "NaN")
		})
	}
}

// The contrast of text on its ground is computed as WCAG 2.2 defines it
// (success criterion 1.4.3: at least 4.5 for text, 1.4.11: 3 for drawings).
func TestSheetContrast(t *testing.T) {
	pairs := []struct {
		front, ground string
		least         float64
	}{
		{"ink", "paper", 7}, {"soft", "paper", 4.5}, {"alarm", "paper", 4.5}, {"leaf", "paper", 4.5},
		{"ink", "tub", 7}, {"soft", "tub", 4.5}, {"leaf-ink", "leaf", 4.5},
		{"steamer-ink", "steamer", 4.5}, {"cook-ink", "cook", 4.5}, {"wait-ink", "wait", 4.5},
		{"skin", "paper", 3}, {"knife", "flesh", 3}, {"steamer", "paper", 3},
	}
	themes := Themes(SheetStyle())
	require.Len(t, themes, 3, "light, dark and print")
	for i, theme := range themes {
		for _, pair := range pairs {
			got := contrast(t, theme[pair.front], theme[pair.ground])
			assert.GreaterOrEqualf(t, got, pair.least, "theme %d: %s on %s is %.2f", i, pair.front, pair.ground, got)
		}
	}
}

var rootRule = regexp.MustCompile(`:root \{([^}]*)\}`)
var colourRule = regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`)

// Themes reads the colour names of each :root rule of a style sheet, later
// ones standing on the first.
func Themes(style string) []map[string]string {
	var themes []map[string]string
	for _, rule := range rootRule.FindAllStringSubmatch(style, -1) {
		theme := map[string]string{}
		if len(themes) > 0 {
			for name, colour := range themes[0] {
				theme[name] = colour
			}
		}
		for _, colour := range colourRule.FindAllStringSubmatch(rule[1], -1) {
			theme[colour[1]] = colour[2]
		}
		themes = append(themes, theme)
	}
	return themes
}

// TestWriteExampleSheets writes the sheets to look at, when asked for.
func TestWriteExampleSheets(t *testing.T) {
	folder := os.Getenv("TRENCHER_SHEETS")
	if folder == "" {
		return
	}
	for name, plan := range allPlans() {
		file := filepath.Join(folder, strings.ReplaceAll(name, " ", "-")+".html")
		require.NoError(t, os.WriteFile(file, []byte(sheetOf(t, plan)), 0o644))
	}
}
