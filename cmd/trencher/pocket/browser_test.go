package pocket

import (
	"bytes"
	"cmp"
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/cmd/trencher/webdriver"
	"trencher/harvest/journal"
)

// needLive leaves what compiles the program and drives a browser, which takes
// minutes, to the runs that must find one.
func needLive(t *testing.T) {
	t.Helper()
	if os.Getenv("TRENCHER_LIVE") != "1" {
		t.Skip("TRENCHER_LIVE=1 compiles the program and opens it in a browser")
	}
}

// made is the program, compiled once for all tests.
var made = sync.OnceValues(func() (Program, error) { return Make(context.Background()) })

// homePlot is a plot at home, begun from the demo as if yesterday: at whatever
// hour a test runs, all of it has been lifted.
func homePlot(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "garden")
	files, err := journal.Redated(demo.Plot(), demo.Day(), time.Now().AddDate(0, 0, -1))
	require.NoError(t, err)
	_, err = journal.Begin(dir, files)
	require.NoError(t, err)
	return dir
}

func parcelOf(t *testing.T, dir string) []byte {
	t.Helper()
	return parcelAt(t, dir, time.Now())
}

func parcelAt(t *testing.T, dir string, now time.Time) []byte {
	t.Helper()
	var packed bytes.Buffer
	_, err := ask.Pack(t.Context(), &packed, ask.PlotRef{Dir: dir, Now: now}, journal.WholePlot)
	require.NoError(t, err)
	return packed.Bytes()
}

// servePhone shows the folder of a pocket until the test ends or it is closed.
func servePhone(t *testing.T, home string) *httptest.Server {
	t.Helper()
	program, err := made()
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "phone")
	require.NoError(t, WriteFolder(dir, program, parcelOf(t, home)))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(server.Close)
	return server
}

// waitFor waits until a script says true.
func waitFor(t *testing.T, b *webdriver.Browser, script string) {
	t.Helper()
	for until := time.Now().Add(90 * time.Second); time.Now().Before(until); time.Sleep(50 * time.Millisecond) {
		var got bool
		if b.Try("POST", "/execute/sync", map[string]any{"script": script, "args": []any{}}, &got) == nil && got {
			return
		}
	}
	var last string
	b.Eval("return document.body.innerText", &last)
	t.Fatal("never came true: ", script, "\n", last)
}

// waitForTitle waits until a screen is shown that can be worked with, not one as
// it stood last.
func waitForTitle(t *testing.T, b *webdriver.Browser, title string) {
	t.Helper()
	waitFor(t, b, `return document.title.startsWith("`+title+`") && !document.getElementById("starting")`)
}

// goOffline takes the network from a browser.
func goOffline(b *webdriver.Browser) {
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Network.enable", "params": map[string]any{}}, nil)
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Network.emulateNetworkConditions",
		"params": map[string]any{"offline": true, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0}}, nil)
}

