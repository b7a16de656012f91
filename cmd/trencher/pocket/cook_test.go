package pocket

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/webdriver"
)

// A plan is cooked on the phone without a network: the page's own script counts
// down, what the cook says is written down, the screen is made anew by itself,
// and after a reload it goes on where it was.
func TestCookingOnThePhone(t *testing.T) {
	needLive(t)
	server := servePhone(t, homePlot(t))
	b := startPhone(t, server.URL)
	waitFor(t, b, `return navigator.serviceWorker.controller !== null`)
	server.Close()
	goOffline(b)
	visit(t, b, "/share", "Share out")
	turn(t, b, func() { b.Click("button[name=go]") })
	waitForTitle(t, b, "Share out")
	turn(t, b, func() { b.Click("#record button") })
	waitForTitle(t, b, "")

	visit(t, b, "/cook", "Cooking")
	assert.Empty(t, b.Violations())
	b.Picture("pocket-cook")
	countsDown(t, b)
	first := b.Text(".what")
	turn(t, b, func() { b.Click(".step button") })
	waitForTitle(t, b, "Cooking")
	assert.NotEmpty(t, b.Text(".done"))
	assert.NotEqual(t, first, b.Text(".what"), "the next step")

	b.Eval(`const root = document.querySelector("[data-cooking]"); root.classList.add("old"); root.dataset.again = "0"`, nil)
	waitFor(t, b, `return document.querySelector("[data-cooking]:not(.old)") !== null`)
	countsDown(t, b)

	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "Cooking")
	assert.NotEqual(t, first, b.Text(".what"), "after a reload")
	countsDown(t, b)
	visit(t, b, "/carry", "To and from home")
	assert.Contains(t, b.Text(".answer"), "Not taken home yet: 2 entries.")
}

// countsDown waits until a timer of the screen has gone on.
func countsDown(t *testing.T, b *webdriver.Browser) {
	t.Helper()
	waitFor(t, b, `return document.querySelector("[role=timer]") !== null`)
	was := b.Text("[role=timer]")
	waitFor(t, b, `return document.querySelector("[role=timer]").textContent !== `+scriptList([]string{was})+`[0]`)
}
