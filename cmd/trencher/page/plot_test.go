package page

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// plotFiles are an invented plot with nothing lifted yet.
var plotFiles = map[string]string{
	"kitchen.yaml": `measures: metric
steamer: {diameter: 240 mm, tiers: 2}
stove: {power: 1.8 kW, gas: butane}
`,
	"plantings.yaml": `- id: tub-3
  crop: potato
  variety: Weir Gold
  class: second early
  planted: 2031-04-02
  seed: {count: 3, weight: 190 g}
  tub: 30 l
  texture: waxy
- id: bed-1
  crop: beetroot
  variety: Red <Moon> & "Co"
  planted: 2031-04-20
  bed: 2 m2
`,
	"dishes/crushed.yaml": `name: Crushed potatoes with lovage
portions: 4
served: hot
smallest: 2
largest: 20
crops:
  - crop: potato
    amount: 720 g
    prepared: scrubbed
    cut: cube 25 mm
    cook: steam
    until: tender
others:
  - item: butter
    amount: 60 g
  - item: chives
    amount: 2 tbsp
    state: chopped
    from: plot
method:
  - Steam the potatoes.
  - Crush them with the butter.
`,
	"dishes/salad.yaml": `name: Cold potato salad with radish and onions
portions: 4
served: cold
smallest: 2
largest: 12
crops:
  - crop: potato
    amount: 600 g
    prepared: scrubbed
    sizes: 20-45 mm
    cut: halves
    cook: steam
    until: just-tender
others:
  - item: yoghurt
    amount: 100 g
  - item: radish
    amount: 8
    from: plot
method:
  - Steam the potatoes and let them cool.
`,
}

// testNow is an afternoon in the middle of the season.
var testNow = time.Date(2031, 7, 12, 16, 40, 0, 0, time.FixedZone("", 3600))

// newPlot writes the invented plot into a fresh folder.
func newPlot(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range plotFiles {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "journal"), 0o755))
	return dir
}

// gardener is a browser without script, as a handler test sees it.
type gardener struct {
	t       *testing.T
	dir     string
	page    *Page
	handler http.Handler
}

func newGardener(t *testing.T) *gardener {
	t.Helper()
	dir := newPlot(t)
	p := newPage(t, Options{Where: ask.PlotRef{Dir: dir}, Now: func() time.Time { return testNow }})
	return &gardener{t: t, dir: dir, page: p, handler: p.Handler()}
}

func (g *gardener) get(target string) *httptest.ResponseRecorder {
	return serve(g.handler, request("GET", target, nil, nil))
}

func (g *gardener) post(target string, form url.Values) *httptest.ResponseRecorder {
	return follow(g.handler, serve(g.handler, request("POST", target, form, nil)))
}

// follow goes on to the screen that answers a form, where it has an address of
// its own.
func follow(handler http.Handler, w *httptest.ResponseRecorder) *httptest.ResponseRecorder {
	if to := w.Header().Get("Location"); strings.Contains(to, "answer=") {
		return serve(handler, request("GET", to, nil, nil))
	}
	return w
}

// entries counts the journal's files.
func (g *gardener) entries() int { return countEntries(g.t, g.dir) }

func countEntries(t testing.TB, dir string) int {
	t.Helper()
	n := 0
	require.NoError(t, filepath.WalkDir(filepath.Join(dir, "journal"), func(_ string, entry os.DirEntry, err error) error {
		if err == nil && !entry.IsDir() && strings.HasSuffix(entry.Name(), ".yaml") {
			n++
		}
		return err
	}))
	return n
}

// aLift is a form for 1.82 kg in two bowls, sorted.
func aLift() url.Values {
	return url.Values{
		"once": {"a-lift"}, "planting": {"tub-3"}, "unit": {"kg"},
		"bowl-1-full": {"1.46"}, "bowl-1-empty": {"0.31"}, "bowl-2-full": {"0,98"}, "bowl-2-empty": {"310 g"},
		"grade-1-weight": {"0.82"}, "grade-1-low": {"20"}, "grade-1-high": {"45"}, "grade-1-condition": {"sound"},
		"grade-2-weight": {"60 g"}, "grade-2-condition": {"green"},
	}
}

func TestWeighInWritesALift(t *testing.T) {
	g := newGardener(t)
	w := g.post("/weigh", aLift())
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	require.Equal(t, "/?done=a-lift", w.Header().Get("Location"))
	stock := g.get(w.Header().Get("Location")).Body.String()
	for _, text := range []string{"1.82 kg from tub-3 written down.", "1.76 kg on hand.", "820 g", "20-45 mm", "60 g", "never to the kitchen"} {
		assert.Truef(t, strings.Contains(stock, text), "the stock does not say %q", text)
	}
	assert.Equal(t, 1, g.entries())
}

func TestWeighInTwiceIsOnce(t *testing.T) {
	g := newGardener(t)
	for range 3 {
		require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	}
	assert.Equal(t, 1, g.entries(), "a double tap writes one lift")
}

