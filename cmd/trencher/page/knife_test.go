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
)

// aKnifeTest is the form for a cube of 25 mm, tender after nine and a half
// minutes, asked about with a load.
func aKnifeTest() url.Values {
	return url.Values{"once": {"k1"}, "minutes": {"9.5"}, "said": {"tender"},
		"crop": {"potato, waxy"}, "cut": {"cube"}, "until": {"just-tender"}, "size": {"25"}, "load": {"1.2 kg"}}
}

// minutesOf is the time an answer begins with.
func minutesOf(t *testing.T, body string) string {
	t.Helper()
	found := regexp.MustCompile(`<p class="answer">(.*?) from full steam`).FindStringSubmatch(body)
	require.NotNil(t, found, "no answer")
	return found[1]
}

func TestKnifeTestIsWrittenAndCounts(t *testing.T) {
	g := newGardener(t)
	before := g.get("/steam?size=25&load=1.2+kg").Body.String()
	assert.Contains(t, before, "No knife tests yet in this kitchen")
	form := aKnifeTest()
	form.Set("minutes", "25") // far slower than reckoned
	w := g.post("/steam", form)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	require.Equal(t, 1, g.entries())
	written, err := filepath.Glob(filepath.Join(g.dir, "journal", "2031", "*.yaml"))
	require.NoError(t, err)
	require.Len(t, written, 1)
	text, err := os.ReadFile(written[0])
	require.NoError(t, err)
	for _, line := range []string{"kind: steamed", "crop: potato", "texture: waxy", "cut: cube 25 mm", "until: tender", "25"} {
		assert.Contains(t, string(text), line)
	}

	after := g.get(w.Header().Get("Location")).Body.String()
	assert.Contains(t, after, "Written down: potato, cube 25 mm, tender after 25 min.")
	assert.Contains(t, after, "Rests on 1 knife test in this kitchen")
	assert.Contains(t, after, `name="load" type="text" value="1.2 kg"`, "the question comes back whole")
	assert.Contains(t, after, `<option value="just-tender" selected>`)
	assert.NotEqual(t, minutesOf(t, before), minutesOf(t, after), "the answer rests on the test")

	form.Set("once", "k2")
	require.Equal(t, http.StatusSeeOther, g.post("/steam", form).Code)
	assert.Contains(t, g.get("/steam?size=25").Body.String(), "Rests on 2 knife tests")
	assert.Contains(t, g.get("/steam?size=25&crop=carrot").Body.String(), "No knife tests yet", "those were of another crop")
}

func TestKnifeTestSentTwiceIsOnce(t *testing.T) {
	g := newGardener(t)
	for range 3 {
		w := g.post("/steam", aKnifeTest())
		require.Equal(t, http.StatusSeeOther, w.Code)
		assert.Contains(t, g.get(w.Header().Get("Location")).Body.String(), "Written down: potato, cube 25 mm, tender after 9.5 min.")
	}
	assert.Equal(t, 1, g.entries(), "a double tap writes one test")
}

func TestKnifeTestKeepsWhatWasTyped(t *testing.T) {
	for _, test := range []struct{ name, field, typed, says string }{
		{"no minutes", "minutes", "", "missing"},
		{"a word for minutes", "minutes", "a while", "a while"},
		{"a weight", "minutes", "9 kg", ""},
		{"a span", "minutes", "9-11", "Not one figure."},
		{"below nothing", "minutes", "-9", ""},
		{"nothing", "minutes", "0", "0.5 to 180"},
		{"a day", "minutes", "1440", "0.5 to 180"},
		{"two answers", "minutes", "9 min soft", ""},
		{"no doneness", "said", "burnt", "Choose one of the list."},
	} {
		t.Run(test.name, func(t *testing.T) {
			g := newGardener(t)
			form := aKnifeTest()
			form.Set(test.field, test.typed)
			w := g.post("/steam", form)
			body := w.Body.String()
			require.Equal(t, http.StatusUnprocessableEntity, w.Code)
			assert.Zero(t, g.entries(), "nothing is written")
			assert.Contains(t, body, "Nothing was written yet.")
			assert.Contains(t, body, `<a href="#`+test.field+`">`, "the summary leads to the box")
			assert.Regexp(t, `id="`+test.field+`"[^>]*aria-invalid="true"`, body, "and the box is marked")
			assert.Contains(t, body, test.says)
			assert.NotContains(t, body, "--", "no advice for the command line")
			box := regexp.MustCompile(`<input id="minutes"[^>]*>`).FindString(body)
			assert.Contains(t, box, `value="`+form.Get("minutes")+`"`, "what was typed is kept")
			assert.Contains(t, body, `name="once" value="k1"`, "and it is still the same form")
			assert.Contains(t, body, "from full steam; try a knife from", "under the same answer")

			form.Set("minutes", "9.5")
			form.Set("said", "tender")
			require.Equal(t, http.StatusSeeOther, g.post("/steam", form).Code, "mended, it is taken")
			assert.Equal(t, 1, g.entries())
		})
	}
}

// A form is offered where there is one size of piece to test, and nowhere else;
// sent all the same, it writes nothing.
func TestKnifeTestIsOfOneSize(t *testing.T) {
	g := newGardener(t)
	assert.Contains(t, g.get("/steam?size=25").Body.String(), `name="minutes"`)
	assert.NotContains(t, g.get("/steam?size=25").Body.String(), "counts for the load")
	assert.Contains(t, g.get("/steam?size=25&load=2+kg").Body.String(), "counts for the load asked about: 2 kg")
	for _, query := range []string{"", "size=wide", "size=9000", "size=25&load=a+lot", "crop=stone&size=25"} {
		assert.NotContains(t, g.get("/steam?"+query).Body.String(), `name="minutes"`, query)
	}
	for name, value := range map[string]string{"size": "", "crop": "stone", "cut": "hash", "until": "burnt", "load": "a lot"} {
		form := aKnifeTest()
		form.Set(name, value)
		w := g.post("/steam", form)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, name)
		assert.Regexp(t, `id="(`+name+`|size)"[^>]*aria-invalid`, w.Body.String(), name)
	}
	assert.Zero(t, g.entries())
}

func TestDemoTakesNoKnifeTest(t *testing.T) {
	p := newPage(t, Options{Where: ask.PlotRef{Demo: true}, Now: func() time.Time { return testNow }})
	body := serve(p.Handler(), request("GET", "/steam?size=25", nil, nil)).Body.String()
	assert.Contains(t, body, "from full steam; try a knife from")
	assert.NotContains(t, body, "What the knife said")
	w := follow(p.Handler(), serve(p.Handler(), request("POST", "/steam", aKnifeTest(), nil)))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "only to look at")
}

// A knife test that cannot be read is named above the answer that leaves it
// out, and keeps no new one out.
func TestDamagedKnifeTestIsNamed(t *testing.T) {
	g := newGardener(t)
	folder := filepath.Join(g.dir, "journal", "2031")
	require.NoError(t, os.MkdirAll(folder, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "0701-1200-steamed.yaml"), []byte("kind: stea"), 0o644))
	w := g.post("/steam", aKnifeTest())
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	body := g.get(w.Header().Get("Location")).Body.String()
	assert.Contains(t, body, "Rests on 1 knife test")
	assert.Equal(t, 1, strings.Count(body, "Left out"), body)
	assert.Contains(t, body, "0701-1200-steamed.yaml")
	assert.NotContains(t, body, g.dir, "no path of the machine")
}
