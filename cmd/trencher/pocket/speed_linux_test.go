package pocket

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/webdriver"
)

// mostDownload is the most bytes a phone has to load the first time (a goal of
// ours: a minute on a slow line).
const mostDownload = 6_000_000

func TestDownloadIsSmall(t *testing.T) {
	needLive(t)
	program, err := made()
	require.NoError(t, err)
	files := folderFiles(program, parcelOf(t, homePlot(t)))
	total := 0
	for _, each := range files {
		total += len(each.data)
	}
	t.Logf("%.2f MB to load", float64(total)/1e6)
	assert.LessOrEqual(t, total, mostDownload)
}

// asSlowAsAPhone is how many times slower than this machine a phone is taken to
// be.
const asSlowAsAPhone = 4

// TestHowQuickAPhoneIs measures, and asserts no time, with the whole browser as
// slow as a phone: the first screen from the phone's store (as it stood, and
// worked out anew), a weighing until it is written, the demo's plan.
func TestHowQuickAPhoneIs(t *testing.T) {
	needLive(t)
	d := serveDriven(t, homePlot(t))
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open(d.URL + "/")
	waitForTitle(t, b, "On hand")
	for _, slower := range []int{1, asSlowAsAPhone} {
		for range 3 {
			worked, end := b.Worked(), b.Slow(slower)
			b.Ask("POST", "/refresh", nil, nil)
			waitForTitle(t, b, "On hand")
			end()
			worked = b.Worked() - worked
			var stood, shown float64
			b.Eval(`return performance.getEntriesByName("stood")[0].startTime`, &stood)
			b.Eval(`return performance.getEntriesByName("shown").at(-1).startTime`, &shown)
			t.Logf("%d times slower, load %s: first screen after %.0f ms as it stood, after %.0f ms anew; %s of work", slower, load(t), stood, shown, worked)
		}
	}
	b = webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true}) // without the service worker, which knows no page of the tests
	b.Open(d.URL + "/drive.html")
	do(t, b, "await startEngine()")
	defer b.Slow(asSlowAsAPhone)()
	for _, job := range []struct{ name, step string }{
		{"what is on hand", `await put("GET", "/")`},
		{"a weighing, written", `await weigh(1300)`},
		{"another weighing", `await weigh(1310)`},
		{"the demo's plan without the page around it", `await plan("18:30")`},
		{"the same again", `await plan("19:00")`},
	} {
		var took float64
		do(t, b, fmt.Sprintf("const begun = performance.now(); %s; return performance.now() - begun", job.step))
		b.Eval("return window.came", &took)
		t.Logf("%d times slower, load %s: %s after %.0f ms", asSlowAsAPhone, load(t), job.name, took)
	}
}

// TestHowQuickAPlanIs measures, and asserts no time, with the whole browser as
// slow as a phone, on the page as it is used: the demo's plan asked at once and
// once the first screen was read, on the first visit and when it is opened again;
// and a weighing while the plan is rehearsed.
func TestHowQuickAPlanIs(t *testing.T) {
	needLive(t)
	server := servePhone(t, homePlot(t))
	for _, read := range []bool{false, true} {
		b := startPhone(t, server.URL)
		for _, visit := range []string{"first visit", "opened again", "opened a third time"} {
			end := b.Slow(asSlowAsAPhone)
			if visit != "first visit" {
				b.Open("about:blank")
				b.Open(server.URL + "/")
				waitForTitle(t, b, "On hand")
			}
			how, begun := "at once", time.Now()
			if read {
				how = "after reading"
				form, weighed := timed(t, b, `document.querySelector("nav a[href='/weigh']").click()`), 0.0
				b.Eval(`document.getElementById("planting").value = "bed-2";
					document.querySelector("[name=bowl-1-full]").value = "1.46"; document.querySelector("[name=bowl-1-empty]").value = "0.31"`, nil)
				weighed = timed(t, b, `document.querySelector("#write button:not([name])").click()`)
				waitFor(t, b, isRehearsed)
				t.Logf("%s: meanwhile the form to weigh in after %.0f ms, weighed, written and the stock shown after %.0f ms; rehearsed %.1f s after the first screen",
					visit, form, weighed, time.Since(begun).Seconds())
			}
			form := timed(t, b, `document.querySelector("nav a[href='/share']").click()`)
			plan := timed(t, b, `document.querySelector("button[name=go]").click()`)
			again := timed(t, b, `document.querySelector("button[name=go]").click()`)
			end()
			require.Contains(t, b.Text("main"), "The timetable")
			t.Logf("%d times slower, load %s, %s, %s: the form after %.0f ms, the demo's plan after %.0f ms, again after %.0f ms",
				asSlowAsAPhone, load(t), visit, how, form, plan, again)
		}
	}
}

// timed is how many milliseconds a step takes until the screen that comes of it
// is shown.
func timed(t *testing.T, b *webdriver.Browser, step string) (took float64) {
	t.Helper()
	b.Eval(`window.took = null; const marks = () => performance.getEntriesByName("shown"), before = marks().length, begun = performance.now();
		`+step+`;
		(function look() { if (marks().length > before) window.took = marks().at(-1).startTime - begun; else setTimeout(look, 10); })()`, nil)
	waitFor(t, b, `return window.took !== null`)
	b.Eval(`return window.took`, &took)
	return took
}

// load is how many processes have wanted to run on this machine in the last
// minute.
func load(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("/proc/loadavg")
	require.NoError(t, err)
	minute, _, _ := strings.Cut(string(text), " ")
	return minute
}
