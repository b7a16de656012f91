package webdriver

import (
	"encoding/base64"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// driver stands for the program that drives a browser: it notes what it is asked
// and answers from a list.
type driver struct {
	asked   []string          // method, path, body
	answers map[string]string // of a path: the value, as JSON
}

func (d *driver) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	d.asked = append(d.asked, r.Method+" "+r.URL.Path+" "+string(body))
	value := d.answers[r.URL.Path]
	if value == "" {
		value = "null"
	}
	if value == "refused" {
		w.WriteHeader(http.StatusNotFound)
		value = `{"error":"no such element"}`
	}
	io.WriteString(w, `{"value":`+value+`}`)
}

func fake(t *testing.T, answers map[string]string) (*Browser, *driver) {
	t.Helper()
	d := &driver{answers: answers}
	server := httptest.NewServer(d)
	t.Cleanup(server.Close)
	return &Browser{t: t, session: server.URL}, d
}

// found is how the standard names an element in an answer.
const found = `{"element-6066-11e4-a52e-4f735466cecf":"e1"}`

// Each step is the command of the standard for it (W3C WebDriver).
func TestCommandsOfTheStandard(t *testing.T) {
	for _, row := range []struct {
		name string
		act  func(b *Browser) any
		came any
		last string
	}{
		{"open", func(b *Browser) any { b.Open("http://x/"); return nil }, nil, `POST /url {"url":"http://x/"}`},
		{"address", func(b *Browser) any { return b.Address() }, "http://y/", `GET /url `},
		{"element", func(b *Browser) any { return b.Element("h1") }, "/element/e1", `POST /element {"using":"css selector","value":"h1"}`},
		{"fill", func(b *Browser) any { b.Fill("#a", "1.2"); return nil }, nil, `POST /element/e1/value {"text":"1.2"}`},
		{"choose", func(b *Browser) any { b.Choose("#a", "bed-2"); return nil }, nil, `POST /element/e1/value {"text":"bed-2"}`},
		{"attach", func(b *Browser) any { b.Attach("#a", "/tmp/f"); return nil }, nil, `POST /element/e1/value {"text":"/tmp/f"}`},
		{"click", func(b *Browser) any { b.Click("#a"); return nil }, nil, `POST /element/e1/click {}`},
		{"text", func(b *Browser) any { return b.Text("#a") }, "shown", `GET /element/e1/text `},
		{"value", func(b *Browser) any { return b.ValueOf("#a") }, "typed", `GET /element/e1/property/value `},
		{"keep", func(b *Browser) any { b.Keep("/tmp/d"); return nil }, nil,
			`POST /goog/cdp/execute {"cmd":"Browser.setDownloadBehavior","params":{"behavior":"allow","downloadPath":"/tmp/d"}}`},
		{"eval", func(b *Browser) any { var n int; b.Eval("return 7", &n); return n }, 7, `POST /execute/sync {"args":[],"script":"return 7"}`},
		{"back", func(b *Browser) any { b.Back(); return nil }, nil, `POST /back {}`},
		{"reload", func(b *Browser) any { b.Reload(); return nil }, nil, `POST /refresh {}`},
		{"tab", func(b *Browser) any { return b.Tab() }, "w1", `GET /window `},
		{"close", func(b *Browser) any { b.CloseTab(); return nil }, nil, `DELETE /window `},
		{"press", func(b *Browser) any { b.Press("a"); return nil }, nil,
			`POST /actions {"actions":[{"actions":[{"type":"keyDown","value":"a"},{"type":"keyUp","value":"a"}],"id":"keys","type":"key"}]}`},
	} {
		b, d := fake(t, map[string]string{"/url": `"http://y/"`, "/element": found, "/element/e1/text": `"shown"`,
			"/element/e1/property/value": `"typed"`, "/execute/sync": "7", "/window": `"w1"`})
		assert.Equal(t, row.came, row.act(b), row.name)
		require.NotEmpty(t, d.asked, row.name)
		assert.Equal(t, row.last, d.asked[len(d.asked)-1], row.name)
		if row.name == "fill" {
			assert.Contains(t, d.asked, "POST /element/e1/clear {}", "what stood there goes first")
		}
	}
}

// What the driver refuses comes back as an error with its words.
func TestRefusedCommands(t *testing.T) {
	b, _ := fake(t, map[string]string{"/element": "refused"})
	err := b.Try("POST", "/element", nil, nil)
	assert.ErrorContains(t, err, "404")
	assert.ErrorContains(t, err, "no such element")
	assert.NoError(t, b.Try("GET", "/url", nil, nil))
	b.session = "http://127.0.0.1:1"
	assert.Error(t, b.Try("GET", "/url", nil, nil), "nobody is there")
}

// A click that leads on is over when the old page's elements are gone.
func TestFollow(t *testing.T) {
	b, d := fake(t, map[string]string{"/element": found, "/element/e1/name": "refused"})
	b.Follow("a")
	assert.Equal(t, "GET /element/e1/name ", d.asked[len(d.asked)-1])
	assert.Contains(t, d.asked, "POST /element/e1/click {}")
}