// First visit; then the server is gone and the network off, and the whole job is
// done on the phone: weighed in, shared out, tested with the knife, cooked, the
// leftovers logged, and all of it taken home.
func TestADayWithoutANetwork(t *testing.T) {
	needLive(t)
	home := homePlot(t)
	server := servePhone(t, home)
	b := startPhone(t, server.URL)
	waitFor(t, b, `return navigator.serviceWorker.controller !== null`)
	server.Close()
	goOffline(b)
	b.Open(server.URL + "/#/weigh")
	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "Weigh in")
	b.Choose("#planting", "bed-2")
	b.Fill("[name=bowl-1-full]", "1.46")
	b.Fill("[name=bowl-1-empty]", "0.31")
	b.Picture("pocket-weigh")
	b.Click("#write button:not([name])")
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text(".done"), "1.15 kg from bed-2 written down.")
	b.Picture("pocket-stock")

	visit(t, b, "/share", "Share out")
	turn(t, b, func() { b.Click("button[name=go]") })
	waitForTitle(t, b, "Share out")
	assert.Contains(t, b.Text("main"), "portions")
	assert.Contains(t, b.Text("main"), "The timetable")
	assert.NotEmpty(t, saved(t, b, "a[href^='/share/calendar']", "trencher-*.ics"))
	b.Picture("pocket-share")
	turn(t, b, func() { b.Click("a[href^='/share/sheet']") })
	waitFor(t, b, `return document.querySelector("a.back") !== null`)
	turn(t, b, func() { b.Click("a.back") })
	waitForTitle(t, b, "Share out")
	turn(t, b, func() { b.Click("#record button") })
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text(".done"), "Written down as used.")

	visit(t, b, "/steam", "Steaming times")
	b.Fill("#size", "25")
	turn(t, b, func() { b.Click("form[action='/steam']:not([method=post]) button") })
	waitForTitle(t, b, "Steaming times")
	b.Fill("#minutes", "9")
	turn(t, b, func() { b.Click("form[action='/steam'][method=post] button") })
	waitForTitle(t, b, "Steaming times")
	assert.Contains(t, b.Text(".done"), "9 min")

	for _, event := range []struct{ happened, amount, says string }{
		{"was cooked", "4", "Written down: Spring onion mash."},
		{"went into the fridge", "", "Written down: Spring onion mash."},
		{"was eaten", "1", "Written down: Spring onion mash."},
	} {
		visit(t, b, "/fridge", "In the fridge")
		b.Fill("#name", "Spring onion mash")
		b.Choose("#event", event.happened)
		b.Fill("#amount", event.amount)
		turn(t, b, func() { b.Click("#write button") })
		waitForTitle(t, b, "In the fridge")
		assert.Contains(t, b.Text(".done"), event.says, event.happened)
	}
	assert.Contains(t, b.Text(".batch"), "Eat it by", "the leftovers")
	b.Picture("pocket-fridge")

	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "In the fridge")
	assert.Contains(t, b.Text(".batch"), "Eat it by", "after a reload")
	parcel := takeHome(t, b, "6 entries, 1150 g lifted")
	b.Picture("pocket-carry")
	brought, err := ask.Bring(t.Context(), ask.PlotRef{Dir: home, Now: time.Now()}, readParcel(t, parcel), journal.KeepOwn)
	require.NoError(t, err)
	assert.Equal(t, 6, brought.Entries)
	assert.Equal(t, "1150", brought.Net.String())
	batches, err := ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: ask.PlotRef{Dir: home, Now: time.Now()}})
	require.NoError(t, err)
	require.Len(t, batches.Batches, 1)
	assert.Equal(t, "3", batches.Batches[0].Left.String())
}

// An outside checker finds nothing wrong in any screen of the phone, by day, by
// night and in type twice as large, which never has to be moved sideways to be
// read (WCAG 2.2, 1.4.4 and 1.4.10).
func TestScreensOfThePhone(t *testing.T) {
	needLive(t)
	server := servePhone(t, homePlot(t))
	for name, look := range map[string]webdriver.Look{"light": {}, "dark": {Dark: true}, "large": {Type: 32}} {
		t.Run(name, func(t *testing.T) {
			look.Width, look.Height, look.Scripts = 390, 844, true
			b := webdriver.Start(t, look)
			b.Open(server.URL + "/")
			waitForTitle(t, b, "On hand")
			var paths []string
			b.Eval(`return [...document.querySelectorAll("#jobs a")].map(a => a.getAttribute("href"))`, &paths)
			require.Greater(t, len(paths), 8)
			for _, path := range append(paths, "/settle", "/share/sheet?go=1&dish=Spring+onion+mash", "/share?go=1&dish=Spring+onion+mash", "/dish?name=Spring+onion+mash&portions=4", "/steam?crop=potato%2C+waxy&cut=cube&size=25&until=tender", "/weigh", "/none") {
				turn(t, b, func() { b.Eval(`location.hash = "#`+path+`"`, nil) })
				waitFor(t, b, `return !document.getElementById("working")`)
				assert.Empty(t, b.Violations(), "%s, %s", path, name)
				var wide struct{ Type, Wide float64 }
				b.Eval(`return {type: parseFloat(getComputedStyle(document.documentElement).fontSize), wide: document.documentElement.scrollWidth - document.documentElement.clientWidth}`, &wide)
				assert.LessOrEqual(t, wide.Wide, 0.0, "%s, %s", path, name)
				assert.Equal(t, float64(cmp.Or(look.Type, 16)), wide.Type, "%s, %s", path, name)
				b.Picture("pocket-" + name + "-" + strings.Trim(strings.NewReplacer("/", "-", "?", "-", "&", "-", "=", "-", "+", "-", "%", "-").Replace(path), "-"))
			}
		})
	}
}
