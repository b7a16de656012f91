// Package webdriver drives a browser over the W3C WebDriver protocol (W3C
// Recommendation): the few commands the tests of the page need. It needs no
// module, only chromium and its driver, as Debian packages them. Only tests
// import it.
package webdriver

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Browser is one window of a browser that runs for a test.
type Browser struct {
	t       *testing.T
	session string // address of the session
	driver  *exec.Cmd
	process int // of the browser itself
	killed  bool
	scripts bool
}

// Need finds the browser's driver. It skips the test unless TRENCHER_LIVE=1 says that
// there must be one, and where TRENCHER_BROWSER=none asks to do without: so faults are
// put in (TestMutants), which tests have to notice that need nothing installed.
func Need(t testing.TB) (driver string) {
	t.Helper()
	if os.Getenv("TRENCHER_BROWSER") == "none" {
		t.Skip("TRENCHER_BROWSER=none asks to do without a browser")
	}
	if os.Getenv("TRENCHER_LIVE") != "1" {
		t.Skip("TRENCHER_LIVE=1 asks a browser")
	}
	driver, err := exec.LookPath("chromedriver")
	if err != nil {
		t.Fatal("TRENCHER_LIVE=1, but there is no chromedriver:", err)
	}
	return driver
}

// Look is how a browser is set up.
type Look struct {
	Width  int // of the window, in CSS pixels
	Height int // of a phone's screen; 0 = 740
	Dark   bool
	Type   int // size of plain text, in CSS pixels; 0 = the browser's 16
	// Scripts lets pages run their scripts.
	Scripts bool
	// Profile is the folder in which the browser keeps what pages store; "" =
	// a new one.
	Profile string
}

// Start begins a driver and a browser that end with the test.
func Start(t *testing.T, how Look) *Browser {
	t.Helper()
	driver, port := startDriver(t, Need(t))
	b := &Browser{t: t, driver: driver, session: fmt.Sprintf("http://127.0.0.1:%s/session", port)}
	b.begin(capabilities(t, how))
	b.scripts = how.Scripts
	b.letScripts(how.Scripts)
	t.Cleanup(func() {
		if !b.killed {
			b.Ask("DELETE", "", nil, nil)
		}
	})
	return b
}

// mostStarts is how often a driver or a browser is begun that does not come up.
const mostStarts = 5

// begin has the driver start the browser, anew where it does not come up: on a
// machine with much to do the driver gives it up too early.
func (b *Browser) begin(capabilities map[string]any) {
	b.t.Helper()
	var opened struct {
		SessionID    string `json:"sessionId"`
		Capabilities struct {
			Process int `json:"goog:processID"`
		}
	}
	question := map[string]any{"capabilities": map[string]any{"alwaysMatch": capabilities}}
	var err error
	for n := range mostStarts {
		time.Sleep(time.Duration(n) * 200 * time.Millisecond)
		if err = b.Try("POST", "", question, &opened); err == nil {
			b.session += "/" + opened.SessionID
			b.process = opened.Capabilities.Process
			return
		}
	}
	b.t.Fatal("the browser did not start: ", err)
}

// For is the same browser, for a test within the one it was started for.
func (b *Browser) For(t *testing.T) *Browser {
	other := *b
	other.t = t
	return &other
}

// startDriver begins a driver that ends with the test, and with it what it and its
// browser leave behind. The free port it looks for may be taken from it by
// another, so it is begun anew a few times.
func startDriver(t *testing.T, program string) (driver *exec.Cmd, port string) {
	t.Helper()
	// Not the test's own folder: a browser's socket has no room for a long path.
	left, err := os.MkdirTemp("", "browser-")
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(left) })
	var said string
	for n := range mostStarts {
		time.Sleep(time.Duration(n) * 200 * time.Millisecond)
		driver := exec.Command(program, "--port=0")
		driver.Env = append(os.Environ(), "TMPDIR="+left)
		out, err := driver.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, driver.Start())
		t.Cleanup(func() {
			driver.Process.Kill()
			driver.Wait()
		})
		if port, said = driverPort(out); port != "" {
			return driver, port
		}
	}
	t.Fatal("the driver did not start: ", said)
	return nil, ""
}

