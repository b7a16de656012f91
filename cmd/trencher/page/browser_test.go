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
func serveUntilEnd(t *testing.T, options Options) (address string) {
	t.Helper()
	listener, err := Listen(0, false)
	require.NoError(t, err)
	options.Port, options.Now = PortOf(listener), func() time.Time { return testNow }
	p, err := New(options)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- p.Serve(ctx, listener) }()
	t.Cleanup(func() {
		stop()
		assert.NoError(t, <-ended)
	})
	return strings.TrimSuffix(Addresses(listener, false)[0], "/")
}

// looks are the screens every page is looked at on. Pages may run no script.
var looks = map[string]look{
	"phone":      {width: 360},
	"phone-dark": {width: 360, dark: true},
	"desk":       {width: 1280},
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
	for name, how := range looks {
		t.Run(name, func(t *testing.T) {
			if name != "phone" {
				needLive(t)
			}
			b := openBrowser(t, how)
			address, dir := startPage(t)
			check := func(screen string) {
				t.Helper()
				b.picture(name + "-" + screen)
				b.assertAccessible(name + " " + screen)
			}

			b.open(address + "/")
			assert.Equal(t, "Nothing to eat on hand.", b.text(".answer"))
			check("stock-empty")

			b.open(address + "/weigh")
			check("weigh")
			if name == "phone" {
				b.assertFocusOrder("weigh")
			}
			b.choose("#planting", "tub-3: potato Weir Gold")
			b.fill("#bowl-1-full", "1.46")
			b.fill("#bowl-1-empty", "heavy")
			b.fill("#bowl-2-full", "0.98")
			b.fill("#bowl-2-empty", "0.31")
			b.fill("#grade-1-weight", "0.82")
			b.fill("#grade-1-low", "20")
			b.fill("#grade-1-high", "45")
			b.fill("#grade-2-weight", "0.09")
			b.choose("#grade-2-condition", "damaged: trim, use today")
			b.follow("form button")
			check("weigh-wrong")
			assert.Contains(t, b.text("#bowl-1-empty-says"), "heavy", "the fault stands beside its box")
			assert.Equal(t, "1.46", b.valueOf("#bowl-1-full"), "the rest is kept")
			assert.Equal(t, "damaged", b.valueOf("#grade-2-condition"))
			assert.Zero(t, countEntries(t, dir))

			b.fill("#bowl-1-empty", "0.31")
			b.follow("form button")
			assert.True(t, strings.HasPrefix(b.address(), address+"/?done="), b.address())
			assert.Equal(t, "1.82 kg from tub-3 written down.", b.text(".done"))
			assert.Equal(t, "1.82 kg on hand, 90 g of it to use today.", b.text(".answer"))
			check("stock")
			assert.Equal(t, 1, countEntries(t, dir))

			b.open(address + "/take")
			check("take")
			b.choose("#lot", "820 g potato Weir Gold 20-45 mm sound tub-3")
			b.choose("#to", "given away")
			b.fill("#weight", "0.32")
			b.follow("form button")
			assert.Equal(t, "1.50 kg on hand, 90 g of it to use today.", b.text(".answer"))

			b.open(address + "/share")
			check("share-question")
			b.fill("#guests", "")
			b.follow("form button")
			assert.Contains(t, b.text(".answer"), "portions of 2 dishes")
			check("share")
			b.follow("form[method=post] button")
			assert.Contains(t, b.text(".done"), "Written down as used.")
			check("stock-after")
			recorded := countEntries(t, dir)
			assert.Greater(t, recorded, 2)

			b.open(address + "/dish?portions=6&serve=18:30&name=" + strings.ReplaceAll(crushed, " ", "+"))
			check("dish")
			b.open(address + "/share?go=1&dish=" + strings.ReplaceAll(crushed, " ", "+") + "&guests=6+of+them&sides=2")
			check("share-wrong")

			b.open(address + "/steam?size=25&load=1.2+kg")
			assert.Contains(t, b.text(".answer"), "from full steam")
			check("steam")
			if name == "phone" {
				b.assertFocusOrder("steam")
			}
			b.fill("#minutes", "a while")
			b.choose("#said", "soft")
			b.follow("form[method=post] button")
			check("steam-wrong")
			assert.Contains(t, b.text("#minutes-says"), "Unknown unit", "the fault stands beside its box")
			assert.Equal(t, "a while", b.valueOf("#minutes"))
			assert.Equal(t, "soft", b.valueOf("#said"))
			assert.Equal(t, recorded, countEntries(t, dir))
			b.fill("#minutes", "14.5")
			b.follow("form[method=post] button")
			assert.Equal(t, "Written down: potato, cube 25 mm, soft after 14.5 min.", b.text(".done"))
			assert.Contains(t, b.text("main"), "Rests on 1 knife test in this kitchen")
			check("steam-tested")
			recorded++
			assert.Equal(t, recorded, countEntries(t, dir))

			b.open(address + "/fridge")
			b.fill("#name", "Crushed potatoes with lovage")
			b.follow("form button")
			assert.Contains(t, b.text(".done"), "Written down: Crushed potatoes with lovage.")
			check("fridge")
			assert.Equal(t, recorded+1, countEntries(t, dir))

			b.open(address + "/season")
			assert.Contains(t, b.text(".answer"), "1.82 kg lifted")
			check("season")
			b.open(address + "/no-such-screen")
			check("nothing-here")
		})
	}
}

