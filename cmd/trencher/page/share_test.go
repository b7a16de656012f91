package page

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"path/filepath"

	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stocked is a gardener who has weighed in 1.82 kg.
func stocked(t *testing.T) *gardener {
	g := newGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	return g
}

const (
	crushed = "Crushed potatoes with lovage"
	salad   = "Cold potato salad with radish and onions"
)

func asked(pairs ...string) string {
	form := url.Values{"go": {"1"}, "dish": {crushed, salad}, "serve": {"18:30"}}
	for i := 0; i < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	return form.Encode()
}

func TestShareAnswersWithThePlan(t *testing.T) {
	g := stocked(t)
	w := g.get("/share?" + asked())
	body := w.Body.String()
	require.Equal(t, http.StatusOK, w.Code)
	for _, text := range []string{"on the table at 18:30", "portions of 2 dishes", crushed, salad, "By the clock", "Sheet to print", "Into the calendar"} {
		assert.Truef(t, strings.Contains(body, text), "the answer does not say %q", text)
	}
	assert.Equal(t, 1, g.entries(), "asking writes nothing")
	assert.Contains(t, g.get("/share?"+asked("serve", "")).Body.String(), "Into the calendar", "a plan for as soon as can be has its times too")
}

func TestShareTakesPeople(t *testing.T) {
	g := stocked(t)
	body := g.get("/share?" + asked("guests", "4 adults\n2 adults no milk\n", "sides", "1")).Body.String()
	assert.Contains(t, body, "Plates")
	assert.Contains(t, body, "4 adults\n2 adults no milk", "the people stay in the form")
}

func TestShareKeepsWhatWasTyped(t *testing.T) {
	g := stocked(t)
	tests := []struct{ name, field, value, keeps string }{
		{"a time that is none", "serve", "25:99", `value="25:99"`},
		{"people who are none", "guests", "six of them", ">six of them</textarea>"},
		{"a limit without an amount", "limits", "butter", ">butter</textarea>"},
		{"nothing to hold back", "keep", "potato", ">potato</textarea>"},
		{"an air that is no temperature", "air", "warm", `value="warm"`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			w := g.get("/share?" + asked(test.field, test.value))
			require.Equal(t, http.StatusUnprocessableEntity, w.Code)
			assert.Regexp(t, `id="`+test.field+`"[^>]*aria-invalid="true"`, w.Body.String(), "the fault stands beside its box")
			assert.Contains(t, w.Body.String(), test.keeps)
			assert.Contains(t, w.Body.String(), `<details open>`)
		})
	}
	w := g.get("/share?" + asked("guests", "3 adults", "sides", "two"))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), `value="two"`)
	w = g.get("/share?go=1&dish=" + url.QueryEscape("../../etc/passwd"))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "a dish that is not in the plot is none")
	assert.Contains(t, w.Body.String(), "Choose a dish")
}

func TestShareWithNothingOnHand(t *testing.T) {
	g := newGardener(t)
	w := g.get("/share?" + asked())
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "Nothing is on hand")
	assert.NotContains(t, w.Body.String(), "--", "no advice for the command line")
	assert.NotContains(t, w.Body.String(), "Write it down as used")
}

// Where all there is is green, the page says so and has nothing to record.
func TestShareOfNothingButGreen(t *testing.T) {
	g := newGardener(t)
	green := url.Values{"planting": {"tub-3"}, "unit": {"kg"}, "bowl-1-full": {"2.44"}, "bowl-1-empty": {"0.3"},
		"grade-1-weight": {"2.14"}, "grade-1-condition": {"green"}}
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", green).Code)
	w := g.get("/share?" + asked())
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Contains(t, w.Body.String(), "bitter and poisonous")
	assert.NotContains(t, w.Body.String(), "Write it down as used")
}

func TestShareRecordsOnce(t *testing.T) {
	g := stocked(t)
	form, err := url.ParseQuery(asked())
	require.NoError(t, err)
	form.Set("once", "r1")
	w := g.post("/share", form)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	after := g.entries()
	assert.Greater(t, after, 1)
	require.Equal(t, http.StatusSeeOther, g.post("/share", form).Code)
	assert.Equal(t, after, g.entries(), "a double tap records once")
	stock := g.get("/?done=r1").Body.String()
	assert.Contains(t, stock, "Written down as used.")
	assert.NotContains(t, stock, "1.76 kg on hand")
}

