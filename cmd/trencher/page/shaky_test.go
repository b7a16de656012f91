package page

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

// shaky is a page that is stopped and started anew, behind a network that is slow
// or loses answers.
type shaky struct {
	*cook   // its clock is the page's
	port    int
	address string
	server  *http.Server
	late    atomic.Bool // answers to forms come late
	lost    atomic.Bool // what forms are answered is lost
	kept    atomic.Bool // the browser keeps every screen to go back to, as some do
}

// newShaky serves a plot until the test ends.
func newShaky(t *testing.T, c *cook) *shaky {
	s := &shaky{cook: c}
	s.open()
	s.address = fmt.Sprintf("http://127.0.0.1:%d", s.port)
	t.Cleanup(func() { s.server.Close() })
	return s
}

// open starts the page, on its port once it has one.
func (s *shaky) open() {
	s.t.Helper()
	listener, err := Listen(s.port, false)
	require.NoError(s.t, err)
	s.port = listener.Port()
	p, err := New(Options{Where: ask.PlotRef{Dir: s.dir, Device: func() string { return "aaaaaa" }}, Port: s.port, Now: func() time.Time { return s.now }})
	require.NoError(s.t, err)
	s.server = p.server()
	s.server.Handler = s.overTheNetwork(p.Handler())
	go s.server.Serve(listener)
}

// shut stops the page at once.
func (s *shaky) shut() {
	s.t.Helper()
	require.NoError(s.t, s.server.Close())
}

// overTheNetwork does to answers what a network does.
func (s *shaky) overTheNetwork(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		answer := httptest.NewRecorder()
		next.ServeHTTP(answer, r)
		if r.Method == http.MethodPost {
			if s.late.Load() {
				time.Sleep(700 * time.Millisecond)
			}
			if s.lost.Load() {
				panic(http.ErrAbortHandler) // it was done, and nobody hears of it
			}
		}
		for name, values := range answer.Header() {
			w.Header()[name] = values
		}
		if s.kept.Load() && w.Header().Get("Cache-Control") == "no-store" {
			w.Header().Set("Cache-Control", "private, no-cache")
		}
		w.WriteHeader(answer.Code)
		w.Write(answer.Body.Bytes())
	})
}

// written are the plot's files, its journal and its dishes, and its plantings by their names.
func (s *shaky) written() (names []string) {
	for _, pattern := range []string{"journal/*/*.yaml", "dishes/*.yaml"} {
		found, err := filepath.Glob(filepath.Join(s.dir, filepath.FromSlash(pattern)))
		require.NoError(s.t, err)
		names = append(names, found...)
	}
	plantings := filepath.Join(s.dir, "plantings.yaml")
	data, err := os.ReadFile(plantings)
	require.NoError(s.t, err)
	for _, id := range regexp.MustCompile(`(?m)^- id: (.*)$`).FindAllStringSubmatch(string(data), -1) {
		names = append(names, plantings+"#"+id[1])
	}
	return names
}

// holds tells whether one of these files holds a text.
func (s *shaky) holds(files []string, text string) bool {
	for _, file := range files {
		file, _, _ = strings.Cut(file, "#")
		if held, err := os.ReadFile(file); err == nil && strings.Contains(string(held), text) {
			return true
		}
	}
	return false
}

// A plan stays readable when the network goes: a link leads nowhere and says so,
// what was typed stays, going back shows the plan, and when the network is there
// again everything goes on. Without script what is shown stays too.
func TestNetworkGoneInTheBrowser(t *testing.T) {
	needLive(t)
	c := newCook(t)
	more := aLift()
	more.Set("once", "more")
	more.Set("bowl-1-full", "2.21")
	require.Equal(t, http.StatusSeeOther, c.post("/weigh", more).Code)
	b := webdriver.Start(t, webdriver.Look{Width: 390, Height: 844, Scripts: true})
	s := newShaky(t, c)
	b.Open(s.address + "/share?" + crushedAsked.Encode())
	plan := b.Text("main")
	require.Contains(t, plan, "On the table")
	s.shut()
	b.Click(".acts a.button")
	notice := func() (says string) {
		require.Eventually(t, func() bool {
			b.Eval(`return document.getElementById("away")?.textContent || ""`, &says)
			return says != ""
		}, 20*time.Second, 100*time.Millisecond)
		return says
	}
	assert.Equal(t, "No network. What stands here is as of Sat 12 Jul 16:41.", notice())
	assert.Contains(t, b.Text("main"), plan, "the plan is still there")
	assertAccessible(t, b, "no network")
	b.Picture("no-network")

	s.open()
	b.Follow(".acts a.button")
	assert.Contains(t, b.Text("body"), "Crushed potatoes with lovage", "it goes on where it was stopped")
	s.shut()
	b.Back()
	assert.Contains(t, b.Text("main"), "On the table", "a plan is gone back to without network")

	s.open()
	b.Open(s.address + "/weigh")
	b.Fill("#bowl-1-full", "1.77")
	before := len(s.written())
	s.shut()
	b.Click("#write button:not(.second)")
	assert.Contains(t, notice(), "Nothing was sent; what you typed is still here.")
	assert.Equal(t, "1.77", b.ValueOf("#bowl-1-full"))
	assert.Len(t, s.written(), before)
	s.open()
	b.Follow("#write button:not(.second)")
	assert.Contains(t, b.Text(".done"), "from tub-3 written down.")
	assert.Len(t, s.written(), before+1)
}