// The browser is set up by its look: a phone's screen where it is narrow, the
// profile and the dark where they are asked for.
func TestCapabilities(t *testing.T) {
	text := func(how Look) string {
		data, err := json.Marshal(capabilities(t, how))
		require.NoError(t, err)
		return string(data)
	}
	phone := text(Look{Width: 390, Height: 844, Dark: true, Profile: "/tmp/p"})
	for _, part := range []string{`"height":844`, `"width":390`, `preferredColorScheme=0`, `--user-data-dir=/tmp/p"`, `"--headless"`} {
		assert.Contains(t, phone, part)
	}
	assert.Contains(t, text(Look{Width: 390}), `"height":740`)
	assert.NotContains(t, phone, "default_font_size")
	assert.Contains(t, text(Look{Type: 32}), `"webkit.webprefs.default_font_size":32`)
	desk := text(Look{Width: 500})
	assert.NotContains(t, desk, "mobileEmulation")
	assert.NotContains(t, desk, "preferredColorScheme")
	assert.Contains(t, desk, `--window-size=500,900`)
	assert.NotContains(t, desk, `--user-data-dir="`, "a profile of its own")
}

// Sides of a print are counted, and a picture is kept where a folder is named.
func TestPrintAndPicture(t *testing.T) {
	pdf := base64.StdEncoding.EncodeToString([]byte("%PDF-1.4 /Type /Pages /Type /Page\n/Type /Page>"))
	b, d := fake(t, map[string]string{"/goog/cdp/execute": `{"data":"` + pdf + `","CSSContentSize":{"width":390,"height":1200}}`})
	assert.Equal(t, 2, b.Pages())
	assert.Contains(t, d.asked[0], `"preferCSSPageSize":true`)
	t.Setenv("TRENCHER_PICTURES", "")
	b.Picture("none")
	assert.Len(t, d.asked, 1)
	folder := t.TempDir()
	t.Setenv("TRENCHER_PICTURES", folder)
	b.Picture("one")
	kept, err := os.ReadFile(filepath.Join(folder, "one.png"))
	require.NoError(t, err)
	assert.Contains(t, string(kept), "%PDF", "the bytes the driver sent")
	assert.Contains(t, d.asked[2], `"height":1200`)
}

// What the checker finds is handed on; without its script nothing is checked.
func TestViolations(t *testing.T) {
	b, d := fake(t, map[string]string{"/execute/async": `["region: <p>"]`})
	t.Setenv("TRENCHER_AXE", "")
	t.Setenv("TRENCHER_LIVE", "")
	assert.Nil(t, b.Violations())
	script := filepath.Join(t.TempDir(), "axe.js")
	require.NoError(t, os.WriteFile(script, []byte("checker()"), 0o644))
	t.Setenv("TRENCHER_AXE", script)
	assert.Equal(t, []string{"region: <p>"}, b.Violations())
	require.Len(t, d.asked, 4)
	assert.Contains(t, d.asked[0], `"cmd":"Emulation.setScriptExecutionDisabled","params":{"value":false}`, "scripts run for the check")
	assert.Contains(t, d.asked[1], "checker()")
	assert.Contains(t, d.asked[3], `"params":{"value":true}`, "and not afterwards, as before")
}

// The port is read off the driver's own words.
func TestDriverPort(t *testing.T) {
	out, in := io.Pipe()
	go io.WriteString(in, "Starting\nChromeDriver was started successfully on port 34567.\n")
	port, _ := driverPort(out)
	assert.Equal(t, "34567", port)
	port, said := driverPort(strings.NewReader("Starting\nUnable to start\n"))
	assert.Empty(t, port)
	assert.Equal(t, "Starting\nUnable to start\n", said)
}

// A driver that ends before it can be spoken to is begun anew.
func TestDriverIsBegunAnew(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a shell's program stands for the driver")
	}
	folder := t.TempDir()
	program := filepath.Join(folder, "driver")
	require.NoError(t, os.WriteFile(program, []byte("#!/bin/sh\nif [ -e "+folder+"/second ]; then echo was started successfully on port 7; exec sleep 60; fi\n: >"+folder+"/second\n"), 0o755))
	driver, port := startDriver(t, program)
	assert.Equal(t, "7", port)
	assert.Nil(t, driver.ProcessState, "it runs")
}

// A browser that does not come up is begun anew.
func TestBrowserIsBegunAnew(t *testing.T) {
	asked := 0
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if asked++; asked == 1 {
			w.WriteHeader(http.StatusInternalServerError)
			io.WriteString(w, `{"value":{"error":"session not created"}}`)
			return
		}
		io.WriteString(w, `{"value":{"sessionId":"s1","capabilities":{"goog:processID":42}}}`)
	}))
	defer server.Close()
	b := &Browser{t: t, session: server.URL}
	b.begin(capabilities(t, Look{}))
	assert.Equal(t, 2, asked)
	assert.Equal(t, server.URL+"/s1", b.session)
	assert.Equal(t, 42, b.process)
}
