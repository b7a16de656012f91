package pocket

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/page"
	"trencher/cmd/trencher/webdriver"
	"trencher/harvest"
	"trencher/harvest/journal"
)

// servePlot shows the page of a plot at home until the test ends.
func servePlot(t *testing.T, dir string) (address string) {
	t.Helper()
	listener, err := page.Listen(0, false)
	require.NoError(t, err)
	served, err := page.New(page.Options{Where: ask.PlotRef{Dir: dir}, Port: listener.Port()})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- served.Serve(ctx, listener) }()
	t.Cleanup(func() {
		stop()
		assert.NoError(t, <-ended)
	})
	return listener.Addresses()[0]
}

// turn does what leads to another screen and waits until the one shown is gone.
func turn(t *testing.T, b *webdriver.Browser, act func()) {
	t.Helper()
	shown := b.Element("main")
	act()
	require.Eventually(t, func() bool { return b.Try("GET", shown+"/name", nil, nil) != nil }, 30*time.Second, 50*time.Millisecond, "another screen")
}

// visit goes to a screen of a phone by its link.
func visit(t *testing.T, b *webdriver.Browser, path, title string) {
	t.Helper()
	turn(t, b, func() { b.Click("nav a[href='" + path + "']") })
	waitForTitle(t, b, title)
}

// saved is the file that a click makes the browser save, under a name like this.
func saved(t *testing.T, b *webdriver.Browser, selector, name string) (file string) {
	t.Helper()
	folder := t.TempDir()
	b.Keep(folder)
	b.Click(selector)
	require.Eventually(t, func() bool {
		found, _ := filepath.Glob(filepath.Join(folder, name))
		if len(found) == 1 {
			file = found[0]
		}
		return len(found) == 1
	}, 30*time.Second, 50*time.Millisecond)
	return file
}

const parcelNames = "trencher-*.zip"

// takeHome saves what a phone has written down and not given away yet.
func takeHome(t *testing.T, b *webdriver.Browser, carries string) (file string) {
	t.Helper()
	visit(t, b, "/carry", "To and from home")
	assert.Contains(t, b.Text(".answer"), "Not taken home yet: "+carries+".")
	file = saved(t, b, "form[action='/carry/home'] button", parcelNames)
	waitFor(t, b, `return document.querySelector(".answer").innerText.includes("nothing")`)
	return file
}

// bringIn takes a file in on the screen of a phone, or of the page at home, and
// returns what it says.
func bringIn(t *testing.T, b *webdriver.Browser, file string) string {
	t.Helper()
	b.Attach("#parcel", file)
	turn(t, b, func() { b.Click("form[action='/carry'] button") })
	waitFor(t, b, `return document.querySelector(".done, .mend") !== null`)
	return b.Text(".done")
}

// weighIn weighs one bowl in on a phone's screen.
func weighIn(t *testing.T, b *webdriver.Browser, planting, full, empty, says string) {
	t.Helper()
	visit(t, b, "/weigh", "Weigh in")
	b.Choose("#planting", planting)
	b.Fill("[name=bowl-1-full]", full)
	b.Fill("[name=bowl-1-empty]", empty)
	b.Click("#write button:not([name])")
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text(".done"), says)
}

// takeOut takes some of a lot to the kitchen.
func takeOut(t *testing.T, b *webdriver.Browser, lot, kilograms string) {
	t.Helper()
	visit(t, b, "/take", "Take out")
	b.Choose("#lot", lot)
	b.Fill("[name=weight]", kilograms)
	b.Click("#write button")
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text(".done"), "taken out")
}

// startPhone opens a pocket in a browser of its own.
func startPhone(t *testing.T, address string) *webdriver.Browser {
	t.Helper()
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open(address + "/")
	waitForTitle(t, b, "On hand")
	return b
}

func readParcel(t *testing.T, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	return data
}

