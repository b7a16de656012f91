package page

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const testPort = 8460

// newPage is a page on the test port over the given options.
func newPage(t *testing.T, options Options) *Page {
	t.Helper()
	options.Port = testPort
	if options.Phone && options.Announce == nil {
		options.Announce = func(string) {}
	}
	p, err := New(options)
	require.NoError(t, err)
	return p
}

// guarded stands the guard before a screen that notes every request it sees.
func guarded(p *Page) (handler http.Handler, seen *int) {
	seen = new(int)
	return p.guard(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		*seen++
		io.WriteString(w, "screen")
	})), seen
}

// request is one from this machine's browser; change alters it.
func request(method, target string, form url.Values, change func(*http.Request)) *http.Request {
	var body io.Reader
	if form != nil {
		body = strings.NewReader(form.Encode())
	}
	r := httptest.NewRequest(method, target, body)
	r.Host, r.RemoteAddr = "127.0.0.1:8460", "192.168.1.30:50123"
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if change != nil {
		change(r)
	}
	return r
}

func serve(handler http.Handler, r *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	handler.ServeHTTP(w, r)
	return w
}

// A name that an attacker points at this machine must not reach the page.
func TestGuardChecksHost(t *testing.T) {
	tests := []struct {
		host            string
		alone, toPhones bool
	}{
		{"127.0.0.1:8460", true, true},
		{"localhost:8460", true, true},
		{"[::1]:8460", true, true},
		{"127.0.0.2:8460", true, true},
		{"192.168.1.20:8460", false, true},
		{"[fe80::1]:8460", false, true},
		{"[fd12:3456:789a::1]:8460", false, true},
		{"203.0.113.7:8460", false, false},
		{"[2001:db8::1]:8460", false, false},
		{"127.0.0.1:80", false, false},
		{"127.0.0.1", false, false},
		{"localhost", false, false},
		{"attacker.example:8460", false, false},
		{"attacker.example", false, false},
		{"127.0.0.1.attacker.example:8460", false, false},
		{"localhost.attacker.example:8460", false, false},
		{"localhost:8460@attacker.example", false, false},
		{"2130706433:8460", false, false},
		{"", false, false},
	}
	alone, toPhones := newPage(t, Options{}), newPage(t, Options{Phone: true})
	for _, test := range tests {
		t.Run(test.host, func(t *testing.T) {
			handler, seen := guarded(alone)
			w := serve(handler, request("GET", "/", nil, func(r *http.Request) { r.Host = test.host }))
			assert.Equal(t, test.alone, *seen == 1)
			if !test.alone {
				assert.Equal(t, http.StatusMisdirectedRequest, w.Code)
			}
			assert.Equal(t, test.toPhones, toPhones.isOurHost(test.host), "with a phone let in")
		})
	}
}

func TestGuardRefusesOtherSitesWrites(t *testing.T) {
	tests := []struct {
		name    string
		method  string
		headers map[string]string
		passes  bool
	}{
		{"the page's own form", "POST", map[string]string{"Sec-Fetch-Site": "same-origin"}, true},
		{"the page's own form, older browser", "POST", map[string]string{"Origin": "http://127.0.0.1:8460"}, true},
		{"another site", "POST", map[string]string{"Sec-Fetch-Site": "cross-site"}, false},
		{"another port of this machine", "POST", map[string]string{"Sec-Fetch-Site": "same-site"}, false},
		{"another site, older browser", "POST", map[string]string{"Origin": "http://attacker.example"}, false},
		{"another port, older browser", "POST", map[string]string{"Origin": "http://127.0.0.1:3000"}, false},
		{"an origin kept secret", "POST", map[string]string{"Origin": "null"}, false},
		{"another site's method of its own", "DELETE", map[string]string{"Sec-Fetch-Site": "cross-site"}, false},
		{"a link from another site only reads", "GET", map[string]string{"Sec-Fetch-Site": "cross-site"}, true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			handler, seen := guarded(newPage(t, Options{}))
			w := serve(handler, request(test.method, "/weigh", url.Values{"weight": {"1 kg"}}, func(r *http.Request) {
				for name, value := range test.headers {
					r.Header.Set(name, value)
				}
			}))
			assert.Equal(t, test.passes, *seen == 1)
			if !test.passes {
				assert.Equal(t, http.StatusForbidden, w.Code)
				assert.Contains(t, w.Body.String(), "another site")
			}
		})
	}
}

