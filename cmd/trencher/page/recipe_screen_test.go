package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

const pastedOnAPhone = `Beets with dill and mustard

Serves 4

900 g beetroot, peeled
2 smoots dill
1 tbsp mustard
1 Kestrel gadget
a few chives
Season it as you would.

Method
Boil the beetroot for 40 minutes. Dress with the rest. Serve cold.
`

// On a phone a pasted recipe is read back within its width with what is to check
// first; a line is corrected in a touch and what is typed, and with another it is
// one of the dishes.
func TestRecipeIsCorrectedOnAPhone(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, handset)
	address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: newPlot(t)}})
	b.Open(address + "/recipe")
	b.Fill("#text", pastedOnAPhone)
	b.Follow("main form button")
	b.Picture("recipe-read-back")
	assert.Contains(t, b.Text("main"), "To check")
	assert.NotContains(t, b.Text("main"), "1 tbsp mustard", "what is certain is folded away")
	var width, first, keep float64
	b.Eval(`return document.documentElement.scrollWidth`, &width)
	assert.LessOrEqual(t, width, float64(handset.Width))
	b.Eval(`return document.querySelector("#line-4").getBoundingClientRect().bottom`, &first)
	assert.LessOrEqual(t, first, float64(handset.Height), "the first box stands on the first screen")
	b.Eval(`return document.querySelector("button[name=keep]").getBoundingClientRect().bottom`, &keep)
	assert.LessOrEqual(t, keep, 2.5*float64(handset.Height), "and the way on soon after")
	assertAccessible(t, b, "recipe")

	b.Fill("#line-4", "1 tbsp dill, chopped")
	b.Follow("button.second")
	assert.NotContains(t, b.Text("main"), "smoots: unknown")
	b.Follow("button[name=keep]")
	assert.Contains(t, b.Text("body"), "Beets with dill and mustard is one of your dishes now.")
}
