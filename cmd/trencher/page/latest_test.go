package page

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

func newSignedGardener(t *testing.T) *gardener {
	g := newGardener(t)
	g.page.where.Device = func() string { return "aaaaaa" }
	g.page.now = ticking()
	return g
}

// ticking is a clock that goes on by a second whenever somebody looks at it.
func ticking() func() time.Time {
	var seconds atomic.Int64
	return func() time.Time { return testNow.Add(time.Duration(seconds.Add(1)) * time.Second) }
}

var correctLink = regexp.MustCompile(`href="(/[a-z]+\?correct=[^"]+)">Correct</a>`)

// boxValue is what stands in a box of a form.
func boxValue(t *testing.T, body, name string) string {
	t.Helper()
	box := regexp.MustCompile(`<input id="` + name + `"[^>]* value="([^"]*)"`).FindStringSubmatch(body)
	require.NotNil(t, box, "there is no box %s", name)
	return html.UnescapeString(box[1])
}

// The latest entries stand on top of every screen that something is written on,
// with undo and, where there is a form for it, correct.
func TestLatestEntriesOnTop(t *testing.T) {
	g := newSignedGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	for path := range showsLatest {
		body := g.get(path).Body.String()
		top, _, found := strings.Cut(body, "</section>")
		require.True(t, found, path)
		assert.Contains(t, top, "lift of tub-3, 1.82 kg", path)
		assert.Contains(t, top, ">Undo</button>", path)
		assert.Regexp(t, correctLink, top, path)
	}
	body := g.get("/fridge").Body.String()
	entry := regexp.MustCompile(`name="entry" value="([^"]+)"`).FindStringSubmatch(body)[1]
	w := g.post("/undo", url.Values{"once": {"u"}, "entry": {entry}, "from": {"/fridge"}})
	require.Equal(t, "/fridge?done=u", w.Header().Get("Location"), "undoing leads back")
	assert.Contains(t, g.get("/fridge?done=u").Body.String(), "Taken back: lift of tub-3, 1.82 kg")
	assert.Equal(t, "/?done=v", g.post("/undo", url.Values{"once": {"v"}, "entry": {writtenFile(t, g)}, "from": {"//elsewhere.example"}}).Header().Get("Location"))
}

// writtenFile is the file of a lift that was just written.
func writtenFile(t *testing.T, g *gardener) string {
	form := aLift()
	form.Set("once", newToken())
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", form).Code)
	return regexp.MustCompile(`name="entry" value="([^"]+)"`).FindStringSubmatch(g.get("/").Body.String())[1]
}

// Every entry that has a form is corrected in it: it stands there filled in, and
// what is written takes the place of the entry.
func TestCorrectInItsForm(t *testing.T) {
	g := newSignedGardener(t)
	steps := []struct {
		path   string
		form   url.Values
		box    string
		was    string
		is     string
		screen string // where it shows
		says   string
	}{
		{"/weigh", aLift(), "bowl-1-full", "1.46", "1.56", "/", "1.86 kg on hand."},
		{"/take", url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"0.1"}, "unit": {"kg"}}, "weight", "0.1", "0.2", "/", "1.66 kg on hand."},
		{"/take", url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"reweighed"}, "weight": {"0.6"}, "unit": {"kg"}}, "weight", "0.6", "0.5", "/", "500 g"},
		{"/fridge", url.Values{"name": {"Crushed potatoes with lovage"}, "event": {"cooked"}, "amount": {"4"}}, "amount", "4", "5", "/fridge", "5"},
		{"/fridge", url.Values{"name": {"Crushed potatoes with lovage"}, "event": {"eaten"}, "amount": {"1"}}, "amount", "1", "2", "/fridge", "3"},
	}
	for n, step := range steps {
		step.form.Set("once", "w"+step.path+string(rune('a'+n)))
		require.Equal(t, http.StatusSeeOther, g.post(step.path, step.form).Code, "%v", step)
		before := g.entries()
		link := correctLink.FindStringSubmatch(g.get(step.path).Body.String())
		require.NotNil(t, link, "%v", step)
		body := g.get(html.UnescapeString(link[1])).Body.String()
		assert.Equal(t, step.was, boxValue(t, body, step.box))
		form := formOf(body)
		form.Set(step.box, step.is)
		w := g.post(step.path, form)
		require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
		assert.Equal(t, before+1, g.entries(), "the correction is an entry of its own")
		_, shown, _ := strings.Cut(g.get(step.screen).Body.String(), "</section>")
		assert.Contains(t, shown, step.says)
	}
}