// driverPort reads the port off what a driver says; where it ends without one,
// all that it said is told.
func driverPort(out io.Reader) (port, said string) {
	started := regexp.MustCompile(`started successfully on port (\d+)`)
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if found := started.FindStringSubmatch(lines.Text()); found != nil {
			go io.Copy(io.Discard, out)
			return found[1], said
		}
		said += lines.Text() + "\n"
	}
	return "", said
}

func capabilities(t *testing.T, how Look) map[string]any {
	profile := how.Profile
	if profile == "" {
		profile = t.TempDir()
	}
	args := []string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--user-data-dir=" + profile, fmt.Sprintf("--window-size=%d,900", how.Width)}
	if how.Dark {
		args = append(args, "--blink-settings=preferredColorScheme=0")
	}
	options := map[string]any{"args": args}
	if how.Type > 0 {
		options["prefs"] = map[string]any{"webkit.webprefs.default_font_size": how.Type}
	}
	if how.Width < 500 { // narrower than a desktop window can be
		options["mobileEmulation"] = map[string]any{
			"deviceMetrics": map[string]any{"width": how.Width, "height": cmp.Or(how.Height, 740), "pixelRatio": 2.0, "touch": false}}
	}
	return map[string]any{"goog:chromeOptions": options}
}

// Ask sends one command and reads its value.
func (b *Browser) Ask(method, path string, question, value any) {
	b.t.Helper()
	err := b.Try(method, path, question, value)
	require.NoError(b.t, err, "%s %s", method, path)
}

// Try is [Browser.Ask] that returns what goes wrong.
func (b *Browser) Try(method, path string, question, value any) error {
	var body io.Reader
	if method == "POST" {
		if question == nil {
			question = struct{}{}
		}
		data, err := json.Marshal(question)
		if err != nil {
			return err
		}
		body = bytes.NewReader(data)
	}
	request, err := http.NewRequest(method, b.session+path, body)
	if err != nil {
		return err
	}
	client := http.Client{Timeout: 30 * time.Second}
	answer, err := client.Do(request)
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	var wrapped struct{ Value json.RawMessage }
	if err := json.NewDecoder(answer.Body).Decode(&wrapped); err != nil {
		return err
	}
	if answer.StatusCode != http.StatusOK {
		var refused commandError
		_ = json.Unmarshal(wrapped.Value, &refused) // what else the driver says is told as it is
		refused.says = fmt.Sprintf("%s: %.300s", answer.Status, wrapped.Value)
		return refused
	}
	if value == nil {
		return nil
	}
	return json.Unmarshal(wrapped.Value, value)
}

// commandError is what the driver answers to a command it cannot do.
type commandError struct {
	Code string `json:"error"` // by the standard's table, section 6.6
	says string
}

func (e commandError) Error() string { return e.says }

// isStale tells that the page of an element is gone.
func isStale(err error) bool {
	var refused commandError
	return errors.As(err, &refused) && refused.Code == "stale element reference"
}

// letScripts lets pages run their scripts, or not. The tests' own run always.
func (b *Browser) letScripts(run bool) {
	b.t.Helper()
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Emulation.setScriptExecutionDisabled", "params": map[string]any{"value": !run}}, nil)
}

// Kill ends the browser at once, as a power cut does (SIGKILL), and its driver. It
// returns when all that the browser had started is gone, so that the next one
// finds the profile nobody's.
func (b *Browser) Kill() {
	b.t.Helper()
	b.killed = true
	require.NotZero(b.t, b.process, "the driver does not say which process the browser is")
	browser, err := os.FindProcess(b.process)
	require.NoError(b.t, err)
	family := processes(b.process)
	require.NoError(b.t, browser.Kill())
	b.driver.Process.Kill()
	require.Eventually(b.t, func() bool { return !slices.ContainsFunc(family, runs) }, 20*time.Second, 5*time.Millisecond, "the browser's processes end with it")
}

