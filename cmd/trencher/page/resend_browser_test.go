package page

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
	"trencher/harvest"
	"trencher/harvest/journal"
)

// pressedForm is a form as fingers fill it in and send it.
type pressedForm struct {
	template string                     // that it stands in
	prepare  func(s *shaky)             // what there must be first
	open     string                     // its address
	fill     func(b *webdriver.Browser) // nil: there is nothing to fill in
	button   string                     // that sends it
	change   func(b *webdriver.Browser) // to something else; nil: there is nothing to change
	says     string                     // what the message says once it is written, and
	holds    string                     // what a file of the plot then holds
	there    bool                       // sent once more it is there already, and that is said
}

// pressedForms is every form that writes, and each button of it that writes
// something else.
func pressedForms(t *testing.T) map[string]pressedForm {
	lift := func(s *shaky) {
		form := aLift()
		form.Set("once", "first")
		require.Equal(s.t, http.StatusSeeOther, s.post("/weigh", form).Code)
		s.now = s.now.Add(time.Minute)
	}
	plan := func(s *shaky) {
		lift(s)
		form := url.Values{"once": {"plan"}, "go": {"1"}, "dish": {crushed}, "serve": {"18:30"}}
		require.Equal(s.t, http.StatusSeeOther, s.post("/share", form).Code)
	}
	steaming := func(s *shaky) {
		plan(s)
		s.goOn(func(string, int) string { return "" })
	}
	fill := func(pairs ...string) func(*webdriver.Browser) {
		return func(b *webdriver.Browser) {
			for i := 0; i < len(pairs); i += 2 {
				b.Fill(pairs[i], pairs[i+1])
			}
		}
	}
	choose := func(selector, option string, then func(*webdriver.Browser)) func(*webdriver.Browser) {
		return func(b *webdriver.Browser) {
			b.Choose(selector, option)
			then(b)
		}
	}
	twice := func(s *shaky) {
		lift(s)
		quarrel(s, corrected(s.t, "1.6 kg"), corrected(s.t, "1.7 kg"))
	}
	parcel := filepath.Join(t.TempDir(), "parcel.zip")
	return map[string]pressedForm{
		"weigh": {template: "weigh", open: "/weigh", fill: fill("#bowl-1-full", "1.46", "#bowl-1-empty", "0.31"), button: "#write button", change: fill("#bowl-1-full", "1.66"),
			says: "1.15 kg from tub-3", holds: "gross: 1.46 kg"},
		"plant": {template: "plant", there: true, open: "/plant", fill: fill("#crop", "carrot", "#size", "30"), button: "#write button", change: fill("#crop", "parsnip"),
			says: "tub-1, carrot", holds: "crop: carrot"},
		"take": {template: "take", prepare: lift, open: "/take", fill: fill("#weight", "0.1"), button: "#write button", change: fill("#weight", "0.2"), says: "100 g of", holds: "weight: 0.1 kg"},
		"weigh again": {template: "take", prepare: lift, open: "/take", fill: choose("#to", "nowhere: weighed again, this much is left", fill("#weight", "0.7")), button: "#write button",
			change: fill("#weight", "0.6"), says: "700 g of", holds: "kind: reweighed"},
		"share":        {template: "share", prepare: lift, open: "/share?" + crushedAsked.Encode(), button: "#record button", says: "Written down as used.", holds: "kind: plan"},
		"cook done":    {template: "cook", prepare: plan, open: "/cook", button: "[value=done]", says: "", holds: "kind: step"},
		"cook late":    {template: "cook", prepare: plan, open: "/cook", button: "[value=five-late]", says: "", holds: "kind: step"},
		"cook not yet": {template: "cook", prepare: steaming, open: "/cook", button: "[value=not-yet]", says: "Not yet tender.", holds: "kind: steamed"},
		"cook over":    {template: "cook", prepare: steaming, open: "/cook", button: "[value=over]", says: "", holds: "kind: steamed"},
		"recipe": {template: "recipe", open: "/recipe", fill: func(b *webdriver.Browser) {
			b.Fill("#text", "Beetroot with butter\nServes 4\n600 g beetroot, steamed until tender\n40 g butter\nSteam the beetroot. Add the butter.\n")
			b.Fill("#cook", "beetroot=steam")
			b.Follow("form button")
		}, button: "[name=keep]", says: "Beetroot with butter is one of your dishes now.", holds: "name: Beetroot with butter"},
		"knife":  {template: "steam", open: "/steam?size=25", fill: fill("#minutes", "9.5"), button: "form[method=post]:not(.entry) button", change: fill("#minutes", "12"), says: "after 9.5 min", holds: "minutes: 9.5"},
		"fridge": {template: "fridge", open: "/fridge", fill: fill("#name", salad, "#amount", "4"), button: "#write button", change: fill("#amount", "5"), says: salad, holds: `amount: "4"`},
		"fridge touch": {template: "fridge", prepare: func(s *shaky) {
			require.Equal(s.t, http.StatusSeeOther, s.post("/fridge", url.Values{"once": {"f"}, "name": {salad}, "event": {"cooked"}, "amount": {"4"}}).Code)
			s.now = s.now.Add(20 * time.Minute)
		}, open: "/fridge", button: ".batch [value=chilled]", says: salad, holds: "kind: chilled"},
		"fridge planned":  {template: "fridge", prepare: func(s *shaky) { plan(s); s.now = s.now.Add(2 * time.Hour) }, open: "/fridge", button: ".planned button", says: crushed, holds: "kind: cooked"},
		"undo":            {template: "undo", prepare: lift, open: "/undo", button: "main form button", says: "Taken back: lift of tub-3, 1.82 kg", holds: "kind: void"},
		"undo the latest": {template: "frame", prepare: lift, open: "/weigh", button: ".entry button", says: "Taken back: lift of tub-3, 1.82 kg", holds: "kind: void"},
		"settle":          {template: "settle", prepare: twice, open: "/settle", button: "[name=counts].second", says: "Settled.", holds: "kind: void"},
		"settle strike":   {template: "settle", prepare: func(s *shaky) { lift(s); quarrel(s, corrected(s.t, "1.6 kg"), struckOut(s.t)) }, open: "/settle", button: "[name=strike]", says: "Struck out.", holds: "kind: void"},
		"carry": {template: "carry", there: true, prepare: func(s *shaky) {
			lift(s)
			other := filepath.Join(s.t.TempDir(), "other")
			require.NoError(s.t, os.CopyFS(other, os.DirFS(s.dir)))
			where := ask.PlotRef{Dir: other, Now: s.now, Sure: true, Device: func() string { return "phonea" }}
			_, err := ask.Move(s.t.Context(), ask.MoveQuestion{PlotRef: where, MoveWords: harvest.MoveWords{To: harvest.KindGive, Lot: "tub-3/20-45-sound", Weight: "50 g"}})
			require.NoError(s.t, err)
			to, err := os.Create(parcel)
			require.NoError(s.t, err)
			defer to.Close()
			_, err = ask.Pack(s.t.Context(), to, where, journal.WholePlot)
			require.NoError(s.t, err)
		}, open: "/carry", fill: func(b *webdriver.Browser) { b.Attach("#parcel", parcel) }, button: "form[enctype] button", says: "", holds: "kind: give"},
	}
}

