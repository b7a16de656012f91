package page

import (
	"maps"
	"net/http"
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

// restarted is the same plot behind a page that was started anew.
func (g *gardener) restarted() *gardener {
	p := newPage(g.t, Options{Where: ask.PlotRef{Dir: g.dir, Device: g.page.where.Device}, Now: func() time.Time { return g.page.now().Add(time.Minute) }})
	return &gardener{t: g.t, dir: g.dir, page: p, handler: p.Handler()}
}

// files are the names of the journal's entries.
func (g *gardener) files() (names []string) {
	found, err := filepath.Glob(filepath.Join(g.dir, "journal", "*", "*.yaml"))
	require.NoError(g.t, err)
	return found
}

// filesAndDishes are the names of the journal's entries and of the dishes.
func (g *gardener) filesAndDishes() (names []string) {
	for _, pattern := range []string{"journal/*/*.yaml", "dishes/*.yaml"} {
		found, err := filepath.Glob(filepath.Join(g.dir, filepath.FromSlash(pattern)))
		require.NoError(g.t, err)
		names = append(names, found...)
	}
	return names
}

// sentForm is a form that writes, and what differs when it is sent after "Back".
type sentForm struct {
	path     string
	form     url.Values
	box      string // what is changed
	other    string
	says     string // what the message says, and
	holds    string // what the entry holds
	in       string // the file it is added to; "" = one of its own
	prepared func(g *gardener, form url.Values)
}

func sentForms() map[string]sentForm {
	lot := func(g *gardener, form url.Values) {
		require.Equal(g.t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	}
	plan := func(g *gardener, form url.Values) {
		lot(g, form)
		require.Equal(g.t, http.StatusSeeOther, g.post("/share", url.Values{"once": {"the-plan"}, "go": {"1"}, "dish": {crushed}, "serve": {"18:30"}}).Code)
	}
	return map[string]sentForm{
		"cook": {path: "/cook", form: url.Values{"says": {"five-late"}, "step": {"s1"}}, box: "says", other: "done", holds: "kind: step", prepared: plan},
		"recipe": {path: "/recipe", form: url.Values{"keep": {"1"}, "cook": {"beetroot=steam"}, "text": {"Beetroot with butter\nServes 4\n600 g beetroot\n40 g butter\nSteam the beetroot. Add the butter.\n"}},
			box: "portions", other: "6", says: "Beetroot with butter is one of your dishes now.", holds: "name: Beetroot with butter"},
		"settle": {path: "/settle", form: url.Values{}, box: "counts", other: "0712-1640-lift-tub-3.yaml", says: "Settled.", holds: "kind: void",
			prepared: func(g *gardener, form url.Values) {
				lot(g, form)
				twoDevicesOf(g.t, g, corrected(g.t, "1.6 kg"), corrected(g.t, "1.7 kg"))
				g.page.now = func() time.Time { return testNow.Add(time.Hour) }
				form.Set("counts", regexp.MustCompile(`name="counts" value="([^"]+)" class="second"`).FindStringSubmatch(g.get("/settle").Body.String())[1])
			}},
		"weigh": {path: "/weigh", form: aLift(), box: "bowl-1-full", other: "1.52", says: "1.82 kg", holds: "gross: 1.46 kg"},
		"take": {path: "/take", form: url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"0.1"}, "unit": {"kg"}}, box: "weight", other: "0.2",
			says: "100 g", holds: "weight: 0.1 kg", prepared: lot},
		"weigh again": {path: "/take", form: url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"reweighed"}, "weight": {"0.7"}, "unit": {"kg"}}, box: "weight", other: "0.6",
			says: "700 g", holds: "weight: 0.7 kg", prepared: lot},
		"fridge": {path: "/fridge", form: url.Values{"name": {"Cold potato salad with radish and onions"}, "event": {"cooked"}, "amount": {"4"}}, box: "amount", other: "5",
			says: "Cold potato salad with radish and onions", holds: `amount: "4"`},
		"knife": {path: "/steam", form: aKnifeTest(), box: "minutes", other: "12", says: "9.5 min", holds: "minutes: 9.5"},
		"share": {path: "/share", form: url.Values{"go": {"1"}, "dish": {"Crushed potatoes with lovage"}, "sides": {"2"}}, box: "sides", other: "1",
			says: "Written down as used.", holds: "kind: plan", prepared: lot},
		"plant": {path: "/plant", form: url.Values{"crop": {"carrot"}, "in": {"bed"}, "size": {"2"}, "called": {"bed-7"}, "how": {"sown"}, "planted": {"2031-04-12"}}, box: "crop", other: "parsnip",
			says: "bed-7, carrot, sown on 12 April 2031", holds: "- id: bed-7\n  crop: carrot\n  sown: \"2031-04-12\"\n  bed: 2 m2\n", in: "plantings.yaml"},
		"undo": {path: "/undo", box: "entry", other: "journal/2031/0101-0000-lift-tub-3.yaml", says: "lift of tub-3, 1.82 kg", holds: "kind: void", form: url.Values{},
			prepared: func(g *gardener, form url.Values) {
				lot(g, form)
				form.Set("entry", regexp.MustCompile(`name="entry" value="([^"]+)"`).FindStringSubmatch(g.get("/undo").Body.String())[1])
			}},
	}
}