// Open goes to an address.
func (b *Browser) Open(address string) {
	b.t.Helper()
	b.Ask("POST", "/url", map[string]string{"url": address}, nil)
}

// Address is the address of the page shown.
func (b *Browser) Address() string {
	b.t.Helper()
	var address string
	b.Ask("GET", "/url", nil, &address)
	return address
}

// Keep lets pages save files, into this folder.
func (b *Browser) Keep(folder string) {
	b.t.Helper()
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Browser.setDownloadBehavior",
		"params": map[string]any{"behavior": "allow", "downloadPath": folder}}, nil)
}

// Text is what an element shows.
func (b *Browser) Text(selector string) string {
	b.t.Helper()
	var text string
	b.Ask("GET", b.Element(selector)+"/text", nil, &text)
	return text
}

// ValueOf is what stands in a box.
func (b *Browser) ValueOf(selector string) string {
	b.t.Helper()
	var value string
	b.Ask("GET", b.Element(selector)+"/property/value", nil, &value)
	return value
}

// Eval runs a script of the test's own, even where pages may run none.
func (b *Browser) Eval(script string, value any) {
	b.t.Helper()
	b.Ask("POST", "/execute/sync", map[string]any{"script": script, "args": []any{}}, value)
}

// Print prints the page as a PDF, on the paper and with the margins that its own
// style asks for.
func (b *Browser) Print() []byte {
	b.t.Helper()
	var printed struct{ Data string }
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Page.printToPDF",
		"params": map[string]any{"printBackground": true, "preferCSSPageSize": true}}, &printed)
	data, err := base64.StdEncoding.DecodeString(printed.Data)
	require.NoError(b.t, err)
	require.True(b.t, strings.HasPrefix(string(data), "%PDF-"))
	return data
}

// Pages counts the sides that the page prints on.
func (b *Browser) Pages() int {
	b.t.Helper()
	return len(regexp.MustCompile(`/Type /Page[^s]`).FindAll(b.Print(), -1))
}

// Violations are what axe-core, the accessibility checker of the npm registry,
// finds wrong in the page shown. TRENCHER_AXE names its script; without it
// nothing is checked, unless TRENCHER_LIVE=1 says that it must be there.
func (b *Browser) Violations() []string {
	b.t.Helper()
	file := os.Getenv("TRENCHER_AXE")
	if file == "" {
		if os.Getenv("TRENCHER_LIVE") == "1" {
			b.t.Fatal("TRENCHER_LIVE=1, but TRENCHER_AXE names no axe.min.js")
		}
		return nil
	}
	script, err := os.ReadFile(file)
	require.NoError(b.t, err)
	b.letScripts(true)
	defer b.letScripts(b.scripts)
	b.Eval(string(script), nil)
	var found []string
	b.Ask("POST", "/execute/async", map[string]any{"args": []any{}, "script": `
const done = arguments[0];
axe.run(document, { resultTypes: ["violations"] }).then(
  result => done(result.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 120)).join(" | "))),
  error => done(["axe failed: " + error]));`}, &found)
	return found
}

// Picture keeps a screenshot of the whole page in the folder that
// TRENCHER_PICTURES names, to be looked at.
func (b *Browser) Picture(name string) {
	b.t.Helper()
	folder := os.Getenv("TRENCHER_PICTURES")
	if folder == "" {
		return
	}
	var metrics struct {
		CSSContentSize struct{ Width, Height float64 }
	}
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Page.getLayoutMetrics", "params": map[string]any{}}, &metrics)
	var shot struct{ Data string }
	b.Ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Page.captureScreenshot", "params": map[string]any{
		"captureBeyondViewport": true,
		"clip":                  map[string]any{"x": 0, "y": 0, "width": metrics.CSSContentSize.Width, "height": metrics.CSSContentSize.Height, "scale": 1},
	}}, &shot)
	data, err := base64.StdEncoding.DecodeString(shot.Data)
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(folder+"/"+name+".png", data, 0o644))
}