// elsewhere are the templates with forms that write nothing into the plot, and
// where those are tested.
var elsewhere = map[string]string{
	"code":   "lets a phone in: TestDoorLetsAPhoneInWithTheCode",
	"phones": "signs phones out: TestPhonesAreListedAndSignedOut",
}

// Every form of every screen is pressed below, or said why not: a form that
// nobody names fails here.
func TestEveryFormIsPressed(t *testing.T) {
	named := map[string]bool{}
	for _, form := range pressedForms(t) {
		named[form.template] = true
	}
	posts := regexp.MustCompile(`<form[^>]*method="post"`)
	found, err := filepath.Glob("screens/*.gohtml")
	require.NoError(t, err)
	for _, file := range found {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		name := strings.TrimSuffix(filepath.Base(file), ".gohtml")
		if posts.Match(text) && elsewhere[name] == "" {
			assert.True(t, named[name], "the form of %s is not pressed in any test: name it in pressedForms", file)
		}
	}
	for _, one := range (&Page{}).jobs() {
		if one.write == nil {
			continue
		}
		pressed := false
		for _, form := range pressedForms(t) {
			at, _, _ := strings.Cut(form.open, "?")
			pressed = pressed || at == one.Path
		}
		assert.True(t, pressed, "%s writes, and no test presses it", one.Path)
	}
}

