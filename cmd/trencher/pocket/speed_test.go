package pocket

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/webdriver"
)

// mostDownload is the most bytes a phone has to load the first time (a goal of
// ours: a minute on a slow line).
const mostDownload = 6 << 20

func TestDownloadIsSmall(t *testing.T) {
	needLive(t)
	program, err := made()
	require.NoError(t, err)
	files, err := folderFiles(program, parcelOf(t, homePlot(t)))
	require.NoError(t, err)
	total := 0
	for _, each := range files {
		total += len(each.data)
	}
	t.Logf("%.2f MB to load", float64(total)/(1<<20))
	assert.LessOrEqual(t, total, mostDownload)
}

// TestHowQuickAPhoneIs measures, and asserts nothing: the first screen from the
// phone's store, a weighing until it is written, the demo's plan. A phone is
// taken to be four times as slow as this machine.
func TestHowQuickAPhoneIs(t *testing.T) {
	needLive(t)
	d := serveDriven(t, homePlot(t))
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open(d.URL + "/")
	waitForTitle(t, b, "On hand")
	waitFor(t, b, `return navigator.serviceWorker.controller !== null`)
	begun := time.Now()
	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "On hand")
	t.Logf("first screen from the store: %s, four times that on a phone", time.Since(begun).Round(10*time.Millisecond))
	b = webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true}) // without the service worker, which knows no page of the tests
	b.Open(d.URL + "/drive.html")
	do(t, b, "await startEngine()")
	for name, step := range map[string]string{
		"a weighing, written":    `await weigh(1300)`,
		"the demo's plan":        `await put("GET", "/share")`,
		"the demo's plan, again": `await put("GET", "/share?serve-at=19:00")`,
		"what is on hand":        `await put("GET", "/")`,
	} {
		var took float64
		do(t, b, fmt.Sprintf("const begun = performance.now(); %s; return performance.now() - begun", step))
		b.Eval("return window.came", &took)
		t.Logf("%s: %.0f ms, four times that on a phone", name, took)
	}
}
