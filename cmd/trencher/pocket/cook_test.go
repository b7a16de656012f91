package pocket

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/webdriver"
)

// A plan is cooked on the phone without a network: the page's own script counts
// down, what the cook says is written down, the screen is made anew by itself,
// and after a reload it goes on where it was.
func TestCookingOnThePhone(t *testing.T) {
	needLive(t)
	server := servePhone(t, homePlot(t))
	b := startPhone(t, server.URL)
	waitFor(t, b, `return navigator.serviceWorker.controller !== null`)
	server.Close()
	goOffline(b)
	visit(t, b, "/share", "Share out")
	turn(t, b, func() { b.Click("button[name=go]") })
	waitForTitle(t, b, "Share out")
	turn(t, b, func() { b.Click("#record button") })
	waitForTitle(t, b, "")

	visit(t, b, "/cook", "Cooking")
	assert.Empty(t, b.Violations())
	b.Picture("pocket-cook")
	countsDown(t, b)
	first := b.Text(".what")
	turn(t, b, func() { b.Click(".step button") })
	waitForTitle(t, b, "Cooking")
	assert.NotEmpty(t, b.Text(".done"))
	assert.NotEqual(t, first, b.Text(".what"), "the next step")

	b.Eval(`const root = document.querySelector("[data-cooking]"); root.classList.add("old"); root.dataset.again = "0"`, nil)
	waitFor(t, b, `return document.querySelector("[data-cooking]:not(.old)") !== null`)
	countsDown(t, b)

	b.Ask("POST", "/refresh", nil, nil)
	waitForTitle(t, b, "Cooking")
	assert.NotEqual(t, first, b.Text(".what"), "after a reload")
	countsDown(t, b)
	visit(t, b, "/carry", "To and from home")
	assert.Contains(t, b.Text(".answer"), "Not taken home yet: 2 entries.")
}

// countsDown waits until a timer of the screen has gone on.
func countsDown(t *testing.T, b *webdriver.Browser) {
	t.Helper()
	waitFor(t, b, `return document.querySelector("[role=timer]") !== null`)
	was := b.Text("[role=timer]")
	waitFor(t, b, `return document.querySelector("[role=timer]").textContent !== `+scriptList([]string{was})+`[0]`)
}

// aheadScript puts a phone's clock ahead of this machine's.
const aheadScript = `(() => { const Real = Date; globalThis.Date = class extends Real {
	constructor(...a) { super(...(a.length ? a : [Real.now() + %[1]d])); }
	static now() { return Real.now() + %[1]d; }
}; })()`

// serveAhead shows a pocket whose clock can be put ahead, which a phone takes
// when it loads the page.
func serveAhead(t *testing.T) (server *httptest.Server, ahead *atomic.Int64) {
	t.Helper()
	program, err := made()
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "phone")
	require.NoError(t, WriteFolder(dir, program, parcelOf(t, homePlot(t))))
	engine, err := os.ReadFile(filepath.Join(dir, "engine.js"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "engine.js"), append([]byte("importScripts(\"ahead.js\");\n"), engine...), 0o644))
	ahead = new(atomic.Int64)
	mux := http.NewServeMux()
	mux.Handle("GET /", http.FileServer(http.Dir(dir)))
	mux.HandleFunc("GET /ahead.js", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/javascript")
		w.Header().Set("Cache-Control", "no-store")
		fmt.Fprintf(w, aheadScript, ahead.Load())
	})
	server = httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return server, ahead
}

// watched counts what the page's script does with sound and screen, and what goes
// wrong. A browser that allows them has its own sound; one that does not refuses
// both as the standards say (Web Audio API, Screen Wake Lock API, W3C).
const watched = `window.wrong = []; window.tones = 0; window.wakes = 0;
addEventListener("error", event => wrong.push(event.message));
addEventListener("unhandledrejection", event => wrong.push(String(event.reason)));
const allowed = %v, Sound = window.AudioContext, refused = () => new DOMException("not here", "NotAllowedError");
window.AudioContext = allowed
	? class extends Sound { createOscillator() { tones++; return super.createOscillator(); } }
	: class { state = "suspended"; resume() { return Promise.reject(refused()); } };
Object.defineProperty(navigator, "wakeLock", { value: { async request() {
	wakes++;
	if (!allowed) throw refused();
	return Object.assign(new EventTarget(), { release() {} });
} } });`