// quarrel has this plot and a copy of it do something each, and brings the
// copy's home.
func quarrel(s *shaky, here, there func(ask.PlotRef)) {
	s.t.Helper()
	twoDevicesOf(s.t, s.gardener, here, there)
	s.now = s.now.Add(time.Hour)
}

// pressing is one form in a browser, and what became of it so far.
type pressing struct {
	*shaky
	b     *webdriver.Browser
	form  pressedForm
	files []string // when it was last looked at
}

// begin opens the form and fills it in.
func (p *pressing) begin() {
	p.t.Helper()
	p.b.Open(p.address + p.form.open)
	if p.form.fill != nil {
		p.form.fill(p.b)
	}
	p.files = p.written()
}

// press sends it and waits for the screen that answers.
func (p *pressing) press() { p.t.Helper(); p.b.Follow(p.form.button) }

// touchTwice touches the button twice before anything can come of the first.
func (p *pressing) touchTwice() {
	p.t.Helper()
	old := p.b.Element("html")
	p.b.Eval(`const e = document.querySelector(`+quoted(p.form.button)+`); e.click(); e.click()`, nil)
	p.gone(old)
}

func (p *pressing) gone(old string) {
	p.t.Helper()
	require.Eventually(p.t, func() bool { return p.b.Try("GET", old+"/name", nil, nil) != nil }, 30*time.Second, 20*time.Millisecond)
}

func quoted(text string) string { return `"` + strings.ReplaceAll(text, `"`, `\"`) + `"` }

// said is the message that something was done; failed tells that the screen says
// that nothing was.
func (p *pressing) said() (done string, failed bool) {
	p.t.Helper()
	var shown struct {
		Done  string
		Title string
	}
	p.b.Eval(`return {done: document.querySelector(".done")?.textContent || "", title: document.title}`, &shown)
	return shown.Done, strings.HasPrefix(shown.Title, "Error: ")
}

// wrote makes sure that the screen says what was written, and that it was.
func (p *pressing) wrote(when string) {
	p.t.Helper()
	done, failed := p.said()
	made := newFiles(p.files, p.written())
	assert.False(p.t, failed, "%s: an error", when)
	assert.NotEmpty(p.t, done, "%s: nothing is said", when)
	assert.Contains(p.t, done, p.form.says, when)
	assert.NotEmpty(p.t, made, "%s: %q, and nothing is written", when, done)
	assert.True(p.t, p.holds(made, p.form.holds), "%s: %v hold no %q", when, made, p.form.holds)
	p.files = p.written()
}

// wroteNothingNew makes sure that what was sent again is said to be there, and is
// there once.
func (p *pressing) wroteNothingNew(when string) {
	p.t.Helper()
	done, failed := p.said()
	assert.Empty(p.t, newFiles(p.files, p.written()), "%s: written again", when)
	assert.False(p.t, failed, "%s: an error, though it is written", when)
	assert.NotEmpty(p.t, done, "%s: nothing is said", when)
}

// agrees makes sure, whatever came of it, that the screen and the plot agree.
func (p *pressing) agrees(when string) {
	p.t.Helper()
	done, failed := p.said()
	made := newFiles(p.files, p.written())
	assert.Equal(p.t, len(made) == 0, failed, "%s: said %q, failed %v, wrote %v", when, done, failed, made)
	assert.Equal(p.t, len(made) > 0, done != "", "%s: said %q, wrote %v", when, done, made)
	p.files = p.written()
}

