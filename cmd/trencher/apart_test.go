package main

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/page"
)

// eggPlot has one dish, with raw egg that goes in cold.
var eggPlot = map[string]string{
	"dishes/dill.yaml": `name: Dill potatoes
portions: 2
served: warm
smallest: 2
largest: 4
crops: [{crop: potato, amount: 300 g, prepared: scrubbed, cut: cube 25 mm, until: tender}]
others: [{item: own mayonnaise, amount: 60 g}, {item: dill, amount: 1 tbsp, state: chopped}]
method: [Stir in the own mayonnaise and the dill.]
`,
}

// A portion set apart is told and counted on every face, and never stands on the plate
// as the dish is made.
func TestEveryFaceTellsWhatIsSetApart(t *testing.T) {
	dir := writePlot(t, eggPlot)
	sheet := filepath.Join(t.TempDir(), "s.html")
	args := []string{"table", "--plot", dir, "--on", "2031-07-12", "--serve-at", "20:00", "--guests", "2 adults, 1 adult pregnant", "--sides", "1"}
	out, errs, status := trencher("", append(args, "--json")...)
	require.Equal(t, statusDone, status, errs)
	var plan struct {
		Levels    struct{ Fed []int }
		Plates    []struct{ Guest, Dishes, Apart any }
		Timetable []scriptStep
		Apart     []struct {
			Dish, Guest, Portions, Step, Rule, Because string
			Without                                    []string
			Number                                     int
			Holds                                      bool
		}
		Warnings []struct{ Severity, Dish, Rule, Says string }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &plan))
	assert.Equal(t, []int{3}, plan.Levels.Fed)
	require.Len(t, plan.Apart, 1)
	one := plan.Apart[0]
	assert.Equal(t, []any{"Dill potatoes", "adult, pregnant", "1", "vulnerable-table", 1, true}, []any{one.Dish, one.Guest, one.Portions, one.Rule, one.Number, one.Holds})
	assert.Equal(t, []string{"own mayonnaise"}, one.Without)
	for _, step := range plan.Timetable {
		assert.Equal(t, step.ID == one.Step, strings.HasPrefix(step.Do, "First set apart 1 portion without own mayonnaise; then "), step.Do)
	}
	for _, plate := range plan.Plates {
		if plate.Guest == "adult, pregnant" {
			assert.Equal(t, []any{}, plate.Dishes)
			assert.Equal(t, []any{"Dill potatoes"}, plate.Apart)
		}
	}
	text, errs, status := trencher("", append(args, "--sheet", sheet)...)
	require.Equal(t, statusDone, status, errs)
	printed, err := os.ReadFile(sheet)
	require.NoError(t, err)
	faces := map[string]string{"text": text, "sheet": string(printed), "page": sharePage(t, dir, "2 adults, 1 adult pregnant")}
	for face, words := range faces {
		words = strings.Join(strings.Fields(words), " ")
		for _, says := range []string{"First set apart 1 portion without own mayonnaise; then dress Dill potatoes", "Dill potatoes set apart, without own mayonnaise", "for the guest (adult, pregnant)"} {
			assert.Contains(t, words, says, face)
		}
	}
}

// sharePage is what the page answers.
func sharePage(t *testing.T, dir, guests string) string {
	t.Helper()
	now := time.Date(2031, 7, 12, 17, 0, 0, 0, time.UTC)
	p, err := page.New(page.Options{Where: ask.PlotRef{Dir: dir, Now: now}, Port: 8080, Now: func() time.Time { return now }})
	require.NoError(t, err)
	form := url.Values{"go": {"1"}, "dish": {"Dill potatoes"}, "serve": {"20:00"}, "guests": {guests}, "sides": {"1"}}
	r := httptest.NewRequest(http.MethodGet, "/share?"+form.Encode(), nil)
	r.Host = "127.0.0.1:8080"
	w := httptest.NewRecorder()
	p.Handler().ServeHTTP(w, r)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	return w.Body.String()
}

// The plot's hygiene stands in a plan where it matters, once and in a line each:
// the short plan, all of it and what scripts read say the same; `keep plot` has it
// whole. The page and the sheet are in render's TestPlotHygieneOnEveryFace.
func TestHygieneStandsOnceInAPlan(t *testing.T) {
	faces := map[string]string{}
	for name, args := range map[string][]string{"short": {"share", "--demo"}, "full": {"share", "--demo", "--full"}, "json": {"share", "--demo", "--json"}} {
		text, errs, status := trencher("", args...)
		require.Equal(t, statusDone, status, errs)
		faces[name] = text
	}
	whole, errs, status := trencher("", "keep", "plot")
	require.Equal(t, statusDone, status, errs)
	for says, of := range map[string]string{
		"Drinking water for steam, hands and herbs, never from butt or dip tank.":  "butt and dip tank",
		"No fresh manure, and no feed made of it, in the 120 days before picking.": "120 days",
		"Wash what is eaten raw leaf by leaf in two waters: slugs carry a worm.":   "small slugs",
		"What rats gnawed or dirtied is thrown out; then wash your hands.":         "rats gnawed",
		"Cover what cools, off the ground, away from flies and pets.":              "flies away",
	} {
		for name, text := range faces {
			assert.Equal(t, 1, strings.Count(text, says), "%s in the plan, %s", says, name)
		}
		assert.Contains(t, strings.Join(strings.Fields(whole), " "), of)
	}
	assert.Contains(t, whole, "A liquid feed of raw manure counts as fresh manure")
	assert.Contains(t, whole, "Soap and running")
	for name, text := range faces {
		assert.NotContains(t, text, "No tap", "the demo has a tap: %s", name)
	}
}
