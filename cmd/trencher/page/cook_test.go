package page

import (
	"fmt"
	"html"
	"net/http"
	"net/url"
	"os"
	"regexp"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
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

// goOn cooks by the screen: each step that has come is told as done; of what the
// knife is to be tried in, by section and how often it was tried, what tries says
// of it, "" to stop there.
func (c *cook) goOn(knife func(section string, tries int) string) {
	c.t.Helper()
	for touches, tries := 0, 0; touches < 200; {
		if touches%3 == 0 {
			c.start() // whatever was said is in the journal
		}
		body := c.get("/cook").Body.String()
		if strings.Contains(body, "Everything is on the table.") {
			return
		}
		said := false
		for _, section := range sections.FindAllString(body, -1) {
			id, says := whatID.FindStringSubmatch(section), ""
			require.NotNil(c.t, id)
			if try := tried.FindStringSubmatch(section); try != nil {
				at, err := time.Parse(time.RFC3339, html.UnescapeString(try[1]))
				require.NoError(c.t, err)
				if c.now.Before(at) {
					continue
				}
				if says = knife(section, tries); says == "" {
					return
				}
				tries++
			} else if strings.HasPrefix(section, `<section class="step now"`) {
				says = "done"
			}
			if says != "" {
				require.Equal(c.t, http.StatusSeeOther, c.says(body, id[1], says).StatusCode, "%s %s", says, section)
				said, touches = true, touches+1
				break
			}
		}
		if !said {
			c.now = c.now.Add(2 * time.Minute)
		}
	}
	c.t.Fatal("it is never over")
}

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
	assert.Equal(t, "60", c.get("/cook").Header().Get("Refresh"), "it loads itself again")

	c.goOn(func(section string, tries int) string {
		if tries == 0 {
			return "not-yet"
		}
		return "done"
	})
	assert.Contains(t, c.get("/cook").Body.String(), "Everything is on the table.")

	assert.NotEmpty(t, c.filesOf("cooked"), "the batch began when it was done")
	assert.Len(t, c.filesOf("steamed"), 2, "the knife's words, not yet and done, are knife tests")
	assert.NotEmpty(t, c.filesOf("step"))
	assert.Contains(t, c.get("/fridge").Body.String(), "Crushed potatoes with lovage")
}

// A page that is stopped between the two entries of one touch, as by a power cut,
// leaves the knife test without what was said. Said again, it is written down once;
// a knife tried later is a test of its own.
func TestCookingStoppedWithinATouch(t *testing.T) {
	c := newCook(t)
	c.goOn(func(string, int) string { return "" })
	touch := func(later time.Duration) {
		t.Helper()
		c.now = c.now.Add(later)
		body := c.get("/cook").Body.String()
		for _, section := range sections.FindAllString(body, -1) {
			if strings.Contains(section, "not-yet") {
				require.Equal(t, http.StatusSeeOther, c.says(body, whatID.FindStringSubmatch(section)[1], "not-yet").StatusCode)
				return
			}
		}
		t.Fatal("nothing to try the knife in")
	}
	stopped := func(later time.Duration) {
		t.Helper()
		before := c.filesOf("step")
		touch(later)
		for _, file := range c.filesOf("step") {
			if !slices.Contains(before, file) {
				require.NoError(t, os.Remove(file))
			}
		}
		c.start()
	}
	said := len(c.filesOf("step"))
	stopped(0)
	require.Len(t, c.filesOf("steamed"), 1)
	touch(20 * time.Second)
	assert.Len(t, c.filesOf("steamed"), 1, "said again")
	assert.Len(t, c.filesOf("step"), said+1)
	touch(time.Minute)
	assert.Len(t, c.filesOf("steamed"), 2, "what was told whole is followed by another test")
	stopped(time.Minute)
	require.Len(t, c.filesOf("steamed"), 3)
	touch(4 * time.Minute)
	assert.Len(t, c.filesOf("steamed"), 4, "a knife tried later")
}