// The page records the plan that stands on the screen: the form carries its id
// and the fingerprint of the stock. When another phone has used something
// meanwhile, nothing is written, and the plan as it is now is shown instead.
func TestShareRecordsWhatWasShown(t *testing.T) {
	g := stocked(t)
	hidden := func(body string) (plan, stock string) {
		found := regexp.MustCompile(`name="plan" value="([a-z2-7]{5})">\s*<input type="hidden" name="stock" value="([a-z2-7]{10})"`).FindStringSubmatch(body)
		require.NotNil(t, found, "the form carries the plan's id and its stock's fingerprint")
		return found[1], found[2]
	}
	form, err := url.ParseQuery(asked())
	require.NoError(t, err)
	plan, stock := hidden(g.get("/share?" + asked()).Body.String())
	form.Set("once", "r1")
	form.Set("plan", plan)
	form.Set("stock", stock)

	used := url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"0.1"}, "unit": {"kg"}, "once": {"t1"}}
	require.Equal(t, http.StatusSeeOther, g.post("/take", used).Code)
	before := g.entries()
	w := g.post("/share", form)
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "The stock has changed since this plan was made; nothing was written")
	assert.Equal(t, before, g.entries())

	now, stockNow := hidden(w.Body.String())
	assert.NotEqual(t, plan, now)
	form.Set("plan", now)
	form.Set("stock", stockNow)
	require.Equal(t, http.StatusSeeOther, g.post("/share", form).Code)
	assert.Equal(t, before+1, g.entries(), "one entry for the whole plan")
}

func TestSheetAndCalendarOfThePage(t *testing.T) {
	g := stocked(t)
	w := g.get("/share/sheet?" + asked())
	require.Equal(t, http.StatusOK, w.Code)
	assert.Contains(t, w.Body.String(), "<style>")
	assert.Regexp(t, regexp.MustCompile(`style-src 'sha256-[A-Za-z0-9+/=]{44}'`), w.Header().Get("Content-Security-Policy"))
	w = g.get("/share/calendar?" + asked())
	require.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, "text/calendar; charset=utf-8", w.Header().Get("Content-Type"))
	assert.True(t, strings.HasPrefix(w.Body.String(), "BEGIN:VCALENDAR\r\n"))
	for _, target := range []string{"/share/calendar?" + asked("serve", "soon"), "/share/sheet?" + asked("guests", "x"), "/share/sheet?go=1"} {
		assert.GreaterOrEqual(t, g.get(target).Code, 400, target)
	}
}

func TestDishScales(t *testing.T) {
	g := newGardener(t)
	body := g.get("/dish?" + url.Values{"name": {crushed}, "lifted": {"1.85 kg"}}.Encode()).Body.String()
	assert.Contains(t, body, "portions, hot")
	assert.Contains(t, body, "butter")
	body = g.get("/dish?" + url.Values{"name": {crushed}, "portions": {"6"}}.Encode()).Body.String()
	assert.Contains(t, body, "6 portions")
	assert.Contains(t, body, "90 g")
	for _, wrong := range []url.Values{
		{"name": {"no such dish"}}, {"name": {crushed}, "portions": {"six"}}, {"name": {crushed}, "portions": {"-1"}},
		{"name": {crushed}, "lifted": {"heavy"}}, {"name": {crushed}, "lifted": {"1 kg"}, "portions": {"3"}}, {"name": {crushed}, "portions": {"99999999"}},
	} {
		w := g.get("/dish?" + wrong.Encode())
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "%v", wrong)
		for _, value := range wrong["portions"] {
			assert.Contains(t, w.Body.String(), `value="`+value+`"`)
		}
		for _, value := range wrong["lifted"] {
			assert.Contains(t, w.Body.String(), ">"+value+"</textarea>")
		}
	}
}

