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

	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

func sheetOf(t *testing.T, plan meal.Plan) string {
	t.Helper()
	var text strings.Builder
	require.NoError(t, Sheet(&text, plan))
	return text.String()
}

// allPlans are the example and every ugly case.
func allPlans() map[string]meal.Plan {
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
		"Saturday 19 July 2031, on the table at 18:30",
		"18 portions of 3 dishes from 3.28 kg of the crop. Start at 14:55.",
		"Crushed potatoes with chives", "8 portions", "900 g scrubbed", "As lifted 937 g: 810 g of tub-1/20-45-sound + 128 g of tub-1/ungraded-damaged",
		"60 g", "1½ tbsp", "(exactly 4.5: more than a tenth off)", "or 90 g mayonnaise", "if you like",
		"8 min (3–13)", "until just tender", "800 ml water", // up to the next 50 ml: never too little
		"Contains</b> milk. <b>May contain</b> egg, mustard, sulphites.",
		"green: bitter and poisonous", "Another 30 g of potato would make one more portion, with more of Cold potato salad with yoghurt.",
		"in the fridge by 17:30", "Steam scalds",
		"Scrub, cut: potato for Cold potato salad with yoghurt", "use today", "760 g</b> potato Miller&#39;s Dusk, 45-65 mm, sound; all taken",
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
	note := func(says string, dishes ...string) keeping.Note { return keeping.Note{Dishes: dishes, Says: says} }
	plan := meal.Plan{Keep: []keeping.Note{note("cooked at 16:08.", "Salad"), note("dress it cold.", "Salad"), note("no deeper than 5 cm.", "Mash"),
		note("Check the labels."), note("Wash your hands."), note("eat by Monday.", "Salad"), note("served hot.", "Salad", "Mash")}}
	want := []string{"Salad: cooked at 16:08. Dress it cold.", "Mash: no deeper than 5 cm.", "Check the labels.", "Wash your hands.",
		"Salad: eat by Monday.", "Salad, Mash: served hot."}
	assert.Equal(t, want, viewKeep(plan))
}

func TestClockStripKeepsBarsApart(t *testing.T) {
	for name, plan := range allPlans() {
		t.Run(name, func(t *testing.T) {
			strip := viewStrip(plan)
			if len(plan.Steps) == 0 {
				assert.Nil(t, strip)
				return
			}
			seen := 0
			for _, placed := range strip.Lanes {
				until := map[rem]float64{}
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
			assert.Equal(t, len(plan.Steps), seen, "every task has its bar")
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
	band := units.Band{Low: 30, High: 50}
	tests := []struct {
		name         string
		cut          meal.Cut
		lines        int // knife lines in both views together
		width        string
		wantNothing  bool
		onlyOnePiece bool
	}{
		{name: "whole: no cut", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Whole}, PieceMM: 40}, lines: 0, width: "20.6mm"},
		{name: "halves: one plane, seen in both views", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Halves}}, lines: 2, width: "20.6mm"},
		{name: "quarters: two planes lengthways", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Quarters}}, lines: 3, width: "20.6mm"},
		{name: "eighths: the quarters cut across", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Eighths}}, lines: 4, width: "20.6mm"},
		{name: "wedges: eighths lengthways", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Wedges}}, lines: 5, width: "20.6mm"},
		{name: "slices: across the length only", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Slice}, PieceMM: 10}, lines: 6, width: "20.6mm"},
		{name: "batons: along the length", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Baton}, PieceMM: 15}, lines: 6, width: "20.6mm"},
		{name: "cubes: both ways in both views", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Cube}, PieceMM: 25}, lines: 8, width: "20.6mm"},
		{name: "not graded: the piece alone", cut: meal.Cut{Cut: heat.Cut{Shape: heat.Cube}, PieceMM: 25}, width: "5.8mm", onlyOnePiece: true},
		{name: "not graded and no piece size: no picture", cut: meal.Cut{Cut: heat.Cut{Shape: heat.Whole}}, wantNothing: true},
		{name: "a piece of no size draws no endless cuts", cut: meal.Cut{Sizes: band, Cut: heat.Cut{Shape: heat.Cube}}, lines: 0, width: "20.6mm"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			picture := drawCut(test.cut, "so")
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
