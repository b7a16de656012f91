package page

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever form it is in: what is wrong is said in the title, beside its box,
// which is marked and has the focus, with what was typed still in it. What was
// sent is answered at an address of its own.
func TestEveryFormMarksWhatIsWrong(t *testing.T) {
	for _, row := range []struct {
		name, method, path string
		form               url.Values
		box, typed         string
	}{
		{"weigh", "POST", "/weigh", url.Values{"planting": {"tub-3"}, "unit": {"kg"}, "bowl-1-full": {"heavy"}}, "bowl-1-full", "heavy"},
		{"take", "POST", "/take", url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"a lot"}, "unit": {"kg"}}, "weight", "a lot"},
		{"take too much", "POST", "/take", url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"90"}, "unit": {"kg"}}, "weight", "90"},
		{"take tomorrow", "POST", "/take", url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"0.1"}, "unit": {"kg"}, "at": {"2031-07-13T10:00"}}, "at", "2031-07-13T10:00"},
		{"weigh again", "POST", "/take", url.Values{"lot": {"tub-3/20-45-sound"}, "to": {"reweighed"}, "weight": {"0.7"}, "rotten": {"some"}, "unit": {"kg"}}, "rotten", "some"},
		{"fridge", "POST", "/fridge", url.Values{"event": {"cooked"}, "amount": {"4"}}, "name", ""},
		{"fridge amount", "POST", "/fridge", url.Values{"event": {"cooked"}, "name": {salad}, "amount": {"plenty"}}, "amount", "plenty"},
		{"knife", "POST", "/steam", url.Values{"crop": {"potato, waxy"}, "cut": {"cube"}, "until": {"tender"}, "size": {"25"}, "minutes": {"a while"}, "finding": {"just-right"}, "said": {"tender"}}, "minutes", "a while"},
		{"recipe", "POST", "/recipe", url.Values{"text": {"Mash\nServes 2\n1 kg potatoes\nBoil for 20 minutes."}, "portions": {"a few"}}, "portions", "a few"},
		{"nothing of a recipe", "POST", "/recipe", url.Values{"text": {""}}, "text", ""},
		{"share", "GET", "/share", url.Values{"go": {"1"}, "dish": {crushed}, "guests": {"6 of them"}}, "guests", "6 of them"},
		{"dish", "GET", "/dish", url.Values{"name": {crushed}, "portions": {"-2"}}, "portions", "-2"},
		{"steam", "GET", "/steam", url.Values{"size": {"wide"}}, "size", "wide"},
		{"boil", "GET", "/boil", url.Values{"crop": {"potato, waxy"}, "cut": {"cube"}, "size": {"wide"}}, "size", "wide"},
		{"keep", "GET", "/keep", url.Values{"food": {"boiled-potatoes"}, "cooked": {"yesterday-ish"}}, "cooked", "yesterday-ish"},
		{"season", "GET", "/season", url.Values{"year": {"soon"}}, "year", "soon"},
		{"next", "GET", "/next", url.Values{"year": {"soon"}}, "year", "soon"},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := stocked(t)
			var w *httptest.ResponseRecorder
			if row.method == "POST" {
				sent := serve(g.handler, request("POST", row.path, row.form, nil))
				require.Equal(t, http.StatusSeeOther, sent.Code, "an address of its own")
				w = g.get(sent.Header().Get("Location"))
			} else {
				w = g.get(row.path + "?" + row.form.Encode())
			}
			body := w.Body.String()
			assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
			assert.Contains(t, body, "<title>Error: ")
			box := regexp.MustCompile(`(?s)<(?:input|select|textarea) id="` + row.box + `"[^>]*>(?:[^<]*</textarea>)?`).FindString(body)
			require.NotEmpty(t, box)
			assert.Contains(t, box, `aria-invalid="true"`)
			assert.Contains(t, box, "autofocus")
			assert.Contains(t, box, row.typed)
			assert.Contains(t, body, `id="`+row.box+`-says"`, "what is wrong stands beside it")
			assert.Equal(t, 1, strings.Count(body, "autofocus"))
			assert.Equal(t, 1, g.entries(), "nothing is written")
		})
	}
}