// Two phones and the plot at home write without knowing of each other: each
// weighs in, all take from one lot. In whatever order the files come home, by
// the command or by the page, the plot becomes the same, byte for byte; it goes
// back to both phones by the same file, and all three give one account, to the
// gram.
func TestTwoPhonesAndHome(t *testing.T) {
	needLive(t)
	began := homePlot(t)
	server := servePhone(t, began)
	first, second := startPhone(t, server.URL), startPhone(t, server.URL)

	weighIn(t, first, "bed-2", "1.46", "0.31", "1.15 kg from bed-2")
	takeOut(t, first, "890 g potato", "0.6")
	weighIn(t, second, "tub-1", "0.842", "0", "842 g from tub-1")
	takeOut(t, second, "890 g potato", "0.4")
	fromFirst := takeHome(t, first, "2 entries, 1150 g lifted")
	fromSecond := takeHome(t, second, "2 entries, 842 g lifted")

	clock := time.Now()
	plots := t.TempDir()
	var plot string
	write := map[string]func(dir string){
		"first phone":  func(dir string) { bring(t, dir, fromFirst, "1150") },
		"second phone": func(dir string) { bring(t, dir, fromSecond, "842") },
		"home": func(dir string) {
			where := ask.PlotRef{Dir: dir, Now: clock, Sure: true}
			_, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: where, LiftWords: harvest.LiftWords{Planting: "bed-3", Weighings: []string{"655 g"}}})
			require.NoError(t, err)
		},
	}
	var whole []byte
	for _, order := range [][]string{
		{"first phone", "second phone", "home"}, {"first phone", "home", "second phone"},
		{"second phone", "first phone", "home"}, {"second phone", "home", "first phone"},
		{"home", "first phone", "second phone"}, {"home", "second phone", "first phone"},
	} {
		plot = filepath.Join(plots, order[0]+", "+order[1]+", "+order[2])
		require.NoError(t, os.CopyFS(plot, os.DirFS(began)))
		for _, each := range order {
			write[each](plot)
		}
		if whole == nil {
			whole = parcelOf(t, plot)
		}
		assert.Equal(t, whole, parcelOf(t, plot), "the order changes nothing: %v", order)
	}

	home := webdriver.Start(t, webdriver.Look{Width: 900})
	plot = filepath.Join(plots, "by the page")
	require.NoError(t, os.CopyFS(plot, os.DirFS(began)))
	write["home"](plot)
	address := servePlot(t, plot)
	home.Open(address + "carry")
	assert.Contains(t, bringIn(t, home, fromSecond), "Brought: 2 entries, 842 g lifted.")
	home.Open(address + "carry")
	assert.Contains(t, bringIn(t, home, fromFirst), "Brought: 2 entries, 1150 g lifted.")
	home.Open(address + "carry")
	again := bringIn(t, home, fromFirst)
	assert.Contains(t, again, "Brought: nothing.")
	assert.Contains(t, again, "2 files were here already.")
	assert.Equal(t, whole, parcelOf(t, plot), "the page brings what the command brings")

	home.Open(address + "carry")
	newer := saved(t, home, "a[href='/carry/plot']", parcelNames)
	assert.Equal(t, whole, readParcel(t, newer))
	visit(t, first, "/carry", "To and from home")
	assert.Contains(t, bringIn(t, first, newer), "Brought: 3 entries, 1497 g lifted.", "842 g and 655 g")
	visit(t, second, "/carry", "To and from home")
	assert.Contains(t, bringIn(t, second, fromFirst), "Brought: 2 entries, 1150 g lifted.", "from phone to phone")
	assert.Contains(t, bringIn(t, second, newer), "Brought: 1 entry, 655 g lifted.")

	home.Open(address + "season")
	account := home.Text("main")
	assert.Contains(t, account, "bed-3: beetroot")
	for name, phone := range map[string]*webdriver.Browser{"first": first, "second": second} {
		assert.Equal(t, whole, readParcel(t, saved(t, phone, "a[href='/carry/plot']", parcelNames)), name)
		assert.Contains(t, phone.Text("main"), "Not taken home yet: nothing.", "what came from there or went there is not carried again")
		visit(t, phone, "/season", "The season's account")
		assert.Equal(t, account, phone.Text("main"), name)
	}
	tally, err := ask.Tally(t.Context(), ask.PlotRef{Dir: plot, Now: time.Now()}, false)
	require.NoError(t, err)
	before, err := ask.Tally(t.Context(), ask.PlotRef{Dir: began, Now: time.Now()}, false)
	require.NoError(t, err)
	lifted := tally.Seasons[0].Total().Net.Sub(before.Seasons[0].Total().Net)
	assert.Equal(t, "2647", lifted.String(), "1150, 842 and 655 g")
}

// bring brings a phone's file home with the command's own question.
func bring(t *testing.T, dir, file, grams string) {
	t.Helper()
	brought, err := ask.Bring(t.Context(), ask.PlotRef{Dir: dir, Now: time.Now()}, readParcel(t, file), journal.KeepOwn)
	require.NoError(t, err)
	assert.Equal(t, 2, brought.Entries)
	assert.Equal(t, grams, brought.Net.String())
}

