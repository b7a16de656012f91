package page

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// emptyPlot is a folder with a kitchen and nothing else: the first day.
func emptyPlot(t *testing.T) *gardener {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte(plotFiles["kitchen.yaml"]), 0o644))
	p := newPage(t, Options{Where: ask.PlotRef{Dir: dir}, Now: func() time.Time { return testNow }})
	return &gardener{t: t, dir: dir, page: p, handler: p.Handler()}
}

// An empty plot leads by the hand: plant, lift, then a dish.
func TestAnEmptyPlotLeadsByTheHand(t *testing.T) {
	g := emptyPlot(t)
	assert.Contains(t, g.get("/").Body.String(), `<a class="button" href="/plant">`)
	assert.Contains(t, g.get("/ready").Body.String(), `<a class="button" href="/plant">`)
	body := g.get("/plant").Body.String()
	assert.Contains(t, body, "Three boxes are enough")
	form := formOf(body)
	form.Set("crop", "potatoes")
	form.Set("class", "second early")
	form.Set("planted", "2031-03-29")
	w := g.post("/plant", form)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	body = g.get(w.Header().Get("Location")).Body.String()
	assert.Contains(t, body, "Written down: tub-1, potato, planted on 29 March 2031.")
	assert.Contains(t, body, "<h2>tub-1: second early potato")

	assert.Contains(t, g.get("/").Body.String(), `<a class="button" href="/weigh">`)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", url.Values{"once": {"w"}, "planting": {"tub-1"}, "unit": {"kg"}, "bowl-1-full": {"1.46"}, "bowl-1-empty": {"0.31"}}).Code)
	body = g.get("/").Body.String()
	assert.Contains(t, body, "1.15 kg on hand.")
	assert.Contains(t, body, `href="/recipe"`)
}

// What is wrong stands beside its box, and the file is left as it was.
func TestPlantingsAreNotWrittenWrong(t *testing.T) {
	g := newGardener(t)
	before, err := os.ReadFile(filepath.Join(g.dir, "plantings.yaml"))
	require.NoError(t, err)
	for _, wrong := range []struct{ box, text, says string }{
		{"crop", "", "The crop is missing."},
		{"crop", "potatoe", "lip of the pen"},
		{"called", "", "The name is missing."},
		{"called", "by the shed", "annot name a planting"},
		{"called", "tub-3", "Stands there already"},
		{"size", "three stones", "size-says"},
		{"planted", "the other day", "planted-says"},
		{"class", "second early", "o class"},
		{"count", "some", "Write a whole number."},
		{"in", "a hole", "Choose one of the list."},
	} {
		form := url.Values{"once": {"w" + wrong.box + wrong.text}, "crop": {"carrot"}, "called": {"tub-9"}, "in": {"tub"}, "size": {"30"}, "how": {"planted"}, "planted": {"2031-04-02"}}
		form.Set(wrong.box, wrong.text)
		w := g.post("/plant", form)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, wrong.text)
		assert.Contains(t, w.Body.String(), wrong.says, wrong.text)
		assert.Contains(t, w.Body.String(), `aria-invalid="true" autofocus`, wrong.text)
	}
	after, err := os.ReadFile(filepath.Join(g.dir, "plantings.yaml"))
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}