// wayward is what becomes of a form and its answer on the way.
var wayward = map[string]func(p *pressing){
	"double touch, slow answer": func(p *pressing) {
		p.late.Store(true)
		p.touchTwice()
		p.wrote("touched twice")
	},
	"back and again, reload": func(p *pressing) {
		p.press()
		p.wrote("first")
		p.b.Reload()
		p.wroteNothingNew("loaded again")
		p.b.Back()
		p.press()
		p.wroteNothingNew("gone back and sent again")
	},
	"back and changed": func(p *pressing) {
		if p.form.change == nil {
			return
		}
		p.press()
		p.wrote("first")
		p.b.Back()
		p.form.change(p.b)
		p.press()
		p.agrees("changed")
		_, failed := p.said()
		assert.True(p.t, failed, "it is a question")
		p.b.Reload()
		_, failed = p.said()
		assert.True(p.t, failed, "and stays one")
		assert.Empty(p.t, newFiles(p.files, p.written()))
	},
	"back after a restart": func(p *pressing) {
		p.press()
		p.wrote("first")
		p.shut()
		p.open()
		p.b.Back()
		p.press()
		p.wroteNothingNew("sent again after a restart")
	},
	"a browser that keeps no screen": func(p *pressing) {
		p.kept.Store(false)
		p.press()
		p.wrote("first")
		p.b.Back()
		p.b.Reload()
		assert.Empty(p.t, newFiles(p.files, p.written()))
	},
	"lost answer, sent again": func(p *pressing) {
		p.lost.Store(true)
		p.press() // the browser's own error stands there
		p.lost.Store(false)
		p.b.Reload() // which sends the form once more
		p.wrote("loaded again after a lost answer")
	},
	"lost answer, restart": func(p *pressing) {
		p.lost.Store(true)
		p.press()
		p.lost.Store(false)
		p.shut()
		p.open()
		p.b.Reload()
		done, failed := p.said()
		assert.NotEmpty(p.t, done)
		assert.False(p.t, failed)
		made := newFiles(p.files, p.written())
		assert.True(p.t, p.holds(made, p.form.holds), "%v", made)
		p.files = p.written()
		p.b.Reload()
		p.wroteNothingNew("loaded again")
	},
	"two tabs": func(p *pressing) {
		one := p.b.Tab()
		two := p.b.NewTab()
		p.begin()
		p.b.SwitchTo(one)
		p.press()
		p.wrote("in one tab")
		p.b.SwitchTo(two)
		p.press()
		done, failed := p.said()
		made := newFiles(p.files, p.written())
		if p.form.there {
			assert.NotEmpty(p.t, done)
			assert.True(p.t, p.holds(p.written(), p.form.holds))
			failed = len(made) == 0
		}
		assert.Equal(p.t, len(made) == 0, failed, "in the other: said %q, failed %v, wrote %v", done, failed, made)
		p.b.CloseTab()
		p.b.SwitchTo(one)
	},
}

// Every form, whatever becomes of it and of its answer: what the screen says and
// what the journal has never differ.
func TestEveryFormInTheBrowser(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, webdriver.Look{Width: 390, Height: 844})
	for name, form := range pressedForms(t) {
		pressEveryWay(t, b, name, form)
	}
}

// The same where the page's own scripts run, which look for the network first.
func TestFormsWithScriptInTheBrowser(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, webdriver.Look{Width: 390, Height: 844, Scripts: true})
	forms := pressedForms(t)
	for _, name := range []string{"weigh", "share", "cook late"} {
		pressEveryWay(t, b, name, forms[name])
	}
}

// pressEveryWay presses a form, each way on a plot of its own.
func pressEveryWay(t *testing.T, b *webdriver.Browser, name string, form pressedForm) {
	for way, run := range wayward {
		t.Run(name+"/"+way, func(t *testing.T) {
			g := newGardener(t)
			c := &cook{gardener: g, now: testNow}
			c.start()
			s := newShaky(t, c)
			s.kept.Store(true)
			if form.prepare != nil {
				form.prepare(s)
			}
			p := &pressing{shaky: s, b: b.For(t), form: form}
			p.begin()
			run(p)
		})
	}
}
