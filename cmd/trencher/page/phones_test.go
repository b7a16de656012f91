package page

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// Two phones that were let in stand in the list, in plain words; either can be
// signed out, or both at once, and knows nothing of the page any more.
func TestPhonesAreListedAndSignedOut(t *testing.T) {
	now, codes := testNow, []string{}
	p := newPage(t, Options{Where: ask.PlotRef{Dir: newPlot(t)}, Phone: true, Announce: func(code string) { codes = append(codes, code) }, Now: func() time.Time { return now }})
	agents := map[string]string{
		"192.168.1.7":  "Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0",
		"192.168.1.30": "Mozilla/5.0 (iPad; CPU OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1",
	}
	ask := func(from, method, target string, form url.Values, cookies []*http.Cookie) *httptest.ResponseRecorder {
		return serve(p.Handler(), request(method, target, form, func(r *http.Request) {
			r.RemoteAddr = from + ":50123"
			r.Header.Set("User-Agent", agents[from])
			for _, cookie := range cookies {
				r.AddCookie(cookie)
			}
		}))
	}
	letIn := func(from string) []*http.Cookie {
		now = now.Add(time.Minute)
		w := ask(from, "POST", "/code", url.Values{"code": {codes[len(codes)-1]}, "to": {"/phones"}}, nil)
		require.Equal(t, "/phones", w.Header().Get("Location"))
		return w.Result().Cookies()
	}
	android, tablet := letIn("192.168.1.7"), letIn("192.168.1.30")
	now = now.Add(time.Hour)
	body := ask("192.168.1.7", "GET", "/phones", nil, android).Body.String()
	assert.Regexp(t, `(?s)Android phone, Firefox <em>this one</em></h2>\s*<p>At 192.168.1.7. Let in Sat 12 Jul 16:41, last seen Sat 12 Jul 17:42.`, body)
	assert.Regexp(t, `(?s)iPad, Safari</h2>\s*<p>At 192.168.1.30. Let in Sat 12 Jul 16:42, last seen Sat 12 Jul 16:42.`, body)
	assert.NotContains(t, body, android[0].Value, "a visit's token is nobody's to read")
	assert.NotContains(t, body, tablet[0].Value)
	assert.Contains(t, ask("192.168.1.7", "GET", "/", nil, android).Body.String(), `href="/phones"`)

	form := url.Values{"once": {"p1"}, "out": {"2"}}
	for range 2 { // a double touch
		w := ask("192.168.1.7", "POST", "/phones", form, android)
		require.Equal(t, "/phones?done=p1", w.Header().Get("Location"))
	}
	body = ask("192.168.1.7", "GET", "/phones?done=p1", nil, android).Body.String()
	assert.Contains(t, body, "Signed out: iPad, Safari.")
	assert.NotContains(t, body, "192.168.1.30")
	assert.Equal(t, http.StatusUnauthorized, ask("192.168.1.30", "GET", "/weigh", nil, tablet).Code)
	assert.Equal(t, http.StatusOK, ask("192.168.1.7", "GET", "/weigh", nil, android).Code)
	for _, wrong := range []url.Values{{"once": {"p2"}, "out": {"2"}}, {"once": {"p3"}}, {"once": {"p4"}, "out": {"-1"}}} {
		w := follow(p.Handler(), ask("192.168.1.7", "POST", "/phones", wrong, android))
		assert.NotEqual(t, http.StatusOK, w.Code)
	}
	tablet = letIn("192.168.1.30")
	require.Equal(t, http.StatusSeeOther, ask("192.168.1.7", "POST", "/phones", url.Values{"once": {"p5"}, "all": {"1"}}, android).Code)
	for _, cookies := range [][]*http.Cookie{android, tablet} {
		assert.Equal(t, http.StatusUnauthorized, ask("192.168.1.7", "GET", "/", nil, cookies).Code)
	}
}

// Where nobody else is let in there is no such list.
func TestNoPhonesNoList(t *testing.T) {
	g := newGardener(t)
	assert.Equal(t, http.StatusNotFound, g.get("/phones").Code)
	assert.False(t, strings.Contains(g.get("/").Body.String(), "/phones"))
}
