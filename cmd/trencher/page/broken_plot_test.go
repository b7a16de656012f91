package page

import (
	"bytes"
	"fmt"
	"html"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest/journal"
)

var (
	titleOf  = regexp.MustCompile(`<title>([^<]*)</title>`)
	mendOf   = regexp.MustCompile(`(?s)role="alert">(.*?)</div>`)
	mainOf   = regexp.MustCompile(`(?s)<main[^>]*>(.*?)</main>`)
	tagsIn   = regexp.MustCompile(`<[^>]*>`)
	spacesIn = regexp.MustCompile(`\s+`)
)

// gist is what an answer is called, and what it asks to be mended.
func gist(w *httptest.ResponseRecorder) string {
	body := w.Body.String()
	text := fmt.Sprint(w.Code)
	if to := w.Header().Get("Location"); to != "" {
		text += " to " + strings.SplitAfter(to, "=")[0]
	}
	for _, part := range []*regexp.Regexp{titleOf, mendOf} {
		if found := part.FindStringSubmatch(body); found != nil {
			text += " | " + strings.TrimSpace(html.UnescapeString(spacesIn.ReplaceAllString(tagsIn.ReplaceAllString(found[1], " "), " ")))
		}
	}
	if found := mainOf.FindStringSubmatch(body); found != nil && w.Code == http.StatusInternalServerError {
		text += " | " + strings.TrimSpace(html.UnescapeString(spacesIn.ReplaceAllString(tagsIn.ReplaceAllString(found[1], " "), " ")))
	}
	return text
}

// Whatever file of the plot is broken, every screen and every form answers with
// what is wrong, or goes on without that file where it needs none of it: no
// screen passes a fault over in silence.
func TestScreensOfABrokenPlot(t *testing.T) {
	paths := []string{"/share/sheet?go=1&dish=Crushed+potatoes+with+lovage", "/share/calendar?go=1&dish=Crushed+potatoes+with+lovage", "/carry/plot", "/settle",
		"/share?go=1&dish=Crushed+potatoes+with+lovage&serve=18:30", "/dish?name=Crushed+potatoes+with+lovage&portions=3", "/steam?crop=potato,+waxy&cut=cube&size=25", "/boil?crop=carrot&cut=cube&size=10",
		"/keep?food=mash&cooked=2031-07-12T13:00", "/reckoner?dish=Crushed+potatoes+with+lovage", "/weigh?correct=journal/2031/none.yaml", "/take?correct=journal/2031/none.yaml", "/fridge?correct=journal/2031/none.yaml",
		"/next?eat=potato,+3+a+week,+26+weeks", "/keep?food=mash", "/boil?way=blanch&crop=carrot&cut=cube&size=10"}
	for _, one := range jobs() {
		paths = append(paths, one.Path)
	}
	forms := []stop{
		fill("/weigh", "planting=bed-1&unit=kg&bowl-1-full=0.9&bowl-1-empty=0.31"), fill("/weigh", "planting=bed-1&unit=kg&bowl-1-full=0.9&replaces=journal/2031/none.yaml"),
		fill("/take", "lot=tub-3/20-45-sound&to=use&weight=0.1&unit=kg"), fill("/take", "lot=tub-3/20-45-sound&to=reweighed&weight=0.7&unit=kg"),
		fill("/share", "go=1&serve=18:30&dish=Crushed potatoes with lovage"), fill("/cook", "step=s1&says=done"), fill("/cook", "says=five-late"),
		fill("/recipe", "keep=1&cook=beetroot=steam&text=Beetroot with butter%0AServes 4%0A600 g beetroot%0A40 g butter%0ASteam the beetroot."),
		fill("/plant", "called=bed-9&crop=carrot&in=bed&size=2&how=sown&planted=2031-04-12"), fill("/steam", aKnifeTest().Encode()),
		fill("/fridge", "name=Soup&event=cooked&amount=4"), fill("/undo", "entry=journal/2031/none.yaml"), fill("/undo", ""),
		fill("/settle", "all=1"), fill("/settle", "counts=journal/2031/none.yaml"), fill("/settle", "strike=journal/2031/none.yaml"), fill("/carry/home", ""), fill("/carry", ""),
	}
	for name, breaking := range map[string]struct{ file, text string }{
		"kitchen": {"kitchen.yaml", "measures: furlongs\n"}, "plantings": {"plantings.yaml", "- id: [\n"}, "dish": {"dishes/crushed.yaml", "name: Crushed\nportions: many\n"},
		"entry": {"journal/2031/0101-0000-lift-tub-3.yaml", "kind: lift\n"}, "gone": {"kitchen.yaml", ""},
	} {
		t.Run(name, func(t *testing.T) {
			g := newGardener(t)
			g.page.where.Device = func() string { return "aaaaaa" }
			require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
			file := filepath.Join(g.dir, filepath.FromSlash(breaking.file))
			require.NoError(t, os.WriteFile(file, []byte(breaking.text), 0o644))
			if breaking.text == "" {
				require.NoError(t, os.Remove(file))
			}
			var out strings.Builder
			for _, path := range paths {
				fmt.Fprintf(&out, "%s\n  %s\n", path, gist(g.get(path)))
			}
			for _, one := range forms {
				fmt.Fprintf(&out, "%s %s\n  %s\n", one.to, strings.ReplaceAll(one.form.Encode(), url.QueryEscape(one.form.Get("once")), "…"), gist(g.post(one.to, one.form)))
			}
			require.NotContains(t, out.String(), g.dir, "a path is nobody's business on the network")
			compareInFull(t, "broken-"+name, out.String())
		})
	}
}

