package pocket

import (
	"bytes"
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

// homePlot is a plot at home, begun from the demo with today's dates.
func homePlot(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "garden")
	files, err := journal.Redated(demo.Plot(), demo.Day(), time.Now())
	require.NoError(t, err)
	_, err = journal.Begin(dir, files)
	require.NoError(t, err)
	return dir
}

func parcelOf(t *testing.T, dir string) []byte {
	t.Helper()
	var packed bytes.Buffer
	_, err := ask.Pack(t.Context(), &packed, ask.PlotRef{Dir: dir, Now: time.Now()}, journal.WholePlot)
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
	var last string
	for until := time.Now().Add(90 * time.Second); time.Now().Before(until); time.Sleep(50 * time.Millisecond) {
		var got bool
		if b.Try("POST", "/execute/sync", map[string]any{"script": script, "args": []any{}}, &got) == nil && got {
			return
		}
		b.Eval("return document.body.innerText", &last)
	}
	t.Fatal("never came true: ", script, "\n", last)
}

// waitForTitle waits until a screen is shown that can be worked with, not one as
// it stood last.
func waitForTitle(t *testing.T, b *webdriver.Browser, title string) {
	t.Helper()
	waitFor(t, b, `return document.title.startsWith("`+title+`") && !document.getElementById("starting")`)
}

// First visit; then the server is gone and the network off, and the job goes on
// from weighing in to taking home.
func TestADayWithoutANetwork(t *testing.T) {
	needLive(t)
	home := homePlot(t)
	server := servePhone(t, home)
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open(server.URL + "/")
	waitForTitle(t, b, "On hand")
	waitFor(t, b, `return navigator.serviceWorker.controller !== null`)
	address := server.URL
	server.Close()
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Network.enable", "params": map[string]any{}}, nil)
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Network.emulateNetworkConditions",
		"params": map[string]any{"offline": true, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0}}, nil)
	b.Open(address + "/#/weigh")
	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "Weigh in")
	b.Choose("#planting", "bed-2")
	b.Fill("[name=bowl-1-full]", "1.46")
	b.Fill("[name=bowl-1-empty]", "0.31")
	assert.Empty(t, b.Violations())
	b.Picture("pocket-weigh")
	b.Click("form button:not([name])")
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text(".done"), "1.15 kg from bed-2 written down.")
	assert.Empty(t, b.Violations())
	b.Picture("pocket-stock")

	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "On hand")
	assert.True(t, strings.HasSuffix(b.Address(), "#/") || strings.Contains(b.Address(), "#/?done="), b.Address())

	downloads := t.TempDir()
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Browser.setDownloadBehavior",
		"params": map[string]any{"behavior": "allow", "downloadPath": downloads}}, nil)
	b.Click("a[href='/carry']")
	waitForTitle(t, b, "To and from home")
	assert.Contains(t, b.Text(".answer"), "Not taken home yet: 1 entry, 1.15 kg lifted.")
	assert.Empty(t, b.Violations())
	b.Picture("pocket-carry")
	b.Click("form[action='/carry/home'] button")
	var parcel string
	require.Eventually(t, func() bool {
		found, _ := filepath.Glob(filepath.Join(downloads, "trencher-*.zip"))
		if len(found) == 1 {
			parcel = found[0]
		}
		return len(found) == 1
	}, 20*time.Second, 50*time.Millisecond)
	waitFor(t, b, `return document.querySelector(".answer").innerText.includes("nothing")`)

	data, err := os.ReadFile(parcel)
	require.NoError(t, err)
	brought, err := ask.Bring(t.Context(), ask.PlotRef{Dir: home, Now: time.Now()}, data, journal.KeepOwn)
	require.NoError(t, err)
	assert.Equal(t, 1, brought.Entries)
	assert.Equal(t, "1150", brought.Net.String())
}