// Whatever becomes of the answer: a double touch, a reload, a lost answer, a page
// that was started anew; the same form writes once, and every message says what
// the journal has. With other contents it is a question, and writes nothing.
func TestEveryFormIsWrittenOnce(t *testing.T) {
	for name, sent := range sentForms() {
		t.Run(name, func(t *testing.T) {
			g := newGardener(t)
			g.page.where.Device = func() string { return "aaaaaa" }
			if sent.prepared != nil {
				sent.prepared(g, sent.form)
			}
			sent.form.Set("once", tokenOf(t, g, sent.path))
			before := g.filesAndDishes()
			first := g.post(sent.path, sent.form) // the answer is lost
			require.Equal(t, http.StatusSeeOther, first.Code, first.Body.String())
			require.Contains(t, first.Header().Get("Location"), "done=")
			written, more := []string{filepath.Join(g.dir, sent.in)}, 0
			if sent.in == "" {
				written, more = newFiles(before, g.filesAndDishes()), 1
			}
			require.Len(t, written, 1)
			entry, err := os.ReadFile(written[0])
			require.NoError(t, err)
			assert.Contains(t, string(entry), sent.holds)

			for _, again := range []*gardener{g, g.restarted(), g.restarted()} {
				w := again.post(sent.path, sent.form)
				require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
				assert.Len(t, g.filesAndDishes(), len(before)+more, "written once")
				done := again.get(w.Header().Get("Location")).Body.String()
				said := regexp.MustCompile(`(?s)<p class="done"[^>]*>(.*?)</p>`).FindStringSubmatch(done)
				require.NotNil(t, said, "nothing says that it is written down")
				if again == g {
					assert.Contains(t, said[1], sent.says)
				} else if name != "recipe" { // a dish keeps no word of its form
					assert.Contains(t, said[1], "Written down: ")
				}

				other := maps.Clone(sent.form)
				other.Set(sent.box, sent.other)
				w = again.post(sent.path, other)
				assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
				assert.Contains(t, w.Body.String(), "<title>Error: ")
				assert.Contains(t, w.Body.String(), "written down before, and not as it stands here")
				assert.Len(t, g.filesAndDishes(), len(before)+more, "other contents are asked about")
				still, err := os.ReadFile(written[0])
				require.NoError(t, err)
				assert.Equal(t, string(entry), string(still))
			}
		})
	}
}

// Two forms, in two tabs, are two: each is written.
func TestTwoTabsAreTwo(t *testing.T) {
	g := newGardener(t)
	one, two := tokenOf(t, g, "/weigh"), tokenOf(t, g, "/weigh")
	require.NotEqual(t, one, two)
	for n, token := range []string{one, two, one, two} {
		form := aLift()
		form.Set("once", token)
		if token == two {
			form.Set("bowl-1-full", "1.61")
		}
		require.Equal(t, http.StatusSeeOther, g.post("/weigh", form).Code)
		assert.Equal(t, min(n+1, 2), g.entries())
	}
}

// What is wrong has an address of its own: loaded again or gone back to, it sends
// nothing; what was typed stays, even after a restart; the faulty box has the
// focus, and the title says so.
func TestWhatIsWrongHasAnAddress(t *testing.T) {
	g := newGardener(t)
	form := aLift()
	form.Set("bowl-2-full", "a lot")
	w := serve(g.handler, request("POST", "/weigh", form, nil))
	require.Equal(t, http.StatusSeeOther, w.Code)
	at := w.Header().Get("Location")
	for range 2 {
		w = g.get(at)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
		body := w.Body.String()
		assert.Contains(t, body, "<title>Error: Weigh in")
		box := regexp.MustCompile(`<input id="bowl-2-full"[^>]*>`).FindString(body)
		assert.Contains(t, box, `value="a lot"`)
		assert.Contains(t, box, "autofocus")
		assert.Equal(t, 1, strings.Count(body, "autofocus"), "one box has it")
		assert.Contains(t, body, `value="1.46"`)
	}
	body := g.restarted().get(at).Body.String()
	assert.Contains(t, body, `value="a lot"`)
	assert.Contains(t, body, `value="1.46"`)
	assert.Zero(t, g.entries())
}

// tokenOf is the token of a fresh form at an address.
func tokenOf(t *testing.T, g *gardener, path string) string {
	t.Helper()
	if path == "/share" {
		path += "?go=1&dish=Crushed+potatoes+with+lovage"
	}
	if path == "/steam" {
		path += "?size=25"
	}
	found := regexp.MustCompile(`name="once" value="([^"]+)"`).FindStringSubmatch(g.get(path).Body.String())
	require.NotNil(t, found, "%s has no token", path)
	return found[1]
}

// newFiles are those after that were not there before.
func newFiles(before, after []string) (made []string) {
	old := map[string]bool{}
	for _, name := range before {
		old[name] = true
	}
	for _, name := range after {
		if !old[name] {
			made = append(made, name)
		}
	}
	return made
}