// When the moment for the knife has come the phone says so, sounds where the
// browser allows it, and shows what to do then without being asked; what the knife
// says is written down. A browser that allows neither sound nor a screen that
// stays on cooks as well.
func TestTheMomentComesOnThePhone(t *testing.T) {
	needLive(t)
	for name, allowed := range map[string]bool{"allowed": true, "refused": false} {
		t.Run(name, func(t *testing.T) {
			server, ahead := serveAhead(t)
			b := webdriver.Start(t, webdriver.Look{Width: 390, Scripts: true})
			b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Page.addScriptToEvaluateOnNewDocument",
				"params": map[string]any{"source": fmt.Sprintf(watched, allowed)}}, nil)
			b.Open(server.URL + "/#/share?go=1&dish=Spring+onion+mash")
			waitForTitle(t, b, "Share out")
			turn(t, b, func() { b.Click("#record button") })
			waitForTitle(t, b, "On hand")
			visit(t, b, "/cook", "Cooking")
			for isSteaming := false; !isSteaming; b.Eval(`return document.querySelector("[value=not-yet]") !== null`, &isSteaming) {
				turn(t, b, func() { b.Click(".step:not(:has([value=not-yet])) button") })
				waitForTitle(t, b, "Cooking")
			}

			const knife = ".step:has([value=not-yet]) [data-until]"
			var comes int64
			b.Eval(`return Number(document.querySelector("`+knife+`").dataset.until)`, &comes)
			const before = 8 * time.Second
			ahead.Store(comes - time.Now().Add(before).UnixMilli())
			b.Ask("POST", "/refresh", nil, nil)
			waitForTitle(t, b, "Cooking")
			b.Click("h1") // a browser sounds only for somebody who has touched the page
			b.Eval(`const root = document.querySelector("[data-cooking]"); root.classList.add("old"); root.dataset.again = "600"`, nil)
			waitFor(t, b, `return document.querySelector("[data-cooking]:not(.old)") !== null`)
			assert.Equal(t, "now", b.Text(knife))
			var did struct {
				Tones, Wakes int
				Wrong        []string
			}
			b.Eval(`return {tones, wakes, wrong}`, &did)
			assert.Equal(t, allowed, did.Tones > 0, "it sounds where it may")
			assert.Positive(t, did.Wakes, "the screen is asked to stay on")
			assert.Empty(t, did.Wrong)
			b.Picture("pocket-knife")

			turn(t, b, func() { b.Click("[value=not-yet]") })
			waitForTitle(t, b, "Cooking")
			assert.Contains(t, b.Text(".done"), "Not yet tender.")
			countsDown(t, b)
			turn(t, b, func() { b.Click("[value=over]") })
			waitForTitle(t, b, "Cooking")
			b.Eval(`return {tones, wakes, wrong}`, &did)
			assert.Empty(t, did.Wrong)
			visit(t, b, "/carry", "To and from home")
			found := knifeTestsIn(t, readParcel(t, saved(t, b, "form[action='/carry/home'] button", parcelNames)))
			assert.ElementsMatch(t, []string{"not-yet", "over"}, found)
		})
	}
}

// knifeTestsIn are what the knife tests of a parcel say that found no piece just
// right.
func knifeTestsIn(t *testing.T, parcel []byte) (said []string) {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(parcel), int64(len(parcel)))
	require.NoError(t, err)
	for _, each := range in.File {
		r, err := each.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		if _, after, ok := strings.Cut(string(text), "\nsaid: "); ok {
			word, _, _ := strings.Cut(after, "\n")
			said = append(said, word)
		}
	}
	return said
}