func TestGuardBoundsForms(t *testing.T) {
	many := url.Values{}
	for range maxFields + 1 {
		many.Add("a", "")
	}
	tests := []struct {
		name   string
		form   url.Values
		status int
	}{
		{"a form", url.Values{"weight": {"1 kg"}}, http.StatusOK},
		{"too long", url.Values{"weight": {strings.Repeat("1", maxBody)}}, http.StatusRequestEntityTooLarge},
		{"too many values", many, http.StatusRequestEntityTooLarge},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			handler, seen := guarded(newPage(t, Options{}))
			w := serve(handler, request("POST", "/weigh", test.form, nil))
			assert.Equal(t, test.status, w.Code)
			assert.Equal(t, test.status == http.StatusOK, *seen == 1)
		})
	}
	handler, seen := guarded(newPage(t, Options{}))
	w := serve(handler, request("GET", "/?a=%zz", nil, nil))
	assert.Equal(t, http.StatusBadRequest, w.Code, "a broken query")
	assert.Zero(t, *seen)
}

func TestGuardSetsHeaders(t *testing.T) {
	p := newPage(t, Options{})
	for _, target := range []string{"/", "/weigh", "/nothing-here"} {
		header := serve(p.Handler(), request("GET", target, nil, nil)).Header()
		policy := header.Get("Content-Security-Policy")
		assert.Contains(t, policy, "default-src 'none'")
		assert.Contains(t, policy, "frame-ancestors 'none'")
		assert.NotContains(t, policy, "unsafe")
		assert.Contains(t, policy, "script-src 'self'; connect-src 'self'", "the page's own, and none within a screen")
		assert.Equal(t, "nosniff", header.Get("X-Content-Type-Options"))
		assert.Equal(t, "no-store", header.Get("Cache-Control"))
		assert.Equal(t, "same-origin", header.Get("Referrer-Policy"))
		assert.Equal(t, "same-origin", header.Get("Cross-Origin-Opener-Policy"))
		assert.Equal(t, "same-origin", header.Get("Cross-Origin-Resource-Policy"))
	}
	handler, _ := guarded(p)
	for of, kept := range map[string]string{"GET /share": "private, no-cache", "GET /share/sheet": "private, no-cache", "GET /dish": "private, no-cache", "GET /reckoner": "private, no-cache",
		"POST /share": "no-store", "GET /share/calendar": "no-store", "GET /fridge": "no-store", "GET /keep": "no-store"} {
		method, path, _ := strings.Cut(of, " ")
		assert.Equal(t, kept, serve(handler, request(method, path, nil, nil)).Header().Get("Cache-Control"), of)
	}
}

func TestGuardBoundsTheWork(t *testing.T) {
	p := newPage(t, Options{})
	handler := p.guard(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		until, bounded := r.Context().Deadline()
		assert.True(t, bounded)
		assert.LessOrEqual(t, time.Until(until), maxWorking)
	}))
	serve(handler, request("GET", "/", nil, nil))
}

// No request names a file: whatever path is asked for, only the fixed
// addresses answer, and nothing of a file beside the page comes back.
func TestNoPathReachesTheDisk(t *testing.T) {
	dir := t.TempDir()
	secret := "nobody outside reads this"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte(secret), 0o644))
	options := Options{}
	options.Where.Dir = dir
	p := newPage(t, options)
	for _, target := range []string{
		"/kitchen.yaml", "/../kitchen.yaml", "/..%2f..%2fetc/passwd", "/%2e%2e/kitchen.yaml", "/style.css/../kitchen.yaml",
		"/style.css/", "/screens/frame.gohtml", "/page.css", "//etc/passwd", "/.git/config", "/journal/2031/", "/style.css%00.html",
		`/..\..\kitchen.yaml`, "/" + url.PathEscape(filepath.Join(dir, "kitchen.yaml")),
	} {
		t.Run(target, func(t *testing.T) {
			r := request("GET", "/", nil, nil)
			r.URL = &url.URL{Opaque: "//127.0.0.1:8460" + target, Path: target}
			if plain, err := url.PathUnescape(target); err == nil {
				r.URL = &url.URL{Path: plain, RawPath: target}
			}
			w := serve(p.Handler(), r)
			assert.NotEqual(t, http.StatusOK, w.Code)
			assert.NotContains(t, w.Body.String(), secret)
			assert.NotContains(t, w.Body.String(), "root:")
			if at := w.Header().Get("Location"); at != "" {
				assert.True(t, strings.HasPrefix(at, "/") && !strings.HasPrefix(at, "//"), "no redirect leaves the page: %s", at)
			}
		})
	}
}
