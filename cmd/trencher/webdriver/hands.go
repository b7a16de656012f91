package webdriver

import (
	"time"

	"github.com/stretchr/testify/require"
)

// Element is the path of the first element a CSS selector finds.
func (b *Browser) Element(selector string) string {
	b.t.Helper()
	var found map[string]string
	b.Ask("POST", "/element", map[string]string{"using": "css selector", "value": selector}, &found)
	for _, id := range found { // its one key is a constant of the standard
		return "/element/" + id
	}
	b.t.Fatal("nothing found for", selector)
	return ""
}

// Fill replaces what stands in a box.
func (b *Browser) Fill(selector, text string) {
	b.t.Helper()
	element := b.Element(selector)
	b.Ask("POST", element+"/clear", nil, nil)
	b.Ask("POST", element+"/value", map[string]string{"text": text}, nil)
}

// Choose picks the option of a select that shows this text.
func (b *Browser) Choose(selector, option string) {
	b.t.Helper()
	b.Ask("POST", b.Element(selector)+"/value", map[string]string{"text": option}, nil)
}

// Attach chooses a file of this machine in an input for files.
func (b *Browser) Attach(selector, file string) {
	b.t.Helper()
	b.Ask("POST", b.Element(selector)+"/value", map[string]string{"text": file}, nil)
}

// Click clicks the first element a CSS selector finds.
func (b *Browser) Click(selector string) {
	b.t.Helper()
	b.click(selector)
}

// click clicks, once more where the page loads itself again meanwhile, and gives the
// page that was clicked on.
func (b *Browser) click(selector string) (page string) {
	b.t.Helper()
	var err error
	for range 5 {
		element := b.Element(selector)
		page = b.Element("html")
		err = b.Try("POST", element+"/click", nil, nil)
		if !isStale(err) {
			break
		}
	}
	require.NoError(b.t, err, "click %s", selector)
	return page
}

// Follow clicks what leads to another page, and waits until it has come.
func (b *Browser) Follow(selector string) {
	b.t.Helper()
	old := b.click(selector)
	for until := time.Now().Add(10 * time.Second); time.Now().Before(until); time.Sleep(20 * time.Millisecond) {
		if b.Try("GET", old+"/name", nil, nil) != nil { // the old page's elements are gone
			return
		}
	}
	b.t.Fatal("no page came of a click on ", selector)
}

// Back goes back to the page before.
func (b *Browser) Back() {
	b.t.Helper()
	b.Ask("POST", "/back", nil, nil)
}

// Reload loads the page once more; one that a form led to is asked for as it was.
func (b *Browser) Reload() {
	b.t.Helper()
	b.Try("POST", "/refresh", nil, nil) // where there is no answer it is the browser's own page that stands there
}

// Tab is the window that is driven.
func (b *Browser) Tab() (handle string) {
	b.t.Helper()
	b.Ask("GET", "/window", nil, &handle)
	return handle
}

// NewTab opens another window and drives that one.
func (b *Browser) NewTab() (handle string) {
	b.t.Helper()
	var opened struct{ Handle string }
	b.Ask("POST", "/window/new", map[string]string{"type": "tab"}, &opened)
	b.SwitchTo(opened.Handle)
	return opened.Handle
}

// SwitchTo drives another window.
func (b *Browser) SwitchTo(handle string) {
	b.t.Helper()
	b.Ask("POST", "/window", map[string]string{"handle": handle}, nil)
	b.letScripts(b.scripts)
}

// CloseTab closes the window that is driven; another is to be switched to.
func (b *Browser) CloseTab() {
	b.t.Helper()
	b.Ask("DELETE", "/window", nil, nil)
}

// Press sends one key to whatever has the focus.
func (b *Browser) Press(key string) {
	b.t.Helper()
	b.Ask("POST", "/actions", map[string]any{"actions": []any{map[string]any{"type": "key", "id": "keys",
		"actions": []any{map[string]string{"type": "keyDown", "value": key}, map[string]string{"type": "keyUp", "value": key}}}}}, nil)
}