// A correction sent after "Back" is neither lost nor reported as done: it is a
// question, and written when it is sent again.
func TestWeighInCorrectedAfterBackIsAsked(t *testing.T) {
	g := newGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	other := aLift()
	other.Set("bowl-1-full", "1.64")
	asked := g.post("/weigh", other)
	require.Equal(t, http.StatusUnprocessableEntity, asked.Code)
	body := asked.Body.String()
	assert.Contains(t, body, "<title>Error: Weigh in")
	assert.Contains(t, body, "This form was written down before, and not as it stands here: 1.82 kg from tub-3 written down. Now nothing was written.")
	assert.Contains(t, body, `value="1.64"`, "what was typed stays")
	assert.Equal(t, 1, g.entries())

	other.Set("once", regexp.MustCompile(`name="once" value="([^"]+)"`).FindStringSubmatch(body)[1])
	for range 2 {
		require.Equal(t, http.StatusSeeOther, g.post("/weigh", other).Code)
	}
	assert.Equal(t, 2, g.entries(), "sent again it is a lift of its own, once")
}

func TestWeighInKeepsWhatWasTyped(t *testing.T) {
	tests := []struct {
		name   string
		change map[string]string
		field  string // the box the fault stands beside
		says   string
	}{
		{"a word for a weight", map[string]string{"bowl-1-full": "heavy"}, "bowl-1-full", ""},
		{"a volume", map[string]string{"bowl-2-full": "2 l"}, "bowl-2-full", "ot one weight"},
		{"a bowl lighter than its tare", map[string]string{"bowl-1-empty": "3.1"}, "bowl-1-empty", "weighs more than the full one"},
		{"below nothing", map[string]string{"bowl-1-full": "-1 kg"}, "bowl-1-full", ""},
		{"an empty bowl alone", map[string]string{"bowl-3-empty": "0.2"}, "bowl-3-full", "missing"},
		{"no bowl at all", map[string]string{"bowl-1-full": "", "bowl-1-empty": "", "bowl-2-full": "", "bowl-2-empty": ""}, "bowl-1-full", "No bowl"},
		{"more in parts than in the bowls", map[string]string{"grade-1-weight": "9 kg"}, "grade-1-weight", "add up to"},
		{"sizes without a weight", map[string]string{"grade-1-weight": ""}, "grade-1-weight", "missing"},
		{"sizes the wrong way round", map[string]string{"grade-1-low": "60"}, "grade-1-high", ""},
		{"a count that is no number", map[string]string{"grade-1-count": "few"}, "grade-1-count", "whole number"},
		{"tomorrow", map[string]string{"at": "2031-07-13T10:00"}, "at", "till to come"},
		{"a planting that is not there", map[string]string{"planting": "tub-9"}, "planting", "ot in plantings.yaml"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			g := newGardener(t)
			form := aLift()
			for name, value := range test.change {
				form.Set(name, value)
			}
			w := g.post("/weigh", form)
			body := w.Body.String()
			require.Equal(t, http.StatusUnprocessableEntity, w.Code)
			assert.Zero(t, g.entries(), "nothing is written")
			assert.Contains(t, body, `<a href="#`+test.field+`">`, "the summary leads to the box")
			assert.Truef(t, strings.Contains(body, test.says), "the page does not say %q", test.says)
			assert.Regexp(t, `id="`+test.field+`"[^>]*aria-invalid="true"`, body, "and the box is marked")
			for name, values := range form {
				if name == "planting" || name == "unit" || strings.HasSuffix(name, "condition") {
					continue
				}
				box := regexp.MustCompile(`<input[^>]* name="` + name + `"[^>]*>`).FindString(body)
				assert.Containsf(t, box, `value="`+values[0]+`"`, "what was typed into %s is gone", name)
			}
		})
	}
}

func TestWeighInMakesRoom(t *testing.T) {
	g := newGardener(t)
	form := aLift()
	form.Set("more", "1")
	w := g.post("/weigh", form)
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Zero(t, g.entries())
	assert.Contains(t, w.Body.String(), `name="bowl-5-full"`)
	assert.Contains(t, w.Body.String(), `value="1.46"`)
	for row := 1; row < 90; row++ {
		form.Set(rowName("bowl", row, "full"), "1")
	}
	assert.NotContains(t, g.post("/weigh", form).Body.String(), rowName("bowl", mostRows+1, "full"), "there is an end to it")
}

func TestTakeOutChangesTheStock(t *testing.T) {
	g := newGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	lot := regexp.MustCompile(`<option value="([^"]*20-45[^"]*)"`).FindStringSubmatch(g.get("/take").Body.String())
	require.NotNil(t, lot)
	form := url.Values{"once": {"t1"}, "lot": {lot[1]}, "to": {"give"}, "weight": {"320"}, "unit": {"g"}, "detail": {"next door"}}
	w := g.post("/take", form)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	assert.Contains(t, g.get("/").Body.String(), "500 g")

	form.Set("once", "t2")
	form.Set("weight", "9000")
	w = g.post("/take", form)
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), `value="9000"`)
	assert.Equal(t, 2, g.entries())
}

