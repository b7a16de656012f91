package page

import (
	"bytes"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
)

// twoDevices is a gardener's plot into which a copy of it was brought home; each
// did something after they were copied.
func twoDevices(t *testing.T, here, there func(ask.PlotRef)) *gardener {
	t.Helper()
	g := newGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	twoDevicesOf(t, g, here, there)
	g.page.now = func() time.Time { return testNow.Add(time.Hour) }
	return g
}

// twoDevicesOf has a plot and a copy of it do something each, and brings the
// copy's home.
func twoDevicesOf(t *testing.T, g *gardener, here, there func(ask.PlotRef)) {
	t.Helper()
	other := filepath.Join(t.TempDir(), "copy")
	require.NoError(t, os.CopyFS(other, os.DirFS(g.dir)))
	where := func(dir, name string, later time.Duration) ask.PlotRef {
		return ask.PlotRef{Dir: dir, Now: testNow.Add(later), Sure: true, Device: func() string { return name }}
	}
	here(where(g.dir, "athome", time.Minute))
	there(where(other, "phonea", 2*time.Minute))
	var packed bytes.Buffer
	_, err := ask.Pack(t.Context(), &packed, where(other, "phonea", 0), journal.Untaken)
	require.NoError(t, err)
	_, err = ask.Bring(t.Context(), where(g.dir, "athome", 0), packed.Bytes(), journal.KeepOwn)
	require.NoError(t, err)
}

// theLift is the file of the one lift of a plot.
func theLift(t *testing.T, dir string) string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, "journal", "2031", "*-lift-*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	return filepath.Base(found[0])
}

func corrected(t *testing.T, weight string) func(ask.PlotRef) {
	return func(where ask.PlotRef) {
		t.Helper()
		_, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: where,
			LiftWords: harvest.LiftWords{Planting: "tub-3", Weighings: []string{weight}, Replaces: theLift(t, where.Dir)}})
		require.NoError(t, err)
	}
}

// A lift corrected in two ways is told, without a command nobody can give on a
// phone; either of the two can be made to count, by an entry.
func TestTwoCorrectionsAreSettled(t *testing.T) {
	for _, row := range []struct{ button, weight string }{{"This is right", "1.70 kg"}, {"No, this is right", "1.60 kg"}} {
		g := twoDevices(t, corrected(t, "1.6 kg"), corrected(t, "1.7 kg"))
		stock := g.get("/").Body.String()
		assert.Contains(t, stock, "One thing that two devices wrote does not fit together.")
		assert.Contains(t, stock, `href="/settle">Settle it</a>`)
		assert.NotContains(t, stock, "trencher journal")
		assert.Contains(t, g.get("/season").Body.String(), `href="/settle">Settle it</a>`)
		body := g.get("/settle").Body.String()
		assert.Contains(t, body, "Lift of tub-3, 1.82 kg, Sat 12 Jul 16:40: corrected in several ways.")
		assert.Regexp(t, `1.70 kg[^<]*</b> <em>counts now</em><br><small>written Sat 12 Jul 16:42 by device phonea`, body)
		assert.Regexp(t, `1.60 kg[^<]*</b><br><small>written Sat 12 Jul 16:41 by device athome`, body)
		assert.NotContains(t, body, "it is struck out")

		button := regexp.MustCompile(`<button name="counts" value="([^"]*)"[^>]*>` + row.button).FindStringSubmatch(body)
		require.NotNil(t, button)
		before := g.entries()
		form := url.Values{"once": {"s1"}, "counts": {button[1]}}
		require.Equal(t, http.StatusSeeOther, g.post("/settle", form).Code)
		require.Equal(t, http.StatusSeeOther, g.post("/settle", form).Code, "a double tap settles once")
		assert.Equal(t, before+1, g.entries())
		body = g.get("/settle?done=s1").Body.String()
		assert.Contains(t, body, "Settled.")
		assert.Contains(t, body, "Everything fits together.")
		stock = g.get("/").Body.String()
		assert.NotContains(t, stock, "/settle")
		assert.Contains(t, stock, row.weight+" on hand")
		form.Set("once", "s2")
		answer := g.post("/settle", form)
		assert.Equal(t, http.StatusUnprocessableEntity, answer.Code)
		assert.Contains(t, answer.Body.String(), "ontradicts nothing any more")
	}
}

func struckOut(t *testing.T) func(ask.PlotRef) {
	return func(where ask.PlotRef) {
		_, err := ask.Void(t.Context(), where, theLift(t, where.Dir), "")
		require.NoError(t, err)
	}
}

// What was corrected here and struck out there can be left struck out, or stand;
// all at once settles it as it counts.
func TestCorrectedAndStruckOutIsSettled(t *testing.T) {
	strike := struckOut(t)
	for _, row := range []struct{ name, button, answer string }{
		{"counts", `value="([^"]*)">This is right`, "1.60 kg on hand"},
		{"strike", `value="([^"]*)">No, it is struck out`, "Nothing to eat on hand."},
		{"all", `value="([^"]*)"`, "1.60 kg on hand"}, // offered where there is more than one thing
	} {
		g := twoDevices(t, corrected(t, "1.6 kg"), strike)
		body := g.get("/settle").Body.String()
		assert.Contains(t, body, "corrected by one device, struck out by another.")
		button := regexp.MustCompile(`<button[^>]* ` + row.button).FindStringSubmatch(body)
		require.NotNil(t, button, row.button)
		require.Equal(t, http.StatusSeeOther, g.post("/settle", url.Values{"once": {"s1"}, row.name: {button[1]}}).Code)
		assert.Contains(t, g.get("/settle").Body.String(), "Everything fits together.")
		assert.Contains(t, g.get("/").Body.String(), row.answer)
	}
}

// Two who took of one lot are told; the one that is wrong can be struck out.
func TestOverdrawnIsSettled(t *testing.T) {
	take := func(weight string) func(ask.PlotRef) {
		return func(where ask.PlotRef) {
			stock, err := ask.Stock(t.Context(), where)
			require.NoError(t, err)
			_, err = ask.Move(t.Context(), ask.MoveQuestion{PlotRef: where, MoveWords: harvest.MoveWords{To: harvest.KindUse, Lot: stock.Lots[0].ID, Weight: weight}})
			require.NoError(t, err)
		}
	}
	g := twoDevices(t, take("500 g"), take("600 g"))
	body := g.get("/settle").Body.String()
	assert.Contains(t, body, "Both entries stand.")
	assert.NotContains(t, body, "Settle all", "only the scale or a person can")
	file := regexp.MustCompile(`name="strike" value="([^"]*)"`).FindStringSubmatch(body)
	require.NotNil(t, file)
	require.Equal(t, http.StatusSeeOther, g.post("/settle", url.Values{"once": {"s1"}, "strike": {file[1]}}).Code)
	assert.Contains(t, g.get("/settle").Body.String(), "Everything fits together.")
}

// The demo, to which nobody writes, has nothing to settle and says so.
func TestNothingToSettleInTheDemo(t *testing.T) {
	p, err := New(Options{Where: ask.PlotRef{Demo: true}, Port: 8460})
	require.NoError(t, err)
	g := &gardener{t: t, page: p, handler: p.Handler()}
	assert.Contains(t, g.get("/settle").Body.String(), "Everything fits together.")
}
