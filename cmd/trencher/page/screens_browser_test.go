package page

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
	"trencher/harvest"
)

// Every screen there is, light, dark and in large type, with something on it: axe
// finds nothing, and neither does our own look at it. A new job is in the list by
// itself; what is no job stands below. On the way in, the code is asked for, and
// the screen that was asked for comes.
func TestEveryScreenInTheBrowser(t *testing.T) {
	needLive(t)
	for name, how := range map[string]webdriver.Look{
		"light": {Width: 390, Height: 844},
		"dark":  {Width: 390, Height: 844, Dark: true},
		"large": {Width: 390, Height: 844, Type: 32},
	} {
		t.Run(name, func(t *testing.T) {
			c := newCook(t)
			require.Equal(t, http.StatusSeeOther, c.post("/fridge", url.Values{"once": {"f"}, "name": {salad}, "event": {"cooked"}, "amount": {"4"}}).Code)
			c.now = c.now.Add(time.Minute) // after the plan, which is made again from what was there before it
			require.Equal(t, http.StatusSeeOther, c.post("/weigh", url.Values{"once": {"b"}, "planting": {"bed-1"}, "unit": {"kg"}, "bowl-1-full": {"1.2"}, "at": {"2031-07-12T16:00"}}).Code)
			beet := func(weight string) func(ask.PlotRef) {
				return func(where ask.PlotRef) {
					where.Now = where.Now.Add(10 * time.Minute)
					_, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: where, LiftWords: harvest.LiftWords{Planting: "bed-1", Weighings: []string{weight}, Replaces: theLift(t, where.Dir)}})
					require.NoError(t, err)
				}
			}
			twoDevicesOf(t, c.gardener, beet("1.3 kg"), beet("1.4 kg"))
			var code string
			address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: c.dir, Device: func() string { return "aaaaaa" }}, Phone: true,
				Announce: func(new string) { code = new }, Now: func() time.Time { return c.now.Add(time.Hour) }})
			b := webdriver.Start(t, how)
			look := func(screen string) {
				t.Helper()
				b.Picture("every-" + name + "-" + screen)
				assertAccessible(t, b, name+" "+screen)
			}
			b.Open(address + "/phones")
			look("code")
			b.Fill("#code", "wrong")
			b.Follow("form button")
			look("code-wrong")
			b.Fill("#code", code)
			b.Follow("form button")
			assert.Equal(t, address+"/phones", b.Address(), "it lands where it was going")
			assert.Contains(t, b.Text("main"), "Linux computer, Chrome this one")
			for _, one := range append(jobs(), phonesJob()) {
				b.Open(address + one.Path)
				if one.Path == "/cook" {
					assert.Contains(t, b.Text("main"), "On the table")
				}
				look("job" + strings.ReplaceAll(one.Path, "/", "-"))
			}
			for name, at := range map[string]string{
				"settle": "/settle", "plan": "/share?" + crushedAsked.Encode(), "dish": "/dish?portions=6&name=" + url.QueryEscape(crushed), "steam": "/steam?size=25",
				"boil": "/boil?size=25&crop=potato%2C+waxy", "keep": "/keep?food=boiled-potatoes", "wrong": "/season?year=soon", "nothing": "/no-such-screen",
				"next": "/next?year=2032", "correct": "/weigh?correct=" + theLift(t, c.dir),
			} {
				b.Open(address + at)
				look(name)
			}
		})
	}
}