// A lift is corrected at home while the phone, which knows nothing of it, strikes
// it out. Brought to the phone the contradiction is told and settled there, with
// what settles it at home, and both agree.
func TestContradictionIsSettledOnThePhone(t *testing.T) {
	needLive(t)
	home := homePlot(t)
	b := startPhone(t, servePhone(t, home).URL)
	weighIn(t, b, "bed-2", "1.46", "0.31", "1.15 kg from bed-2")
	parcel := takeHome(t, b, "1 entry, 1150 g lifted")
	brought, err := ask.Bring(t.Context(), ask.PlotRef{Dir: home, Now: time.Now()}, readParcel(t, parcel), journal.KeepOwn)
	require.NoError(t, err)
	_, err = ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: ask.PlotRef{Dir: home, Now: time.Now(), Sure: true},
		LiftWords: harvest.LiftWords{Planting: "bed-2", Weighings: []string{"1.51 kg - 0.31 kg"}, Replaces: filepath.Base(brought.Files[0])}})
	require.NoError(t, err)
	visit(t, b, "/undo", "Undo")
	turn(t, b, func() { b.Click("main > form[action='/undo'] button") })
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text(".done"), "Taken back: lift of bed-2, 1.15 kg")

	newer := filepath.Join(t.TempDir(), "newer.zip")
	require.NoError(t, os.WriteFile(newer, parcelOf(t, home), 0o644))
	visit(t, b, "/carry", "To and from home")
	bringIn(t, b, newer)
	assert.Contains(t, b.Text(".warning"), "One thing that two devices wrote does not fit together.")
	assert.Empty(t, b.Violations())
	turn(t, b, func() { b.Click("a[href='/settle']") })
	waitForTitle(t, b, "What does not fit together")
	assert.Contains(t, b.Text("main"), "corrected by one device, struck out by another.")
	assert.Contains(t, b.Text("main"), "1.20 kg")
	assert.Empty(t, b.Violations())
	b.Picture("pocket-settle")
	turn(t, b, func() { b.Click("button[name=counts]") })
	waitForTitle(t, b, "What does not fit together")
	assert.Contains(t, b.Text("main"), "Everything fits together.")

	settled := takeHome(t, b, "2 entries, 1200 g lifted")
	_, err = ask.Bring(t.Context(), ask.PlotRef{Dir: home, Now: time.Now()}, readParcel(t, settled), journal.KeepOwn)
	require.NoError(t, err)
	stock, err := ask.Stock(t.Context(), ask.PlotRef{Dir: home, Now: time.Now()})
	require.NoError(t, err)
	assert.Empty(t, stock.Warnings)
	assert.Equal(t, parcelOf(t, home), readParcel(t, saved(t, b, "a[href='/carry/plot']", parcelNames)), "both hold the same")
}

// The folder is written anew with a newer plot: the phone loads it when it is
// opened, shows it from the next start on, and keeps what it has written itself.
func TestNewerEdition(t *testing.T) {
	needLive(t)
	home := homePlot(t)
	program, err := made()
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "phone")
	require.NoError(t, WriteFolder(dir, program, parcelOf(t, home)))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer server.Close()
	b := startPhone(t, server.URL)
	waitFor(t, b, `return navigator.serviceWorker.controller !== null`)
	weighIn(t, b, "bed-2", "1.46", "0.31", "1.15 kg from bed-2")

	_, err = ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: ask.PlotRef{Dir: home, Now: time.Now(), Sure: true},
		LiftWords: harvest.LiftWords{Planting: "bed-3", Weighings: []string{"655 g"}}})
	require.NoError(t, err)
	require.NoError(t, WriteFolder(dir, program, parcelOf(t, home)))
	var kept []string
	b.Eval(`return caches.keys()`, &kept)
	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "On hand")
	waitFor(t, b, `return caches.keys().then(names => names.some(name => name.startsWith("trencher-") && !`+scriptList(kept)+`.includes(name)) && names.length === `+strconv.Itoa(len(kept))+`)`)
	goOffline(b)
	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "On hand")
	assert.Contains(t, b.Text("main"), "655 g")
	assert.Contains(t, b.Text("main"), "1.15 kg")
	visit(t, b, "/carry", "To and from home")
	assert.Contains(t, b.Text(".answer"), "Not taken home yet: 1 entry, 1150 g lifted.")
}

// scriptList is a list of texts as a script has it.
func scriptList(list []string) string {
	text, _ := json.Marshal(list)
	return string(text)
}
