package page

import (
	"fmt"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

// handset is the screen that the lengths of pages are measured on.
var handset = webdriver.Look{Width: 390, Height: 844}

// mostScreens is how long a plan may be, folded.
const mostScreens = 4

// What is to be known at once stands on the first screen, and the whole plan is
// four screens long at most.
func TestPlanOnTheFirstScreen(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, handset)
	address := serveUntilEnd(t, Options{Where: ask.PlotRef{Demo: true}})
	for name, question := range map[string]url.Values{
		"as asked":     {"go": {"1"}, "serve": {"18:30"}},
		"with guests":  {"go": {"1"}, "serve": {"18:30"}, "guests": {"4 adults\n2 adults no milk\n1 child under 5"}, "sides": {"2"}},
		"too late":     {"go": {"1"}, "serve": {"12:30"}},
		"a hot summer": {"go": {"1"}, "serve": {"18:30"}, "air": {"35 C"}, "many": {"5"}},
	} {
		t.Run(name, func(t *testing.T) {
			names, err := ask.DishNames(ask.PlotRef{Demo: true})
			assert.NoError(t, err)
			question["dish"] = names
			b.Open(address + "/share?" + question.Encode())
			b.Picture("first-" + name)
			for _, selector := range []string{".danger", ".times", ".servings li", ".acts button", ".acts a"} {
				var lowest float64
				b.Eval(fmt.Sprintf(`return Math.max(0, ...[...document.querySelectorAll(%q)].map(e => e.getBoundingClientRect().bottom))`, selector), &lowest)
				assert.LessOrEqual(t, lowest, float64(handset.Height), "%s ends on the first screen", selector)
				if selector != ".danger" {
					assert.Positive(t, lowest, "%s is there", selector)
				}
			}
			var buttons int
			b.Eval(`return document.querySelectorAll(".acts button, .acts a").length`, &buttons)
			assert.Equal(t, 3, buttons)
			var height float64
			b.Eval(`return document.querySelector("main").getBoundingClientRect().bottom`, &height)
			assert.LessOrEqual(t, height, float64(mostScreens*handset.Height), "the whole plan, folded")
			assertAccessible(t, b, name)
		})
	}
}

// A plan names lots as a gardener would, and lists nothing of which there is
// nothing.
func TestPlanNamesNoMachineLots(t *testing.T) {
	g := stocked(t)
	body := g.get("/share?" + asked()).Body.String()
	assert.Contains(t, body, "from tub-3, 20-45 mm, sound")
	assert.NotRegexp(t, `tub-3/|\b0 k?g\b`, body)
}
