package page

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
	"trencher/harvest"
)

// startPage serves an invented plot on a free loopback port until the test
// ends.
func startPage(t *testing.T) (address, dir string) {
	t.Helper()
	dir = newPlot(t)
	return serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: dir}}), dir
}

// serveUntilEnd serves a page on a free loopback port until the test ends.
func serveUntilEnd(t testing.TB, options Options) (address string) {
	t.Helper()
	listener, err := Listen(0, false)
	require.NoError(t, err)
	options.Port = listener.Port()
	if options.Now == nil {
		options.Now = func() time.Time { return testNow }
	}
	p, err := New(options)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- p.Serve(ctx, listener) }()
	t.Cleanup(func() {
		stop()
		assert.NoError(t, <-ended)
	})
	return strings.TrimSuffix(listener.Addresses()[0], "/")
}

// looks are the screens every page is looked at on. Pages may run no script.
var looks = map[string]webdriver.Look{
	"phone":      {Width: 360},
	"phone-dark": {Width: 360, Dark: true},
	"desk":       {Width: 1280},
}

// needLive leaves what adds least to the runs that must find a browser: it
// takes a minute.
func needLive(t *testing.T) {
	t.Helper()
	if os.Getenv("TRENCHER_LIVE") != "1" {
		t.Skip("TRENCHER_LIVE=1 runs this too")
	}
}

// The way through a harvest day, as fingers do it, without script: weigh in,
// mend a wrong weight, see the stock, take some out, see the account.
func TestADayInTheBrowser(t *testing.T) {
	needLive(t)
	for name, how := range looks {
		t.Run(name, func(t *testing.T) {
			b := webdriver.Start(t, how)
			address, dir := startPage(t)
			check := func(screen string) {
				t.Helper()
				b.Picture(name + "-" + screen)
				assertAccessible(t, b, name+" "+screen)
			}

			b.Open(address + "/")
			assert.Equal(t, "Nothing to eat on hand.", b.Text(".answer"))
			check("stock-empty")

			b.Open(address + "/weigh")
			check("weigh")
			if name == "phone" {
				assertFocusOrder(t, b, "weigh")
			}
			b.Choose("#planting", "tub-3: potato Weir Gold")
			b.Fill("#bowl-1-full", "1.46")
			b.Fill("#bowl-1-empty", "heavy")
			b.Fill("#bowl-2-full", "0.98")
			b.Fill("#bowl-2-empty", "0.31")
			b.Fill("#grade-1-weight", "0.82")
			b.Fill("#grade-1-low", "20")
			b.Fill("#grade-1-high", "45")
			b.Fill("#grade-2-weight", "0.09")
			b.Choose("#grade-2-condition", "damaged: trim, use today")
			b.Follow("form button")
			check("weigh-wrong")
			assert.Contains(t, b.Text("#bowl-1-empty-says"), "heavy", "the fault stands beside its box")
			assert.Equal(t, "1.46", b.ValueOf("#bowl-1-full"), "the rest is kept")
			assert.Equal(t, "damaged", b.ValueOf("#grade-2-condition"))
			assert.Zero(t, countEntries(t, dir))

			b.Fill("#bowl-1-empty", "0.31")
			b.Follow("form button")
			assert.True(t, strings.HasPrefix(b.Address(), address+"/?done="), b.Address())
			assert.Equal(t, "1.82 kg from tub-3 written down.", b.Text(".done"))
			assert.Equal(t, "1.82 kg on hand, 90 g of it to use today.", b.Text(".answer"))
			check("stock")
			assert.Equal(t, 1, countEntries(t, dir))

			b.Open(address + "/take")
			check("take")
			b.Choose("#lot", "820 g potato Weir Gold 20-45 mm sound tub-3")
			b.Choose("#to", "given away")
			b.Fill("#weight", "0.32")
			b.Follow("form button")
			assert.Equal(t, "1.50 kg on hand, 90 g of it to use today.", b.Text(".answer"))

			b.Open(address + "/share")
			check("share-question")
			b.Fill("#guests", "")
			b.Follow("form button")
			assert.Contains(t, b.Text(".answer"), "portions of 2 dishes")
			check("share")
			b.Follow("form[method=post] button")
			assert.Contains(t, b.Text(".done"), "Written down as used.")
			check("stock-after")
			recorded := countEntries(t, dir)
			assert.Greater(t, recorded, 2)

			b.Open(address + "/dish?portions=6&serve=18:30&name=" + strings.ReplaceAll(crushed, " ", "+"))
			check("dish")
			b.Open(address + "/share?go=1&dish=" + strings.ReplaceAll(crushed, " ", "+") + "&guests=6+of+them&sides=2")
			check("share-wrong")

			b.Open(address + "/steam?size=25&load=1.2+kg")
			assert.Contains(t, b.Text(".answer"), "from full steam")
			check("steam")
			if name == "phone" {
				assertFocusOrder(t, b, "steam")
			}
			b.Fill("#minutes", "a while")
			b.Choose("#said", "soft")
			b.Follow("form[method=post] button")
			check("steam-wrong")
			assert.Contains(t, b.Text("#minutes-says"), "Unknown unit", "the fault stands beside its box")
			assert.Equal(t, "a while", b.ValueOf("#minutes"))
			assert.Equal(t, "soft", b.ValueOf("#said"))
			assert.Equal(t, recorded, countEntries(t, dir))
			b.Fill("#minutes", "14.5")
			b.Follow("form[method=post] button")
			assert.Equal(t, "Written down: potato, cube 25 mm, soft after 14.5 min.", b.Text(".done"))
			assert.Contains(t, b.Text("main"), "Rests on 1 knife test in this kitchen")
			check("steam-tested")
			recorded++
			assert.Equal(t, recorded, countEntries(t, dir))

			b.Open(address + "/fridge")
			b.Fill("#name", "Crushed potatoes with lovage")
			b.Follow("#write button")
			assert.Contains(t, b.Text(".done"), "Written down: Crushed potatoes with lovage.")
			check("fridge")
			assert.Equal(t, recorded+1, countEntries(t, dir))

			b.Open(address + "/season")
			assert.Contains(t, b.Text(".answer"), "1.82 kg lifted")
			check("season")
			b.Open(address + "/no-such-screen")
			check("nothing-here")
		})
	}
}