// The built-in demo, as a newcomer first sees it; its sheet is at most two
// sides of A4.
func TestDemoInTheBrowser(t *testing.T) {
	for name, how := range looks {
		t.Run(name, func(t *testing.T) {
			needLive(t)
			b := openBrowser(t, how)
			address := serveUntilEnd(t, Options{Where: ask.PlotRef{Demo: true}, ServeAt: "18:30"})
			b.open(address + "/")
			b.assertAccessible("demo stock")
			b.picture(name + "-demo-stock")
			b.open(address + "/season")
			b.assertAccessible("demo season")
			b.picture(name + "-demo-season")
			b.open(address + "/share")
			b.follow("form button")
			b.assertAccessible("demo share")
			b.picture(name + "-demo-share")
			b.follow("a.button")
			assert.Contains(t, b.text("h1"), "on the table at 18:30")
			b.assertAccessible("demo sheet")
			b.picture(name + "-demo-sheet")
			assert.LessOrEqual(t, b.pages(), 2, "sides of A4")

			b.open(address + "/steam?size=25")
			b.assertAccessible("demo steam")
			b.picture(name + "-demo-steam")
			assert.NotContains(t, b.text("main"), "What the knife said")

			b.open(address + "/weigh") // nothing can be written here, and it says so
			b.fill("#bowl-1-full", "1.46")
			b.follow("form button")
			assert.Contains(t, b.text(".mend"), "begin")
			assert.Equal(t, "1.46", b.valueOf("#bowl-1-full"))
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
	b := openBrowser(t, looks[name])
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
		b.open(address + question)
		b.assertAccessible(screen)
		b.picture(name + "-ugly-" + screen)
	}
	lift := func(weighing, grade string) {
		t.Helper()
		_, err := ask.Lift(context.Background(), ask.LiftQuestion{PlotRef: ask.PlotRef{Dir: dir, Now: testNow},
			LiftWords: harvest.LiftWords{Planting: "tub-3", Weighings: []string{weighing}, Grades: []string{grade}}})
		require.NoError(t, err)
	}
	look("nothing")
	lift("2.14 kg", "2.14 kg green")
	look("green")
	assert.NotContains(t, b.text("main"), "Write it down as used")
	b.open(address + "/")
	b.assertAccessible("green stock")
	lift("9.6 kg", "9 kg 20-45 mm scabby")
	look("twelve")
	b.follow("a.button")
	b.assertAccessible("sheet of twelve")
	b.picture(name + "-ugly-sheet")
}
