package page

import (
	"context"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/work"
)

// startPage serves an invented plot on a free loopback port until the test
// ends.
func startPage(t *testing.T) (address, dir string) {
	t.Helper()
	dir = newPlot(t)
	listener, err := Listen(0, false)
	require.NoError(t, err)
	p, err := New(Options{Where: work.Where{Dir: dir}, Port: PortOf(listener), Now: func() time.Time { return testNow }})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- p.Serve(ctx, listener) }()
	t.Cleanup(func() {
		stop()
		assert.NoError(t, <-ended)
	})
	return strings.TrimSuffix(Addresses(listener, false)[0], "/"), dir
}

// looks are the screens every page is looked at on. Pages may run no script.
var looks = map[string]look{
	"phone":      {width: 360},
	"phone-dark": {width: 360, dark: true},
	"desk":       {width: 1280},
}

// needLook leaves the looks that add least to the runs that must find a
// browser: they take a quarter of a minute.
func needLook(t *testing.T, name string) {
	t.Helper()
	if name != "phone" && os.Getenv("TRENCHER_LIVE") != "1" {
		t.Skip("TRENCHER_LIVE=1 runs this look too")
	}
}

// The way through a harvest day, as fingers do it, without script: weigh in,
// mend a wrong weight, see the stock, take some out, see the account.
func TestADayInTheBrowser(t *testing.T) {
	for name, how := range looks {
		t.Run(name, func(t *testing.T) {
			needLook(t, name)
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