func TestSeasonAddsUp(t *testing.T) {
	g := newGardener(t)
	assert.Contains(t, g.get("/season").Body.String(), "Nothing was lifted.")
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	body := g.get("/season?year=2031").Body.String()
	assert.Contains(t, body, "1.82 kg lifted, 1.76 kg of it fit to eat.")
	assert.Contains(t, body, "1.82 kg on hand")
	for _, wrong := range []string{"soon", "0", "20310"} {
		w := g.get("/season?year=" + wrong)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
		assert.Contains(t, w.Body.String(), `value="`+wrong+`"`)
	}
}

func TestEverythingTypedIsEscaped(t *testing.T) {
	g := newGardener(t)
	hostile := `"><script>alert(1)</script>`
	form := aLift()
	for name := range form {
		form.Set(name, hostile)
	}
	for _, w := range []*httptest.ResponseRecorder{g.post("/weigh", form), g.post("/take", form),
		g.get("/season?year=" + url.QueryEscape(hostile)), g.get("/?done=" + url.QueryEscape(hostile)), g.get("/weigh")} {
		assert.NotContains(t, withoutOwnScripts(g.page, w.Body.String()), "<script")
		assert.NotContains(t, w.Body.String(), "<Moon>", "a variety's name is text")
	}
}

// A plot with a mistake in it says where, and the page does not fall over.
func TestBrokenPlotIsNamed(t *testing.T) {
	g := newGardener(t)
	require.NoError(t, os.WriteFile(filepath.Join(g.dir, "plantings.yaml"), []byte("- id: tub-3\n  crop: potato\n  tubb: 3\n"), 0o644))
	w := g.get("/")
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Contains(t, w.Body.String(), "plantings.yaml:3:3")
	assert.NotContains(t, w.Body.String(), g.dir, "no path of the machine")
}

func TestFridgeTellsUntilWhen(t *testing.T) {
	g := newGardener(t)
	assert.Contains(t, g.get("/fridge").Body.String(), "Nothing cooked is left.")
	w := g.post("/fridge", url.Values{"once": {"f1"}, "name": {"Cold potato salad with radish and onions"}, "event": {"cooked"}, "at": {"2031-07-12T14:00"}})
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	body := g.get("/fridge").Body.String()
	assert.Contains(t, body, "cooked Sat 12 Jul 14:00")
	assert.Contains(t, body, "Take care")

	w = g.post("/fridge", url.Values{"once": {"f2"}, "name": {"soup of last year"}, "event": {"eaten"}, "amount": {"2"}})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), `value="soup of last year"`)
	assert.Contains(t, w.Body.String(), "o batch of that name")
	w = g.post("/fridge", url.Values{"once": {"f3"}, "name": {"chips"}, "event": {"cooked"}})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Regexp(t, `id="food"[^>]*aria-invalid`, w.Body.String(), "a batch that is no dish needs its food")
	assert.Equal(t, 1, g.entries())
}

func TestSteamAnswersEveryCropAndCut(t *testing.T) {
	g := newGardener(t)
	cuts := cutWords
	if os.Getenv("TRENCHER_LONG") != "1" {
		cuts = words("cube", "whole")
	}
	for _, crop := range readSteam(request("GET", "/steam", nil, nil)).Crop.Options {
		for _, cut := range cuts {
			w := g.get("/steam?" + url.Values{"crop": {crop.Value}, "cut": {cut.Value}, "until": {"soft"}}.Encode())
			if w.Code == http.StatusOK {
				assert.Contains(t, w.Body.String(), `class="expected" d="M0.00`, "%s, %s: no curve", crop.Value, cut.Value)
			} else {
				assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "%s, %s", crop.Value, cut.Value)
				assert.Contains(t, w.Body.String(), `class="mend"`)
			}
		}
	}
}

func TestSteamKeepsWhatWasTyped(t *testing.T) {
	g := newGardener(t)
	for _, test := range []struct{ query, field string }{
		{"size=wide", "size"}, {"size=-5", "size"}, {"size=9000", "size"}, {"size=25&load=a+lot", "load"}, {"load=1+kg", "size"},
		{"crop=stone", "crop"}, {"cut=hash", "cut"}, {"until=burnt", "until"},
	} {
		w := g.get("/steam?" + test.query)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, test.query)
		assert.Regexp(t, `id="`+test.field+`"[^>]*aria-invalid`, w.Body.String(), test.query)
	}
	w := g.get("/steam?size=25&load=1.2+kg")
	assert.Contains(t, w.Body.String(), "from full steam; try a knife from")
	assert.Contains(t, w.Body.String(), "Water ")
}

// A damaged entry is named, and keeps no new weight out.
func TestDamagedJournalKeepsNoWeightOut(t *testing.T) {
	g := newGardener(t)
	require.NoError(t, os.MkdirAll(filepath.Join(g.dir, "journal", "2031"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(g.dir, "journal", "2031", "0701-1200-lift-tub-3.yaml"), []byte("kind: lif"), 0o644))
	w := g.get("/")
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Contains(t, w.Body.String(), "0701-1200-lift-tub-3.yaml")
	w = g.post("/weigh", aLift())
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	assert.Contains(t, g.get(w.Header().Get("Location")).Body.String(), "1.82 kg from tub-3 written down.")
	assert.Equal(t, 2, g.entries())
}
