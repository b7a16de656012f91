package pocket

import (
	"fmt"
	"html"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/page"
	"trencher/cmd/trencher/webdriver"
	"trencher/harvest/journal"
)

// request is what the page is asked: an address, or a form sent there.
type request struct {
	address string
	form    url.Values // nil: nothing is sent
}

// The phone answers with the server's own bytes: the same plot, clock and device,
// a hundred random questions and forms, plans and mistakes among them. Only the
// token of a form, drawn anew each time, may differ. Afterwards the plots are the
// same, entries and their names.
func TestAnswersAreTheServers(t *testing.T) {
	needLive(t)
	home := homePlot(t)
	d := serveDriven(t, home)
	clock := time.Now().Truncate(time.Second)
	zone, err := time.LoadLocation("Europe/Oslo")
	require.NoError(t, err)
	now := func() time.Time { return clock.In(zone) }
	unpacked := filepath.Join(t.TempDir(), "plot")
	_, err = journal.Unpack(t.Context(), unpacked, parcelOf(t, home), journal.Options{Zone: zone})
	require.NoError(t, err)
	where := ask.PlotRef{Dir: unpacked, Device: func() string { return "bcdefg" }}
	served, err := page.New(page.Options{Where: where, Port: 80, Pocket: true, Now: now})
	require.NoError(t, err)

	b := webdriver.Start(t, webdriver.Look{Width: 600, Scripts: true})
	b.Open(d.URL + "/drive.html")
	do(t, b, fmt.Sprintf(`await nameDevice("bcdefg"); await startEngine("Europe/Oslo", %d)`, clock.UnixMilli()))
	random := rand.New(rand.NewPCG(21, 2))
	token := regexp.MustCompile(`name="once" value="[^"]*"|"entry-[^"]*"`)
	status := map[int]int{}
	last := ""
	for n := range 100 {
		asked := randomRequest(random, n, last)
		answer := httptest.NewRecorder()
		served.Handler().ServeHTTP(answer, asked.toServer())
		if to := answer.Header().Get("Location"); strings.Contains(to, "answer=") { // what is wrong has an address of its own
			answer = httptest.NewRecorder()
			served.Handler().ServeHTTP(answer, request{address: to}.toServer())
		}
		do(t, b, asked.toPhone())
		var got struct {
			Status  int
			Headers map[string]string
			Text    string
		}
		b.Eval("return window.came", &got)
		says := fmt.Sprint(asked.address, " ", asked.form)
		assert.Equal(t, answer.Code, got.Status, says)
		for name := range answer.Header() {
			assert.Equal(t, answer.Header().Get(name), got.Headers[name], "%s of %s", name, says)
		}
		assert.Equal(t, token.ReplaceAllString(answer.Body.String(), ""), token.ReplaceAllString(got.Text, ""), says)
		status[answer.Code]++
		last = answer.Body.String()
	}
	t.Log("answers by their status:", status)
	for _, code := range []int{http.StatusOK, http.StatusSeeOther, http.StatusNotFound, http.StatusUnprocessableEntity} {
		assert.Positive(t, status[code], "answers of status %d among the questions", code)
	}
	do(t, b, "await sendHome()")
	assert.Equal(t, parcelAt(t, unpacked, now()), d.parcel, "the same entries, byte for byte, under the same names")
}

func (r request) toServer() *http.Request {
	if r.form == nil {
		return httptest.NewRequest("GET", "http://localhost"+r.address, nil)
	}
	sent := httptest.NewRequest("POST", "http://localhost"+r.address, strings.NewReader(r.form.Encode()))
	sent.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return sent
}

func (r request) toPhone() string {
	if r.form == nil {
		return fmt.Sprintf("return textOf('GET', %q)", r.address)
	}
	return fmt.Sprintf("return textOf('POST', %q, %q)", r.address, r.form.Encode())
}

