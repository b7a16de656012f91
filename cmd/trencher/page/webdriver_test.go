package page

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A browser driven over the W3C WebDriver protocol (W3C Recommendation): only
// the few commands the tests need. It needs no module, only chromium and its
// driver, as Debian packages them.

type browser struct {
	t       *testing.T
	session string // address of the session
}

// needBrowser skips the test where there is no browser, unless
// TRENCHER_LIVE=1 says that there must be one.
func needBrowser(t *testing.T) (driver string) {
	t.Helper()
	driver, err := exec.LookPath("chromedriver")
	if err == nil {
		return driver
	}
	if os.Getenv("TRENCHER_LIVE") == "1" {
		t.Fatal("TRENCHER_LIVE=1, but there is no chromedriver:", err)
	}
	t.Skip("no chromedriver; TRENCHER_LIVE=1 makes this a failure")
	return ""
}

// look is how a browser is set up.
type look struct {
	width int
	dark  bool
}

// openBrowser starts a driver and a browser that end with the test.
func openBrowser(t *testing.T, how look) *browser {
	t.Helper()
	driver := exec.Command(needBrowser(t), "--port=0")
	out, err := driver.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, driver.Start())
	t.Cleanup(func() {
		driver.Process.Kill()
		driver.Wait()
	})
	b := &browser{t: t, session: fmt.Sprintf("http://127.0.0.1:%s/session", driverPort(t, out))}
	var opened struct {
		SessionID string `json:"sessionId"`
	}
	b.ask("POST", "", map[string]any{"capabilities": map[string]any{"alwaysMatch": capabilities(t, how)}}, &opened)
	b.session += "/" + opened.SessionID
	t.Cleanup(func() { b.ask("DELETE", "", nil, nil) })
	return b
}

func driverPort(t *testing.T, out io.Reader) string {
	started := regexp.MustCompile(`started successfully on port (\d+)`)
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if found := started.FindStringSubmatch(lines.Text()); found != nil {
			go io.Copy(io.Discard, out)
			return found[1]
		}
	}
	t.Fatal("the driver did not start")
	return ""
}

func capabilities(t *testing.T, how look) map[string]any {
	args := []string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--user-data-dir=" + t.TempDir(), fmt.Sprintf("--window-size=%d,900", how.width)}
	if how.dark {
		args = append(args, "--blink-settings=preferredColorScheme=0")
	}
	options := map[string]any{"args": args}
	options["prefs"] = map[string]any{"profile.managed_default_content_settings.javascript": 2} // run no script
	if how.width < 500 {                                                                        // narrower than a desktop window can be
		options["mobileEmulation"] = map[string]any{
			"deviceMetrics": map[string]any{"width": how.width, "height": 740, "pixelRatio": 2.0, "touch": false}}
	}
	return map[string]any{"goog:chromeOptions": options}
}

// ask sends one command and reads its value.
func (b *browser) ask(method, path string, question, value any) {
	b.t.Helper()
	err := b.try(method, path, question, value)
	require.NoError(b.t, err, "%s %s", method, path)
}

func (b *browser) try(method, path string, question, value any) error {
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
		return fmt.Errorf("%s: %.300s", answer.Status, wrapped.Value)
	}
	if value == nil {
		return nil
	}
	return json.Unmarshal(wrapped.Value, value)
}

// open goes to an address.
func (b *browser) open(address string) {
	b.t.Helper()
	b.ask("POST", "/url", map[string]string{"url": address}, nil)
}

func (b *browser) address() string {
	b.t.Helper()
	var address string
	b.ask("GET", "/url", nil, &address)
	return address
}

// element is the path of the first element a CSS selector finds.
func (b *browser) element(selector string) string {
	b.t.Helper()
	var found map[string]string
	b.ask("POST", "/element", map[string]string{"using": "css selector", "value": selector}, &found)
	for _, id := range found { // its one key is a constant of the standard
		return "/element/" + id
	}
	b.t.Fatal("nothing found for", selector)
	return ""
}

// fill replaces what stands in a box.
func (b *browser) fill(selector, text string) {
	b.t.Helper()
	element := b.element(selector)
	b.ask("POST", element+"/clear", nil, nil)
	b.ask("POST", element+"/value", map[string]string{"text": text}, nil)
}

// choose picks the option of a select that shows this text.
func (b *browser) choose(selector, option string) {
	b.t.Helper()
	b.ask("POST", b.element(selector)+"/value", map[string]string{"text": option}, nil)
}

func (b *browser) click(selector string) {
	b.t.Helper()
	b.ask("POST", b.element(selector)+"/click", nil, nil)
}

// follow clicks what leads to another page, and waits until it has come.
func (b *browser) follow(selector string) {
	b.t.Helper()
	old := b.element("html")
	b.click(selector)
	for until := time.Now().Add(10 * time.Second); time.Now().Before(until); time.Sleep(20 * time.Millisecond) {
		if b.try("GET", old+"/name", nil, nil) != nil { // the old page's elements are gone
			return
		}
	}
	b.t.Fatal("no page came of a click on ", selector)
}

// press sends one key to whatever has the focus.
func (b *browser) press(key string) {
	b.t.Helper()
	b.ask("POST", "/actions", map[string]any{"actions": []any{map[string]any{"type": "key", "id": "keys",
		"actions": []any{map[string]string{"type": "keyDown", "value": key}, map[string]string{"type": "keyUp", "value": key}}}}}, nil)
}

func (b *browser) text(selector string) string {
	b.t.Helper()
	var text string
	b.ask("GET", b.element(selector)+"/text", nil, &text)
	return text
}

func (b *browser) valueOf(selector string) string {
	b.t.Helper()
	var value string
	b.ask("GET", b.element(selector)+"/property/value", nil, &value)
	return value
}

// eval runs a script of the test's own, even where pages may run none.
func (b *browser) eval(script string, value any) {
	b.t.Helper()
	b.ask("POST", "/execute/sync", map[string]any{"script": script, "args": []any{}}, value)
}

// pages prints the page on A4 and counts the sides.
func (b *browser) pages() int {
	b.t.Helper()
	var encoded string
	b.ask("POST", "/print", map[string]any{"background": true,
		"page": map[string]float64{"width": 21.0, "height": 29.7}, "margin": map[string]float64{"top": 1.1, "bottom": 1.1, "left": 1.2, "right": 1.2}}, &encoded)
	data, err := base64.StdEncoding.DecodeString(encoded)
	require.NoError(b.t, err)
	require.True(b.t, strings.HasPrefix(string(data), "%PDF-"))
	return len(regexp.MustCompile(`/Type /Page[^s]`).FindAll(data, -1))
}

// picture keeps a screenshot of the whole page in the folder that
// TRENCHER_PICTURES names, to be looked at.
func (b *browser) picture(name string) {
	b.t.Helper()
	folder := os.Getenv("TRENCHER_PICTURES")
	if folder == "" {
		return
	}
	var metrics struct {
		CSSContentSize struct{ Width, Height float64 }
	}
	b.ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Page.getLayoutMetrics", "params": map[string]any{}}, &metrics)
	var shot struct{ Data string }
	b.ask("POST", "/goog/cdp/execute", map[string]any{"cmd": "Page.captureScreenshot", "params": map[string]any{
		"captureBeyondViewport": true,
		"clip":                  map[string]any{"x": 0, "y": 0, "width": metrics.CSSContentSize.Width, "height": metrics.CSSContentSize.Height, "scale": 1},
	}}, &shot)
	data, err := base64.StdEncoding.DecodeString(shot.Data)
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(folder+"/"+name+".png", data, 0o644))
}
