package page

import (
	"html"
	"net/http"
	"net/url"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// cook is a kitchen with a plan written down, and a clock that is put forward.
type cook struct {
	*gardener
	now time.Time
}

// newCook writes down the plan of one hot dish, for half past six.
func newCook(t *testing.T) *cook {
	c := &cook{gardener: newGardener(t), now: testNow}
	c.start()
	require.Equal(t, http.StatusSeeOther, c.post("/weigh", aLift()).Code)
	c.now = c.now.Add(time.Minute)
	w := c.post("/share", url.Values{"go": {"1"}, "once": {"the-plan"}, "dish": {"Crushed potatoes with lovage"}, "serve": {"18:30"}})
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	return c
}

// start starts the page anew.
func (c *cook) start() {
	c.page = newPage(c.t, Options{Where: ask.PlotRef{Dir: c.dir, Device: func() string { return "aaaaaa" }}, Now: func() time.Time { return c.now }})
	c.handler = c.page.Handler()
}

// says sends the button of a step, as it stands on the screen.
func (c *cook) says(body, step, says string) *http.Response {
	c.t.Helper()
	form := url.Values{"says": {says}}
	for _, text := range strings.Split(body, "<form")[1:] {
		text, _, _ = strings.Cut(text, "</form>")
		hidden := map[string]string{}
		for _, m := range regexp.MustCompile(`name="(once|plan|step)" value="([^"]*)"`).FindAllStringSubmatch(text, -1) {
			hidden[m[1]] = m[2]
		}
		if hidden["step"] == step && strings.Contains(text, `value="`+says+`"`) {
			for name, value := range hidden {
				form.Set(name, value)
			}
			w := c.post("/cook", form)
			return w.Result()
		}
	}
	c.t.Fatalf("no button says %s of %s in %s", says, step, body)
	return nil
}

var (
	sections = regexp.MustCompile(`(?s)<section class="step.*?</section>`)
	whatID   = regexp.MustCompile(`id="what-(s\d+)">([^<]*)<`)
	tried    = regexp.MustCompile(`knife at <time datetime="([^"]+)"`)
)

// Cooking a plan from the first step to the table by the screen's own buttons:
// batches begin, the knife is written down, and a page that is started anew in
// the middle has lost nothing.
func TestCookingAPlan(t *testing.T) {
	c := newCook(t)
	sheet := c.get("/cook").Body.String()
	assert.Contains(t, sheet, "On the table <b>18:30</b>")
	assert.Contains(t, sheet, "Nothing for your hands.", "it is an hour and a half too early")
	assert.Contains(t, sheet, "<h2>Next</h2>")
	assert.Contains(t, sheet, "Five minutes late")
	assert.Regexp(t, `<noscript><meta http-equiv="refresh" content="\d+"></noscript>`, sheet)

	knives, touches := 0, 0
	for range 300 {
		if touches%3 == 0 {
			c.start() // whatever was said is in the journal
		}
		body := c.get("/cook").Body.String()
		if strings.Contains(body, "Everything is on the table.") {
			break
		}
		said := false
		for _, section := range sections.FindAllString(body, -1) {
			id := whatID.FindStringSubmatch(section)
			require.NotNil(t, id)
			knife := tried.FindStringSubmatch(section)
			isNow := strings.HasPrefix(section, `<section class="step now"`)
			if knife != nil {
				at, err := time.Parse(time.RFC3339, html.UnescapeString(knife[1]))
				require.NoError(t, err)
				isNow = !c.now.Before(at)
				assert.Contains(t, body, "In the steamer")
				assert.Contains(t, body, "Tier 1, the lowest")
			}
			if isNow {
				says := "done"
				if knife != nil && knives == 0 {
					says, knives = "not-yet", 1
				}
				answer := c.says(body, id[1], says)
				require.Equal(t, http.StatusSeeOther, answer.StatusCode, "%s %s", says, section)
				said, touches = true, touches+1
				break
			}
		}
		if !said {
			c.now = c.now.Add(2 * time.Minute)
		}
	}
	body := c.get("/cook").Body.String()
	require.Contains(t, body, "Everything is on the table.")
	assert.Equal(t, 1, knives)

	var kinds []string
	for _, file := range c.files() {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		kinds = append(kinds, regexp.MustCompile(`(?m)^kind: (\S+)`).FindStringSubmatch(string(text))[1])
	}
	assert.Contains(t, kinds, "cooked", "the batch began when it was done")
	assert.Contains(t, kinds, "steamed", "the knife's last word is a knife test")
	assert.Contains(t, kinds, "step")
	assert.Contains(t, c.get("/fridge").Body.String(), "Crushed potatoes with lovage")
}

// "Five minutes late" puts everything off, and undo takes that back.
func TestCookingLateAndUndone(t *testing.T) {
	c := newCook(t)
	c.now = c.now.Add(50 * time.Minute)
	body := c.get("/cook").Body.String()
	require.Equal(t, http.StatusSeeOther, c.says(body, "", "five-late").StatusCode)
	late := c.get("/cook").Body.String()
	assert.Contains(t, late, "On the table <b>18:35</b>")
	assert.Contains(t, late, "5 min later than planned")
	require.Equal(t, http.StatusSeeOther, c.says(body, "", "five-late").StatusCode, "a double touch is one")
	assert.Contains(t, c.get("/cook").Body.String(), "On the table <b>18:35</b>")
	c.now = c.now.Add(time.Second)
	file := regexp.MustCompile(`name="entry" value="([^"]+)"`).FindStringSubmatch(c.get("/undo").Body.String())
	require.NotNil(t, file)
	require.Equal(t, http.StatusSeeOther, c.post("/undo", url.Values{"once": {"u"}, "entry": {file[1]}}).Code)
	assert.Contains(t, c.get("/cook").Body.String(), "On the table <b>18:30</b>")
}

// Without a plan the screen says how to come by one; what cannot be said of a
// step is refused, and nothing is written.
func TestCookingNothing(t *testing.T) {
	g := newGardener(t)
	body := g.get("/cook").Body.String()
	assert.Contains(t, body, "No plan is recorded")
	assert.Contains(t, body, `href="/share"`)
	c := newCook(t)
	before := c.entries()
	for _, form := range []url.Values{{"step": {"s999"}, "says": {"done"}}, {"step": {"s1"}, "says": {"burnt"}}, {"step": {"s1"}, "says": {"over"}}, {"plan": {"zzzzz"}, "step": {"s1"}, "says": {"done"}}} {
		form.Set("once", "o")
		assert.Equal(t, http.StatusUnprocessableEntity, c.post("/cook", form).Code, form)
	}
	assert.Equal(t, before, c.entries())
}

// Only the cooking screen may run a script, and only the page's own.
func TestOnlyCookingRunsTheScript(t *testing.T) {
	c := newCook(t)
	w := c.get("/cook")
	assert.Contains(t, w.Header().Get("Content-Security-Policy"), "script-src 'self'; connect-src 'self'")
	assert.NotContains(t, w.Header().Get("Content-Security-Policy"), "unsafe")
	assert.Contains(t, w.Body.String(), `<script src="/cook.js" defer></script>`)
	assert.NotContains(t, c.get("/").Header().Get("Content-Security-Policy"), "script-src")
	assert.Equal(t, "text/javascript; charset=utf-8", c.get("/cook.js").Header().Get("Content-Type"))
}
