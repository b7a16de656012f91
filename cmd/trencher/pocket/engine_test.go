package pocket

import (
	"archive/zip"
	"bytes"
	_ "embed"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/webdriver"
)

//go:embed testdata/drive.html
var drivePage string

// driven is a server that shows a pocket with the tests' own page beside it,
// and hears what that page tells.
type driven struct {
	*httptest.Server
	mu     sync.Mutex
	acked  map[int]bool
	parcel []byte
}

func serveDriven(t *testing.T, home string) *driven {
	t.Helper()
	program, err := made()
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "phone")
	require.NoError(t, WriteFolder(dir, program, parcelOf(t, home)))
	d := &driven{acked: map[int]bool{}}
	mux := http.NewServeMux()
	mux.Handle("GET /", http.FileServer(http.Dir(dir)))
	mux.HandleFunc("GET /drive.html", func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, drivePage) })
	mux.HandleFunc("POST /acked", func(_ http.ResponseWriter, r *http.Request) {
		text, _ := io.ReadAll(r.Body)
		grams, err := strconv.Atoi(string(text))
		d.mu.Lock()
		defer d.mu.Unlock()
		d.acked[grams] = err == nil
	})
	mux.HandleFunc("POST /parcel", func(_ http.ResponseWriter, r *http.Request) {
		data, _ := io.ReadAll(r.Body)
		d.mu.Lock()
		defer d.mu.Unlock()
		d.parcel = data
	})
	d.Server = httptest.NewServer(mux)
	t.Cleanup(d.Close)
	return d
}

func (d *driven) count() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return len(d.acked)
}

// do runs a step of the tests' page and waits until it is over.
func do(t *testing.T, b *webdriver.Browser, step string) {
	t.Helper()
	b.Eval(`document.title = "busy"; done((async () => { `+step+` })())`, nil)
	waitFor(t, b, `return document.title !== "busy"`)
	var title string
	b.Eval("return document.title", &title)
	require.Equal(t, "done", title)
}

// The browser is killed at random moments while lifts are weighed in, in rounds
// that each begin with a phone of their own. Nothing that was answered as written
// is lost, nothing is there twice or torn.
func TestKilledBrowserLosesNothing(t *testing.T) {
	needLive(t)
	rounds, kills := 1, 5
	switch os.Getenv("TRENCHER_LONG") {
	case "1":
		kills = 40
	case "full":
		rounds, kills = 10, 20
	}
	for round := range rounds {
		t.Run(fmt.Sprint("round ", round+1), func(t *testing.T) { killWhileWriting(t, rand.New(rand.NewPCG(21, uint64(round+1))), kills) })
	}
}

func killWhileWriting(t *testing.T, random *rand.Rand, kills int) {
	d := serveDriven(t, homePlot(t))
	profile := t.TempDir()
	for kill := range kills {
		b := webdriver.Start(t, webdriver.Look{Width: 600, Scripts: true, Profile: profile})
		b.Open(d.URL + "/drive.html")
		do(t, b, "await startEngine()")
		before := d.count()
		b.Eval(fmt.Sprintf("weighFrom(%d)", 100000+1000*kill), nil)
		require.Eventually(t, func() bool { return d.count() > before }, 60*time.Second, time.Millisecond)
		time.Sleep(time.Duration(random.IntN(400)) * time.Millisecond)
		b.Kill()
	}
	b := webdriver.Start(t, webdriver.Look{Width: 600, Scripts: true, Profile: profile})
	b.Open(d.URL + "/drive.html")
	do(t, b, "await startEngine(); await sendHome()")
	weights := liftsIn(t, d.parcel)
	require.Greater(t, len(d.acked), kills-1)
	t.Logf("%d kills, %d lifts answered as written, %d there", kills, len(d.acked), len(weights))
	for grams := range d.acked {
		assert.Equal(t, 1, weights[grams], "%d g was answered as written", grams)
	}
	for grams, times := range weights {
		assert.Equal(t, 1, times, "%d g stands there twice", grams)
	}
}

// liftsIn counts the lifts of a parcel by their weight, each of which must be
// a whole entry.
func liftsIn(t *testing.T, parcel []byte) map[int]int {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(parcel), int64(len(parcel)))
	require.NoError(t, err)
	gross := regexp.MustCompile(`gross: (\d{6}) g`)
	weights := map[int]int{}
	for _, each := range in.File {
		r, err := each.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		if !strings.HasPrefix(each.Name, "journal/") {
			continue
		}
		require.True(t, strings.HasSuffix(string(data), "...\n") || !strings.HasPrefix(string(data), "---"), each.Name)
		if found := gross.FindSubmatch(data); found != nil {
			grams, err := strconv.Atoi(string(found[1]))
			require.NoError(t, err)
			weights[grams]++
		}
	}
	return weights
}

// A full store refuses the entry in words, and keeps what was there.
func TestFullStore(t *testing.T) {
	needLive(t)
	d := serveDriven(t, homePlot(t))
	b := webdriver.Start(t, webdriver.Look{Width: 600, Scripts: true})
	b.Open(d.URL + "/drive.html")
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Storage.overrideQuotaForOrigin",
		"params": map[string]any{"origin": d.URL, "quotaSize": 12 << 20}}, nil)
	do(t, b, `await startEngine(); await weigh(1600); await fillStore()`)
	do(t, b, `return textOf("POST", "/weigh", { planting: "bed-2", unit: "g", "bowl-1-full": "1700", "bowl-1-empty": "100" })`)
	var got struct {
		Status int
		Text   string
	}
	b.Eval("return window.came", &got)
	assert.Equal(t, http.StatusUnprocessableEntity, got.Status)
	assert.Contains(t, got.Text, "the disk is full")
	assert.Contains(t, got.Text, "1700", "what was typed stays")
	do(t, b, `return textOf("GET", "/carry")`)
	b.Eval("return window.came", &got)
	assert.Contains(t, got.Text, "Not taken home yet: 1 entry, 1500 g lifted.")
}