// filesOf are the entries of a kind.
func (c *cook) filesOf(kind string) (files []string) {
	c.t.Helper()
	for _, file := range c.files() {
		text, err := os.ReadFile(file)
		require.NoError(c.t, err)
		if strings.Contains(string(text), "\nkind: "+kind+"\n") || strings.HasPrefix(string(text), "kind: "+kind+"\n") {
			files = append(files, file)
		}
	}
	return files
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

// No script but the page's own runs, and the one for cooking on its screen alone.
func TestOnlyOwnScriptsRun(t *testing.T) {
	c := newCook(t)
	w := c.get("/cook")
	assert.Contains(t, w.Header().Get("Content-Security-Policy"), "script-src 'self'; connect-src 'self'")
	assert.NotContains(t, w.Header().Get("Content-Security-Policy"), "unsafe")
	assert.Contains(t, w.Body.String(), `<script src="`+c.page.script.Address+`" defer></script>`)
	assert.NotContains(t, c.get("/").Body.String(), c.page.script.Address)
	for _, one := range jobs() {
		assert.NotContains(t, withoutOwnScripts(c.page, c.get(one.Path).Body.String()), "<script", one.Path)
	}
	assert.Equal(t, "text/javascript; charset=utf-8", c.get(c.page.script.Address).Header().Get("Content-Type"))
}

// withoutOwnScripts is a screen without what calls the page's own scripts.
func withoutOwnScripts(p *Page, body string) string {
	for _, own := range []asset{p.script, p.weigh, p.away} {
		body = strings.Replace(body, `<script src="`+own.Address+`" defer></script>`, "", 1)
	}
	return body
}

// The cooking screen in a browser, with the script and without: it counts down,
// keeps to the page's policy, and its buttons write.
func TestCookingInTheBrowser(t *testing.T) {
	needLive(t)
	for name, how := range map[string]webdriver.Look{
		"phone":      {Width: 390, Height: 844, Scripts: true},
		"phone-dark": {Width: 390, Height: 844, Dark: true},
		"desk":       {Width: 1280},
	} {
		t.Run(name, func(t *testing.T) {
			if name != "phone" {
				needLive(t)
			}
			c := newCook(t)
			b := webdriver.Start(t, how)
			var clock atomic.Int64
			clock.Store(c.now.Unix())
			address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: c.dir, Device: func() string { return "aaaaaa" }},
				Now: func() time.Time { return time.Unix(clock.Load(), 0).In(testNow.Location()) }})
			look := func(what string) {
				t.Helper()
				b.Picture("cook-" + name + "-" + what)
				assertAccessible(t, b, name+" "+what)
			}
			b.Open(address + "/cook")
			look("before")
			c.goOn(func(string, int) string { return "" })
			clock.Store(c.now.Add(-3 * time.Minute).Unix())
			b.Open(address + "/cook")
			look("steaming")
			assert.Equal(t, []string{"Done", "Not yet", "Over"}, textsOf(b, ".step:has([value=not-yet]) button"))
			if how.Scripts {
				require.Eventually(t, func() (counts bool) {
					b.Eval(`return /^in \d+:\d\d/.test(document.querySelector("[data-until]").textContent)`, &counts)
					return counts
				}, 20*time.Second, 200*time.Millisecond, "it counts down")
			}
			if how.Scripts {
				soundsWhenDue(t, b, address, &clock, c.now)
			} else if name == "phone-dark" {
				clock.Store(c.now.Add(-6 * time.Second).Unix())
				b.Open(address + "/cook")
				loadsItselfAgain(t, b)
			}
			before := c.entries()
			b.Follow("[value=not-yet]")
			assert.Contains(t, b.Text(".done"), "Not yet tender.")
			assert.Equal(t, before+2, c.entries(), "what was said, and the knife test")
			look("not-yet")
		})
	}
}

// soundsWhenDue makes sure that a touch is asked for until the browser lets the
// screen sound, and that it sounds when a moment has come.
func soundsWhenDue(t *testing.T, b *webdriver.Browser, address string, clock *atomic.Int64, due time.Time) {
	t.Helper()
	clock.Store(due.Add(-6 * time.Second).Unix())
	b.Open(address + "/cook")
	b.Eval(`window.tones = 0; const make = AudioContext.prototype.createOscillator;
AudioContext.prototype.createOscillator = function() { window.tones++; return make.call(this); };`, nil)
	b.Click("h1")
	for says, script := range map[string]string{"nothing more is asked for": `return document.getElementById("sound").hidden`, "three tones": `return window.tones === 3`} {
		assert.Eventually(t, func() (so bool) {
			b.Eval(script, &so)
			return so
		}, 30*time.Second, 200*time.Millisecond, says)
	}
}

// loadsItselfAgain makes sure that a browser without script asks for the screen
// anew.
func loadsItselfAgain(t *testing.T, b *webdriver.Browser) {
	t.Helper()
	began := func() (at float64) { b.Eval(`return performance.timeOrigin`, &at); return at }
	first := began()
	assert.Eventually(t, func() bool { return began() != first }, 90*time.Second, time.Second)
}

// textsOf are the texts of all that a selector finds.
func textsOf(b *webdriver.Browser, selector string) (texts []string) {
	b.Eval(fmt.Sprintf(`return [...document.querySelectorAll(%q)].map(e => e.textContent.trim())`, selector), &texts)
	return texts
}