// The built-in demo, as a newcomer first sees it; its sheet, in type for a wall,
// is at most six sides of A4.
func TestDemoInTheBrowser(t *testing.T) {
	for name, how := range looks {
		t.Run(name, func(t *testing.T) {
			needLive(t)
			b := webdriver.Start(t, how)
			address := serveUntilEnd(t, Options{Where: ask.PlotRef{Demo: true}, ServeAt: "18:30"})
			b.Open(address + "/")
			assertAccessible(t, b, "demo stock")
			b.Picture(name + "-demo-stock")
			b.Open(address + "/season")
			assertAccessible(t, b, "demo season")
			b.Picture(name + "-demo-season")
			b.Open(address + "/share")
			b.Follow("form button")
			assertAccessible(t, b, "demo share")
			b.Picture(name + "-demo-share")
			b.Follow("a.button")
			assert.Contains(t, b.Text("h1"), "on the table at 18:30")
			assertAccessible(t, b, "demo sheet")
			b.Picture(name + "-demo-sheet")
			assert.LessOrEqual(t, b.Pages(), 6, "sides of A4")

			b.Open(address + "/steam?size=25")
			assertAccessible(t, b, "demo steam")
			b.Picture(name + "-demo-steam")
			assert.NotContains(t, b.Text("main"), "What the knife said")

			b.Open(address + "/weigh") // nothing can be written here, and it says so
			b.Fill("#bowl-1-full", "1.46")
			b.Follow("form button")
			assert.Contains(t, b.Text(".mend"), "begin")
			assert.Equal(t, "1.46", b.ValueOf("#bowl-1-full"))
		})
	}
}

// Plots that try the page: dishes with names of forty letters, twelve of
// them, nothing but green tubers, nothing at all.
func TestUglyPlotsInTheBrowser(t *testing.T) {
	needLive(t)
	for _, name := range []string{"phone", "desk"} {
		t.Run(name, func(t *testing.T) { lookAtUglyPlots(t, name) })
	}
}

func lookAtUglyPlots(t *testing.T, name string) {
	b := webdriver.Start(t, looks[name])
	address, dir := startPage(t)
	question := "/share?go=1&serve=18:30"
	for i := range 12 {
		dish := fmt.Sprintf("Mashedpotatoeswithlovagechivesandbutte%02d", i)
		require.Len(t, dish, 40)
		text := strings.Replace(plotFiles["dishes/crushed.yaml"], crushed, dish, 1)
		require.NoError(t, os.WriteFile(filepath.Join(dir, "dishes", fmt.Sprintf("ugly-%02d.yaml", i)), []byte(text), 0o644))
		question += "&dish=" + dish
	}
	look := func(screen string) {
		t.Helper()
		b.Open(address + question)
		assertAccessible(t, b, screen)
		b.Picture(name + "-ugly-" + screen)
	}
	lift := func(weighing, grade string) {
		t.Helper()
		_, err := ask.Lift(context.Background(), ask.LiftQuestion{PlotRef: ask.PlotRef{Dir: dir, Now: testNow, Sure: true},
			LiftWords: harvest.LiftWords{Planting: "tub-3", Weighings: []string{weighing}, Grades: []string{grade}}})
		require.NoError(t, err)
	}
	look("nothing")
	lift("2.14 kg", "2.14 kg green")
	look("green")
	assert.NotContains(t, b.Text("main"), "Write it down as used")
	b.Open(address + "/")
	assertAccessible(t, b, "green stock")
	lift("9.6 kg", "9 kg 20-45 mm scabby")
	look("twelve")
	b.Follow("a.button")
	assertAccessible(t, b, "sheet of twelve")
	b.Picture(name + "-ugly-sheet")
}