// Two windows of one phone are two devices: each sees what the other wrote, and
// neither takes the other's name.
func TestTwoWindows(t *testing.T) {
	needLive(t)
	d := serveDriven(t, homePlot(t))
	b := webdriver.Start(t, webdriver.Look{Width: 600, Scripts: true})
	b.Open(d.URL + "/drive.html")
	do(t, b, `await startEngine(); window.first = engine; await startEngine();
		const second = engine;
		for (let n = 0; n < 6; n++) {
			const form = grams => ({ planting: "bed-2", unit: "g", "bowl-1-full": String(grams), "bowl-1-empty": "100" });
			engine = first; const one = put("POST", "/weigh", form(100200 + 2 * n));
			engine = second; const other = put("POST", "/weigh", form(100201 + 2 * n));
			for (const answer of await Promise.all([one, other])) if (answer.status !== 303 && answer.status !== 422) throw new Error("status " + answer.status);
			engine = first; await weigh(100200 + 2 * n);
			engine = second; await weigh(100201 + 2 * n);
		}
		await sendHome()`)
	weights := liftsIn(t, d.parcel)
	for grams := 100200; grams < 100212; grams++ {
		assert.Positive(t, weights[grams], grams)
	}
}

// What this phone wrote last can be taken back on it, after a reload too.
func TestUndoOnThePhone(t *testing.T) {
	needLive(t)
	d := serveDriven(t, homePlot(t))
	b := webdriver.Start(t, webdriver.Look{Width: 600, Scripts: true})
	b.Open(d.URL + "/drive.html")
	do(t, b, `await startEngine(); await weigh(1600)`)
	b.Ask("POST", "/refresh", nil, nil)
	do(t, b, `await startEngine(); return textOf("GET", "/undo")`)
	var got struct {
		Status int
		Text   string
	}
	b.Eval("return window.came", &got)
	assert.Equal(t, http.StatusOK, got.Status)
	assert.Contains(t, got.Text, "1.50 kg")
}

// isRehearsed is a script that tells whether a plan was rehearsed.
const isRehearsed = `return performance.getEntriesByName("rehearsed").length > 0`

// While the first screen is read a plan is rehearsed. It leaves no trace: what the
// phone's store holds stays as it is, byte for byte.
func TestRehearsalLeavesNoTrace(t *testing.T) {
	needLive(t)
	b := startPhone(t, servePhone(t, homePlot(t)).URL)
	weighIn(t, b, "bed-2", "1.46", "0.31", "1.15 kg from bed-2")
	b.Open("about:blank")
	plot := func(b *webdriver.Browser) []byte {
		visit(t, b, "/carry", "To and from home")
		return readParcel(t, saved(t, b, "a[href='/carry/plot']", parcelNames))
	}
	b.Ask("POST", "/back", nil, nil)
	waitForTitle(t, b, "On hand")
	before := plot(b)
	waitFor(t, b, isRehearsed)
	assert.Equal(t, before, plot(b))
	visit(t, b, "/share", "Share out")
	turn(t, b, func() { b.Click("button[name=go]") })
	waitForTitle(t, b, "Share out")
	assert.Contains(t, b.Text("main"), "The timetable")
}

// The one file, opened from the phone's own storage, works and keeps what was
// written.
func TestOneFileFromDisk(t *testing.T) {
	needLive(t)
	program, err := made()
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "phone.html")
	var text bytes.Buffer
	require.NoError(t, WriteOneFile(&text, program, parcelOf(t, homePlot(t))))
	require.NoError(t, os.WriteFile(file, text.Bytes(), 0o644))
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open("file://" + file + "#/weigh")
	waitForTitle(t, b, "Weigh in")
	waitFor(t, b, isRehearsed)
	b.Choose("#planting", "bed-2")
	b.Fill("[name=bowl-1-full]", "1.46")
	b.Fill("[name=bowl-1-empty]", "0.31")
	b.Click("#write button:not([name])")
	waitForTitle(t, b, "On hand")
	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "On hand")
	b.Click("a[href='/carry']")
	waitForTitle(t, b, "To and from home")
	assert.Contains(t, b.Text(".answer"), "1 entry, 1150 g lifted")
}

// Where the browser keeps nothing, every screen says so in red and offers to
// save.
func TestNoLastingStoreIsSaid(t *testing.T) {
	needLive(t)
	program, err := made()
	require.NoError(t, err)
	var text bytes.Buffer
	require.NoError(t, WriteOneFile(&text, program, parcelOf(t, homePlot(t))))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/phone.html" {
			w.Header().Set("Content-Security-Policy", "sandbox allow-scripts allow-forms allow-downloads") // an origin of its own, without a store
			w.Write(text.Bytes())
		}
	}))
	defer server.Close()
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open(server.URL + "/phone.html")
	for _, screen := range []struct{ link, title string }{{"", "On hand"}, {"/weigh", "Weigh in"}, {"/carry", "To and from home"}} {
		if screen.link != "" {
			b.Click("nav a[href='" + screen.link + "']")
		}
		waitForTitle(t, b, screen.title)
		assert.Contains(t, b.Text(".not-kept"), "Nothing stays here once this page is closed")
		assert.Contains(t, b.Text(".not-kept a"), "Take home")
	}
	b.Picture("pocket-not-kept")
}
