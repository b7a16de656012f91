package pocket

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/webdriver"
)

// clearProgram makes the browser forget the program, as if it never came to
// start, but not what was shown.
const clearProgram = `document.title = "busy"; caches.keys()
	.then(names => Promise.all(names.filter(name => name.startsWith("trencher-program-")).map(name => caches.delete(name))))
	.then(() => { document.title = "done"; })`

// The screen shown last can be read before the program has started, and where it
// never does: it says when that was, and takes nothing in. It holds what was
// written last and does not say again that it was written.
func TestScreensAsTheyStood(t *testing.T) {
	needLive(t)
	server := servePhone(t, homePlot(t))
	b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
	b.Open(server.URL + "/")
	waitForTitle(t, b, "On hand")
	b.Click("nav a[href='/weigh']")
	waitForTitle(t, b, "Weigh in")
	b.Choose("#planting", "bed-2")
	b.Fill("[name=bowl-1-full]", "1.46")
	b.Fill("[name=bowl-1-empty]", "0.31")
	b.Click("#write button:not([name])")
	waitForTitle(t, b, "On hand")
	b.Click("nav a[href='/weigh']")
	waitForTitle(t, b, "Weigh in")
	b.Click("nav a[href='/fridge']")
	waitForTitle(t, b, "In the fridge")
	b.Eval(clearProgram, nil)
	waitFor(t, b, `return document.title === "done"`)
	server.Close()

	for _, screen := range []struct{ address, title, holds string }{
		{"/", "On hand", "1.15 kg"},
		{"/weigh", "Weigh in", "bed-2"},
	} {
		b.Open("about:blank")
		b.Open(server.URL + "/#" + screen.address)
		waitFor(t, b, `return document.title.startsWith("`+screen.title+`") && document.querySelector("[role=alert]") !== null`)
		text := b.Text("body")
		assert.Contains(t, text, "As it stood on ")
		assert.Contains(t, text, "It could not start")
		assert.Contains(t, text, screen.holds)
		assert.NotContains(t, text, "written down.\n", "the answer to the form is not given again")
		var open int
		b.Eval(`return document.querySelectorAll("input:enabled, button:enabled, select:enabled, textarea:enabled").length`, &open)
		assert.Zero(t, open, "nothing can be typed")
		assert.Empty(t, b.Violations())
		b.Picture("pocket-stood")
	}
	b.Open("about:blank")
	b.Open(server.URL + "/#/fridge")
	waitFor(t, b, `return document.querySelector("[role=alert]") !== null`)
	assert.NotContains(t, b.Text("body"), "As it stood", "what is said of cooked food is not kept")
}
