package page

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

// The screens that only answer: each says what the command of its job says.
func TestAnsweringScreens(t *testing.T) {
	g := newGardener(t)
	for target, says := range map[string][]string{
		"/ready": {"tub-3: Weir Gold second early potato", "Due.", "In the ground since 2 April", "weeks", `href="/weigh?planting=tub-3"`},
		"/boil?crop=potato%2C+waxy&cut=cube&size=25":    {"from boiling again", "Water"},
		"/boil?way=blanch&crop=carrot&cut=slice&size=8": {"blanched for the freezer", "ice water"},
		"/keep?food=mash": {"mash"},
		"/hygiene":        {"<h2>Hands</h2>", "fresh manure 120 days before harvest", "<li>Soap and running drinking water for 20 seconds"},
		"/plant":          {"Plant or sow", `name="crop"`},
		"/next?eat=potato%2C+3+a+week%2C+26+weeks&for=2+adults": {"Season"},
		"/recipe":   {"Read it"},
		"/reckoner": {"<h1>Ready reckoner</h1>", "How long a bowl may stand"},
		"/keep?food=boiled-potatoes&cooked=2031-07-12T13%3A00&chilled=2031-07-12T14%3A00": {"Eat"},
	} {
		w := g.get(target)
		assert.Equal(t, http.StatusOK, w.Code, target)
		for _, text := range says {
			assert.Contains(t, w.Body.String(), text, target)
		}
	}
	for target, wrong := range map[string]string{
		"/boil?crop=potato%2C+waxy":           "The size is missing.",
		"/boil?crop=moon&size=25":             "Choose one of the list.",
		"/keep?food=":                         "Choose what it is.",
		"/keep?food=mash&cooked=yesterdayish": "cooked",
	} {
		w := g.get(target)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, target)
		assert.Contains(t, w.Body.String(), wrong, target)
	}
}

// They are looked at as a phone shows them, light and dark.
func TestAnsweringScreensInTheBrowser(t *testing.T) {
	needLive(t)
	for name, how := range map[string]webdriver.Look{"light": handset, "dark": {Width: 390, Height: 844, Dark: true}} {
		b := webdriver.Start(t, how)
		address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: newPlot(t)}})
		for screen, target := range map[string]string{"ready": "/ready", "boil": "/boil?crop=potato%2C+waxy&cut=cube&size=25",
			"blanch": "/boil?way=blanch&crop=carrot&cut=slice&size=8", "keep": "/keep?food=mash", "reckoner": "/reckoner", "hygiene": "/hygiene", "plant": "/plant",
			"next": "/next?eat=potato%2C+3+a+week%2C+26+weeks&for=2+adults", "recipe": "/recipe", "cook-none": "/cook"} {
			b.Open(address + target)
			b.Picture("answer-" + screen + "-" + name)
			assertAccessible(t, b, screen+" "+name)
		}
	}
}