// compareInFull compares a text with its golden file.
func compareInFull(t *testing.T, name, text string) {
	t.Helper()
	file := filepath.Join("testdata", "screens", name+".txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}

// parcelForm is a form with a file chosen in it.
func parcelForm(t *testing.T, file string, data []byte) *http.Request {
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile("parcel", file)
	require.NoError(t, err)
	_, err = part.Write(data)
	require.NoError(t, err)
	require.NoError(t, form.Close())
	r := request("POST", "/carry", nil, nil)
	r.Body, r.ContentLength = http.NoBody, 0
	sent := httptest.NewRequest("POST", "http://"+r.Host+"/carry", &body)
	sent.Header = r.Header.Clone()
	sent.Header.Set("Content-Type", form.FormDataContentType())
	return sent
}

func sendForm(g *gardener, r *http.Request) *httptest.ResponseRecorder {
	return follow(g.handler, serve(g.handler, r))
}

// What a phone has written down comes home as a parcel, once; a parcel that is none,
// or none at all, is told, and the whole plot can be saved.
func TestCarryToAndFromHome(t *testing.T) {
	home, phone := newGardener(t), newGardener(t)
	phone.page.where.Device, phone.page.pocket = func() string { return "phonea" }, true
	assert.Contains(t, phone.get("/carry").Body.String(), "0 entries")
	require.Equal(t, http.StatusSeeOther, phone.post("/weigh", aLift()).Code)
	assert.Contains(t, phone.get("/carry").Body.String(), "1 entry, 1820 g lifted")

	taken := serve(phone.handler, request("POST", "/carry/home", url.Values{"once": {"a"}}, nil))
	require.Equal(t, http.StatusOK, taken.Code)
	assert.Equal(t, "application/zip", taken.Header().Get("Content-Type"))
	assert.Equal(t, `attachment; filename="trencher-2031-07-12-1640.zip"`, taken.Header().Get("Content-Disposition"))
	again := serve(phone.handler, request("POST", "/carry/home", url.Values{"once": {"b"}}, nil))
	assert.Less(t, again.Body.Len(), taken.Body.Len(), "what was taken home is not carried again")

	brought := sendForm(home, parcelForm(t, "trencher.zip", taken.Body.Bytes()))
	require.Equal(t, http.StatusOK, brought.Code, brought.Body.String())
	assert.Contains(t, brought.Body.String(), "1 entry, 1820 g lifted")
	assert.Equal(t, 1, home.entries())
	twice := sendForm(home, parcelForm(t, "trencher.zip", taken.Body.Bytes()))
	require.Equal(t, http.StatusOK, twice.Code)
	assert.Equal(t, 1, home.entries(), "brought twice is there once")

	whole := home.get("/carry/plot")
	assert.Equal(t, "application/zip", whole.Header().Get("Content-Type"))
	other := t.TempDir()
	_, err := journal.Unpack(t.Context(), filepath.Join(other, "plot"), whole.Body.Bytes(), journal.Options{})
	require.NoError(t, err)
	stock, err := ask.Stock(t.Context(), ask.PlotRef{Dir: filepath.Join(other, "plot"), Now: testNow})
	require.NoError(t, err)
	assert.Len(t, stock.Lots, 3)

	for data, says := range map[string]string{"": "", "no parcel at all": ""} {
		w := sendForm(home, parcelForm(t, "x.zip", []byte(data)))
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
		assert.Contains(t, w.Body.String(), "<title>Error: ")
		assert.Contains(t, w.Body.String(), says)
	}
	w := sendForm(home, request("POST", "/carry", url.Values{"once": {"c"}}, nil))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "Choose the file that was saved on the other device.")
	assert.Equal(t, 1, home.entries())

	// Two devices that corrected one entry: home says that something is open.
	require.Equal(t, http.StatusSeeOther, home.post("/weigh", correctedLift(t, home, "1.5")).Code)
	require.Equal(t, http.StatusSeeOther, phone.post("/weigh", correctedLift(t, phone, "1.6")).Code)
	taken = serve(phone.handler, request("POST", "/carry/home", url.Values{"once": {"d"}}, nil))
	brought = sendForm(home, parcelForm(t, "trencher.zip", taken.Body.Bytes()))
	require.Equal(t, http.StatusOK, brought.Code)
	assert.Contains(t, brought.Body.String(), `href="/settle"`)
}

// correctedLift is the form of the one lift, with another first bowl.
func correctedLift(t *testing.T, g *gardener, full string) url.Values {
	files := g.files()
	form := aLift()
	name, err := filepath.Rel(g.dir, files[0])
	require.NoError(t, err)
	form.Set("replaces", filepath.ToSlash(name))
	form.Set("bowl-1-full", full)
	form.Set("once", "corrected "+full)
	return form
}

// A lift that is corrected fills the form with what it says, and keeps what the
// form has no box for.
func TestCorrectingKeepsWhatHasNoBox(t *testing.T) {
	g := newGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	file := g.files()[0]
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	more := "mothers: 250 g\nsoil: 1.5 kg\nleft: some\nwhere: trug\nsays: after rain\n...\n"
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(text), "...\n", more, 1)), 0o644))
	name, err := filepath.Rel(g.dir, file)
	require.NoError(t, err)
	body := g.get("/weigh?correct=" + filepath.ToSlash(name)).Body.String()
	for _, box := range []string{`name="bowl-1-full" type="text" value="1.46"`, `value="0.98"`, `value="0.82"`, `value="20"`, `value="45"`, `value="60 g"`, `name="replaces" value="` + filepath.ToSlash(name) + `"`} {
		assert.Contains(t, body, box)
	}
	form := correctedLift(t, g, "1.56")
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", form).Code)
	made := newFiles([]string{file}, g.files())
	require.Len(t, made, 1)
	corrected, err := os.ReadFile(made[0])
	require.NoError(t, err)
	for _, line := range []string{"gross: 1.56 kg", "mothers: 250 g\n", "soil: 1.5 kg\n", "left: some\n", "where: trug\n", "says: after rain\n", "replaces: "} {
		assert.Contains(t, string(corrected), line)
	}
}