// formOf is the form that writes, as a browser would send it untouched.
func formOf(body string) url.Values {
	form := url.Values{}
	_, text, _ := strings.Cut(body, `<form id="write"`)
	text, _, _ = strings.Cut(text, "</form>")
	for _, m := range regexp.MustCompile(`<input[^>]*name="([^"]+)"[^>]*value="([^"]*)"`).FindAllStringSubmatch(text, -1) {
		form.Set(m[1], html.UnescapeString(m[2]))
	}
	for _, one := range regexp.MustCompile(`(?s)<select id="([^"]+)".*?</select>`).FindAllStringSubmatch(text, -1) {
		if m := regexp.MustCompile(`<option value="([^"]*)" selected`).FindStringSubmatch(one[0]); m != nil {
			form.Set(one[1], html.UnescapeString(m[1]))
		}
	}
	return form
}

// The form remembers planting, unit and bowl; the same bowl again is one touch,
// and the net weight so far is told.
func TestWeighRemembers(t *testing.T) {
	g := newSignedGardener(t)
	form := url.Values{"once": {"w"}, "planting": {"bed-1"}, "unit": {"g"}, "bowl-1-full": {"900"}, "bowl-1-empty": {"310"}}
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", form).Code)
	body := g.get("/weigh").Body.String()
	assert.Contains(t, body, `<option value="bed-1" selected>`)
	assert.Contains(t, body, `<option value="g" selected>`)
	assert.Equal(t, "310", boxValue(t, body, "bowl-1-empty"))
	same := url.Values{"once": {"x"}, "planting": {"tub-3"}, "unit": {"kg"}, "bowl-1-full": {"1.46"}, "bowl-1-empty": {"0.31"}, "bowl-2-full": {"0.98"}, "same": {"1"}}
	body = g.post("/weigh", same).Body.String()
	assert.Equal(t, "0.31", boxValue(t, body, "bowl-2-empty"))
	assert.Contains(t, body, "1.82 kg net so far")
	assert.Equal(t, 1, g.entries(), "nothing is written by adding up")
}

// Touches and keys, in a browser: three bowls take at most ten touches and
// nothing but digits, a cooked batch three touches, a correction four.
func TestTouchesAreFew(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, handset)
	dir := newPlot(t)
	address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: dir, Device: func() string { return "aaaaaa" }}, Now: ticking()})
	touches := 0
	touch := func(selector string) { touches++; b.Follow(selector) }
	fill := func(selector, digits string) {
		touches++ // the box
		require.Empty(t, strings.Trim(digits, "0123456789."), "digits only")
		b.Fill(selector, digits)
	}
	b.Open(address + "/weigh")
	for _, row := range []string{"1", "2", "3"} {
		fill("#bowl-"+row+"-full", "0."+row+"6")
		fill("#bowl-"+row+"-empty", "0.01")
	}
	touch("#write > button")
	require.Contains(t, b.Text(".done"), "750 g from tub-3 written down.")
	t.Logf("three bowls, the first time: %d touches", touches)
	assert.LessOrEqual(t, touches, 10)

	touches = 0
	b.Open(address + "/weigh") // the bowl is remembered
	for _, row := range []string{"1", "2", "3"} {
		fill("#bowl-"+row+"-full", "0."+row+"5")
	}
	touch("[name=same]")
	touch("#write > button")
	t.Logf("three bowls of the same kind: %d touches", touches)
	assert.LessOrEqual(t, touches, 10)

	touches = 0
	touch(".entry a") // correct
	fill("#bowl-1-full", "0.14")
	touch("#write > button")
	t.Logf("a correction: %d touches", touches)
	assert.LessOrEqual(t, touches, 4)
	assert.Equal(t, 3, countEntries(t, dir))

	b.Open(address + "/share?go=1&serve=18:30&dish=" + strings.ReplaceAll(crushed, " ", "+"))
	b.Follow("#record button")
	touches = 0
	b.Open(address + "/fridge")
	touch(".planned button")
	t.Logf("a cooked batch: %d touches", touches)
	assert.LessOrEqual(t, touches, 3)
	assert.Contains(t, b.Text(".batch h2"), crushed)
	touch(".batch button") // into the fridge
	assert.Contains(t, b.Text(".done"), crushed)
	assertAccessible(t, b, "fridge")
}