// An answer that takes a while is announced, and then comes; one that comes at
// once is not announced.
func TestSlowAnswersAreAnnounced(t *testing.T) {
	p := newPage(t, Options{})
	p.patience = 20 * time.Millisecond
	ready := make(chan struct{})
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		p.showSlowly(w, r, "refused", screen{Title: "Slow"}, func() (int, any) {
			<-ready
			return http.StatusOK, "Here it is."
		})
	}))
	defer server.Close()
	answer, err := http.Get(server.URL)
	require.NoError(t, err)
	defer answer.Body.Close()
	said, lines := "", bufio.NewScanner(answer.Body)
	for lines.Scan() {
		said += lines.Text()
		if strings.Contains(lines.Text(), "Working it out") {
			close(ready) // only now, so that the line must have come before
		}
	}
	assert.Contains(t, said, "Here it is.")
	assert.Contains(t, said, "</html>")

	w := httptest.NewRecorder()
	p.patience = time.Minute
	p.showSlowly(w, request("GET", "/", nil, nil), "refused", screen{Title: "Quick"}, func() (int, any) { return http.StatusOK, "At once." })
	assert.NotContains(t, w.Body.String(), "Working it out")
}

// A planner run waits its turn, and gives up with the request.
func TestPlansWaitTheirTurn(t *testing.T) {
	g := stocked(t)
	for range mostPlanning {
		g.page.planning <- struct{}{}
	}
	r := request("GET", "/share?"+asked(), nil, nil)
	ctx, cancel := context.WithTimeout(r.Context(), 10*time.Millisecond)
	defer cancel()
	w := serve(g.handler, r.WithContext(ctx))
	assert.NotContains(t, w.Body.String(), "By the clock")
	<-g.page.planning
	assert.Contains(t, g.get("/share?"+asked()).Body.String(), "By the clock")
}

// More dishes than a phone's screen holds stand folded below the question, to be
// ticked one by one or all at once; what else was typed stays.
func TestManyDishesStandFolded(t *testing.T) {
	g := newGardener(t)
	few := g.get("/share").Body.String()
	assert.NotContains(t, few, `name="tick"`)
	assert.Less(t, strings.Index(few, `id="dish-1"`), strings.Index(few, `id="serve"`), "a few stand on top")
	for n := range mostAtOnce {
		file := filepath.Join(g.dir, "dishes", fmt.Sprintf("more-%02d.yaml", n))
		require.NoError(t, os.WriteFile(file, []byte(fmt.Sprintf("name: More %02d\nportions: 2\nserved: hot\ncrops: [{crop: potato, amount: 400 g, cut: halves}]\n", n)), 0o644))
	}
	all := mostAtOnce + strings.Count(few, `name="dish"`)
	ticked := func(target string) (body string, ticked int) {
		body = g.get(target).Body.String()
		require.Equal(t, all, strings.Count(body, `name="dish"`))
		return body, len(regexp.MustCompile(`name="dish" value="[^"]*" checked`).FindAllString(body, -1))
	}
	body, chosen := ticked("/share")
	assert.Equal(t, all, chosen)
	assert.Contains(t, body, fmt.Sprintf("<details>\n<summary>Dishes: %d of %d</summary>", all, all))
	assert.Less(t, strings.Index(body, `id="serve"`), strings.Index(body, `id="dish-1"`))
	assert.Less(t, strings.Index(body, `name="go"`), strings.Index(body, `name="tick"`), "the return key asks")
	body, chosen = ticked("/share?tick=none&guests=3+adults&dish=More+01")
	assert.Equal(t, 0, chosen)
	assert.Contains(t, body, fmt.Sprintf("<details open>\n<summary>Dishes: 0 of %d</summary>", all))
	assert.Contains(t, body, "3 adults</textarea>")
	assert.NotContains(t, body, "Please mend", "nothing is asked yet")
	_, chosen = ticked("/share?tick=all")
	assert.Equal(t, all, chosen)
	body, chosen = ticked("/share?go=1&dish=More+01")
	assert.Equal(t, 1, chosen)
	assert.Contains(t, body, fmt.Sprintf("<details open>\n<summary>Dishes: 1 of %d</summary>", all))
}
