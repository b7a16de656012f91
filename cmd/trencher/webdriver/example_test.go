package webdriver_test

import (
	"testing"

	"trencher/cmd/trencher/webdriver"
)

// A test opens a page on a phone's screen, fills in a box and follows where the
// button leads.
func Example() {
	test := func(t *testing.T) {
		b := webdriver.Start(t, webdriver.Look{Width: 390})
		b.Open("http://127.0.0.1:8460/weigh")
		b.Fill("[name=bowl-1-full]", "1.46")
		b.Follow("form button")
		b.Picture("stock")
	}
	_ = test // go test runs it
}