// randomRequest is a question of the page or a form sent to it, some of them with
// mistakes. What a form of the last screen holds unseen is sent as it came.
func randomRequest(random *rand.Rand, n int, last string) request {
	pick := func(list ...string) string { return list[min(random.IntN(len(list)), random.IntN(len(list)))] } // mostly the first
	boxes := func(path string, of ...[]string) string {
		q := url.Values{}
		for _, box := range of {
			if random.IntN(5) > 0 {
				q.Set(box[0], pick(box[1:]...))
			}
		}
		return path + "?" + q.Encode()
	}
	once := url.Values{"once": {fmt.Sprintf("form-%d", n)}}
	form := func(path string, of ...[]string) request {
		for _, box := range of {
			once.Set(box[0], pick(box[1:]...))
		}
		return request{path, once}
	}
	if hidden := hiddenIn(last, "/undo", "entry"); hidden != nil && random.IntN(2) == 0 {
		return request{"/undo", hidden}
	}
	if hidden := hiddenIn(last, "/share", "plan"); hidden != nil && random.IntN(2) == 0 {
		return request{"/share", hidden}
	}
	if done := regexp.MustCompile(`^<a href="(/[^"]*done=[^"]*)">See Other</a>`).FindStringSubmatch(last); done != nil {
		return request{address: html.UnescapeString(done[1])}
	}
	switch random.IntN(12) {
	case 0:
		return request{address: pick("/", "/none", "/weigh", "/undo", "/take", "/carry", "/fridge", "/recipe", "/style.css")}
	case 1, 2:
		return request{address: boxes("/share", []string{"go", "1"}, []string{"dish", "Spring onion mash", "Cold potato salad with yoghurt"},
			[]string{"serve", "18:30", "", "25:00"}, []string{"guests", "4 adults", "", "2 adults no milk\n1 child", "two and a half"},
			[]string{"many", "2", ""}, []string{"limits", "", "butter = 50 g", "butter"}, []string{"keep", "500 g potato", ""})}
	case 3:
		return request{address: boxes(pick("/share/calendar", "/share/sheet"), []string{"go", "1"}, []string{"dish", "Spring onion mash"}, []string{"serve", "18:30"})}
	case 4, 5:
		return request{address: boxes("/dish", []string{"name", "Spring onion mash", "Crushed potatoes with chives", "stones"},
			[][]string{{"lifted", "1.85 kg", "900 g", "a bucket"}, {"portions", "4", "12", "0"}}[random.IntN(2)], []string{"serve", "18:30"})}
	case 6:
		return request{address: boxes("/steam", []string{"crop", "potato, waxy", "beetroot", "stone"}, []string{"cut", "cube", "whole"},
			[]string{"size", "25", "35.5", "x"}, []string{"until", "tender", "soft"}, []string{"load", "1.2 kg", ""})}
	case 7:
		return request{address: boxes(pick("/season", "/next"), []string{"year", fmt.Sprint(time.Now().Year()), "1999", "MMXXXI"})}
	case 8, 9:
		return form("/weigh", []string{"planting", "bed-2", "tub-1", "bed-9"}, []string{"unit", "kg", "lb"},
			[]string{"bowl-1-full", fmt.Sprintf("1.%d", n), "0.9", "1,2,3"}, []string{"bowl-1-empty", "0.31", "0", "5"})
	case 10:
		return form("/take", []string{"lot", "tub-1/20-45-sound", "tub-1/45-65-scabby", "bed-2/45-65-sound", "tub-9"}, []string{"to", "use", "give", "compost"},
			[]string{"weight", "0.1", "0.05", "90"}, []string{"unit", "kg"}, []string{"detail", "", "the neighbours"})
	}
	return form("/fridge", []string{"name", "Spring onion mash", "salad", ""}, []string{"event", "cooked", "chilled", "eaten"},
		[]string{"food", "", "mash"}, []string{"amount", "", "2", "lots"})
}

// hiddenIn is what the form of a screen that is sent there holds unseen, with a
// box of this name among it; nil where the screen has none.
func hiddenIn(screen, action, name string) url.Values {
	_, rest, ok := strings.Cut(screen, `method="post" action="`+action+`">`)
	if !ok {
		return nil
	}
	rest, _, _ = strings.Cut(rest, "</form>")
	hidden := url.Values{}
	for _, found := range regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)">`).FindAllStringSubmatch(rest, -1) {
		hidden.Add(found[1], html.UnescapeString(found[2]))
	}
	if !hidden.Has(name) {
		return nil
	}
	return hidden
}
