package page

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/units"
)

// What one request may cost is bounded, each at its figure and not one beside it:
// 64 KiB and 400 values of a form, a minute of work, seconds for a client that
// stalls.
func TestBoundsOfARequest(t *testing.T) {
	p := newPage(t, Options{})
	handler, _ := guarded(p)
	status := func(body string) int {
		r := request("POST", "/weigh", url.Values{}, nil)
		sent := httptest.NewRequest("POST", "http://"+r.Host+"/weigh", strings.NewReader(body))
		sent.Header = r.Header.Clone()
		return serve(handler, sent).Code
	}
	assert.Equal(t, http.StatusOK, status("a="+strings.Repeat("1", 65536-2)))
	assert.Equal(t, http.StatusRequestEntityTooLarge, status("a="+strings.Repeat("1", 65536-1)))
	assert.Equal(t, http.StatusOK, status(strings.Repeat("a=&", 400)))
	assert.Equal(t, http.StatusRequestEntityTooLarge, status(strings.Repeat("a=&", 401)))
	assert.Equal(t, http.StatusBadRequest, status("a=%zz"))

	var left time.Duration
	serve(p.guard(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		until, _ := r.Context().Deadline()
		left = time.Until(until)
	})), request("GET", "/", nil, nil))
	assert.InDelta(t, 60, left.Seconds(), 0.9)
	server := p.server()
	assert.Equal(t, []time.Duration{5 * time.Second, 15 * time.Second, 75 * time.Second, 2 * time.Minute},
		[]time.Duration{server.ReadHeaderTimeout, server.ReadTimeout, server.WriteTimeout, server.IdleTimeout})
	assert.Equal(t, 16384, server.MaxHeaderBytes)
	assert.Equal(t, 32<<20+65536, maxCarried, "a parcel, and what a form puts round it")
	assert.Equal(t, time.Second, p.patience)
	assert.Equal(t, 2, cap(p.planning))
	assert.Equal(t, time.Minute, newPage(t, Options{Pocket: true}).patience, "a phone's own page answers whole")
	assert.Len(t, p.written.token(), 8+32)
	assert.NotEqual(t, p.written.token()[:8], newPage(t, Options{}).written.token()[:8])
	assert.Equal(t, p.written.token()[:8], p.written.token()[:8])
}

// Who is not let in may send no more than the code; who is, a parcel too.
func TestBoundsBeforeTheDoor(t *testing.T) {
	d := newDoorPage(t)
	parcel := url.Values{"parcel": {strings.Repeat("1", 100_000)}}
	assert.Equal(t, http.StatusRequestEntityTooLarge, serve(d.handler, request("POST", "/carry", parcel, nil)).Code)
	cookies := d.give(d.newest()).Cookies()
	inside := func(path string) int {
		return serve(d.handler, request("POST", path, parcel, func(r *http.Request) { r.AddCookie(cookies[0]) })).Code
	}
	assert.Equal(t, http.StatusOK, inside("/carry"))
	assert.Equal(t, http.StatusRequestEntityTooLarge, inside("/weigh"))
	assert.Equal(t, 86400, cookies[0].MaxAge)
	open, _ := guarded(newPage(t, Options{}))
	assert.Equal(t, http.StatusOK, serve(open, request("POST", "/carry", parcel, nil)).Code, "nobody else is let in at all")
}

// What the door remembers is bounded, and forgotten in its order.
func TestBoundsOfTheDoor(t *testing.T) {
	noon := time.Date(2031, 7, 12, 12, 0, 0, 0, time.UTC)
	clock := noon
	d := newDoor(func(string) {}, func() time.Time { return clock })
	address := func(n int) netip.Addr { return netip.AddrFrom4([4]byte{10, 0, byte(n >> 8), byte(n)}) }
	for n := range 17 {
		d.admit(fmt.Sprint(n), strings.Repeat("a", 395+n), address(n), noon.Add(time.Duration(n)*time.Second))
	}
	list := d.letInNow()
	require.Len(t, list, 16)
	assert.Equal(t, []int{17, 2}, []int{list[0].number, list[15].number}, "who was let in first gives way")
	assert.Len(t, list[0].agent, 400)
	assert.Len(t, list[15].agent, 396)
	asking := request("GET", "/", nil, func(r *http.Request) { r.AddCookie(&http.Cookie{Name: visitCookie, Value: "1"}) })
	for after, known := range map[time.Duration]bool{0: true, 24*time.Hour - 1: true, 24 * time.Hour: false} {
		clock = noon.Add(time.Second + after)
		seen, letIn := d.visitOf(asking)
		assert.Equal(t, known, letIn, after)
		if known {
			assert.Equal(t, clock, seen.seen)
		}
		assert.Equal(t, known, len(d.letInNow()) > 0 && d.letInNow()[len(d.letInNow())-1].number == 2, after)
	}
	out := d.signOut(func(v visit) bool { return v.number == 3 })
	require.Len(t, out, 1)
	assert.Equal(t, 3, out[0].number)
	assert.Len(t, d.visits, 15)

	free := map[time.Duration]int{}
	for try := range 12 { // half a second from one to the next
		if d.mayTry(address(1), noon.Add(time.Duration(try)*500*time.Millisecond)) {
			free[time.Duration(try)*500*time.Millisecond]++
		}
	}
	assert.Len(t, free, 10, "five at once, and one a second: %v", free)
	for range 5 {
		require.True(t, d.mayTry(address(2), noon))
	}
	assert.False(t, d.mayTry(address(2), noon))
	assert.False(t, d.mayTry(address(2), noon.Add(time.Second-1)))
	assert.True(t, d.mayTry(address(2), noon.Add(time.Second)))
	assert.True(t, d.mayTry(address(3), noon), "nobody else waits")

	clear(d.tried)
	for n := range 4096 {
		d.tried[address(n)] = noon.Add(time.Duration(n%2) * time.Second)
	}
	require.True(t, d.mayTry(address(5000), noon))
	assert.Len(t, d.tried, 2048+1, "those that are free again are forgotten")
	for n := range 4096 {
		d.tried[address(n)] = noon.Add(time.Hour)
	}
	require.True(t, d.mayTry(address(1), noon.Add(time.Hour)), "who is known needs no room")
	assert.Len(t, d.tried, 4097)
	require.True(t, d.mayTry(address(6000), noon))
	assert.Len(t, d.tried, 1, "or else all")
	clear(d.tried)
	for n := range 4095 {
		d.tried[address(n)] = noon
	}
	require.True(t, d.mayTry(address(5000), noon))
	assert.Len(t, d.tried, 4096, "there is room")

	assert.Equal(t, netip.Addr{}, callerOf(&http.Request{RemoteAddr: "somewhere"}))
	assert.Equal(t, netip.MustParseAddr("192.168.1.9"), callerOf(&http.Request{RemoteAddr: "[::ffff:192.168.1.9]:80"}))
	assert.Len(t, newToken(), 32)
	few := 0
	for range 3000 {
		n := randomBelow(200)
		require.Less(t, n, 200)
		if n < 56 {
			few++
		}
	}
	assert.InDelta(t, 3000*56/200, few, 200, "each is as likely as the other: the remainders of a byte would make these 1312")
}

// To an address of the page and nowhere else one is led back.
func TestOwnAddresses(t *testing.T) {
	for to, own := range map[string]string{
		"/": "/", "/weigh?a=1": "/weigh?a=1", "/code": "/", "": "/", "weigh": "/", "//else.where/": "/", "/%2felse.where": "/", "http://else.where/weigh": "/",
		"mailto:a": "/", "mailto:/weigh": "/", "http:/weigh": "/", `/weigh\a`: "/", "/%zz": "/", "/weigh#here": "/weigh", "/a b": "/a%20b",
	} {
		assert.Equal(t, own, ownAddress(to), to)
	}
}

// What a form has no room for is left out or refused: the screen never grows with
// what is sent.
func TestBoundsOfForms(t *testing.T) {
	g := newGardener(t)
	many := aLift()
	for n := 1; n <= 25; n++ {
		many.Set(fmt.Sprintf("bowl-%d-full", n), "1")
		many.Set(fmt.Sprintf("grade-%d-weight", n), "0.1")
	}
	counts := func(form url.Values) string {
		body := g.post("/weigh", form).Body.String()
		return fmt.Sprint(strings.Count(body, `-empty" type`), " ", strings.Count(body, `-low" type`))
	}
	empty := url.Values{"once": {"e"}, "planting": {"tub-3"}, "net": {"1"}}
	assert.Equal(t, "3 2", counts(empty))
	empty.Set("more", "1")
	assert.Equal(t, "5 4", counts(empty))
	many.Set("more", "1")
	assert.Equal(t, "20 20", counts(many))
	long := strings.Repeat("6 adults\n \n", 61)
	assert.Len(t, lines(long), 60)
	assert.Equal(t, "6 adults", lines(long)[59])

	var o once
	for n := range 513 {
		o.remember(fmt.Sprint(n), writing{says: "a"})
		o.remember(fmt.Sprint(n), writing{says: "b"})
	}
	assert.Len(t, o.wrote, 512)
	_, first := o.remembered("0")
	assert.False(t, first)
	second, there := o.remembered("1")
	assert.True(t, there)
	assert.Equal(t, "b", second.says)

	var kept answers
	var at []string
	for n := range 65 {
		at = append(at, kept.keep(sentAs(t, url.Values{"a": {"x"}, "once": {"o"}, "sure": {"s"}, "more": {"m"}, "keep": {"k"}}), answered{text: fmt.Sprint(n)}))
	}
	_, there = kept.of(request("GET", at[0], nil, nil))
	assert.False(t, there)
	assert.Len(t, kept.pages, 64)
	for _, n := range []int{1, 64} {
		one, there := kept.of(request("GET", at[n], nil, nil))
		assert.True(t, there)
		assert.Equal(t, answered{text: fmt.Sprint(n)}, one)
		assert.Regexp(t, `^/weigh\?a=x&answer=[\w-]{32}$`, at[n])
	}
	assert.Equal(t, 4096, len(contentsTyped(sentAs(t, url.Values{"a": {strings.Repeat("x", 4094)}})).Encode()))
	for range 20 {
		kept.keep(sentAs(t, nil), answered{})
	}
	assert.Len(t, kept.pages, 64, "each new one takes the place of the oldest")
	assert.Len(t, kept.order, 64)
	assert.Empty(t, contentsTyped(sentAs(t, url.Values{"a": {strings.Repeat("x", 4095)}})))
}

// A recipe's corrections are of its first 400 lines, each where it was changed.
func TestBoundsOfARecipe(t *testing.T) {
	form := recipeForm{}
	r := sentAs(t, url.Values{"line-1": {"2 eggs"}, "line-1-was": {"2 egs"}, "line-2": {"salt"}, "line-2-was": {"salt"}, "line-3": {""}, "line-3-was": {"x"},
		"as-1": {"other"}, "line-400": {"a"}, "line-401": {"b"}, "as-400": {"step"}, "as-401": {"step"}})
	q := form.question(r, ask.PlotRef{})
	assert.Equal(t, []string{"1=2 eggs", "3=", "400=a"}, q.Lines)
	assert.Equal(t, []string{"1=other", "400=step"}, q.As)
	for portions, wrong := range map[string]bool{"0": true, "1": false, "4": false, "-1": true, "few": true, "": false} {
		form := recipeForm{Portions: field{Value: portions}}
		form.question(r, ask.PlotRef{})
		assert.Equal(t, wrong, form.Portions.Wrong == "Write a whole number, such as 4.", portions)
	}
	boxes := func(l recipes.ImportedLine, form url.Values) string {
		line := (&recipeForm{}).line(sentAs(t, form), l)
		return fmt.Sprint(line.Other != nil, " ", line.Use != nil)
	}
	doubt := recipes.ImportedLine{Number: 3, As: recipes.AsHeading, Doubts: []*units.FieldError{units.WrongField("", "", "odd", "")}}
	sure := recipes.ImportedLine{Number: 3, As: recipes.AsHeading}
	assert.Equal(t, "false true", boxes(doubt, nil))
	assert.Equal(t, "false false", boxes(sure, nil))
	assert.Equal(t, "false true", boxes(sure, url.Values{"as-3": {"step"}}), "what was chosen may be chosen otherwise")
	assert.Equal(t, "true false", boxes(recipes.ImportedLine{Number: 400, As: recipes.AsCrop}, nil))
	assert.Equal(t, "true false", boxes(recipes.ImportedLine{Number: 1, As: recipes.AsOther}, nil))
	assert.Equal(t, "false false", boxes(recipes.ImportedLine{Number: 401, As: recipes.AsOther}, nil))
	assert.Equal(t, "false false", boxes(recipes.ImportedLine{Number: 401, As: recipes.AsHeading, Doubts: doubt.Doubts}, nil))
	line := (&recipeForm{}).line(sentAs(t, url.Values{"line-7": {"3 eggs"}, "as-7": {"step"}}), recipes.ImportedLine{Number: 7, As: recipes.AsOther, Text: "3 egs"})
	assert.Equal(t, "3 eggs step 3 egs", line.Other.Value+" "+line.Use.Value+" "+line.Text)
}

// Numbers that are asked for have an edge on either side.
func TestEdgesOfNumbers(t *testing.T) {
	g := stocked(t)
	for target, status := range map[string]int{
		"/season?year=0": 422, "/season?year=1899": 422, "/season?year=1900": 200, "/season?year=2999": 200, "/season?year=3000": 422, "/season?year=soon": 422,
		"/next?year=0": 422, "/next?year=1899": 422, "/next?year=3000": 422, "/next?year=2032": 200, "/next?year=soon": 422,
		"/dish?name=Crushed+potatoes+with+lovage&portions=0": 422, "/dish?name=Crushed+potatoes+with+lovage&portions=2": 200, "/dish?name=Crushed+potatoes+with+lovage&portions=few": 422,
	} {
		assert.Equal(t, status, g.get(target).Code, target)
	}
	assert.Contains(t, g.get("/season?year=0").Body.String(), "Write it as 2031.")
	assert.Contains(t, g.get("/next?year=0").Body.String(), "Write it as 2032.")
	for _, year := range []string{"1900", "2999"} {
		assert.NotContains(t, g.get("/next?year="+year).Body.String(), "That is not a year.", year)
	}
}

// A parcel beyond all bounds is refused; at home the kitchen stands, in a phone the
// newer one takes its place; where the journal is at odds what came is told all
// the same.
func TestParcelsThatAreBrought(t *testing.T) {
	g := newGardener(t)
	w := sendForm(g, parcelForm(t, "x.zip", make([]byte, journal.LargestParcel+1)))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "That file is larger than any parcel.")
	other := newGardener(t)
	require.NoError(t, writeFile(other.dir, "kitchen.yaml", "measures: uk\n"))
	parcel := other.get("/carry/plot").Body.Bytes()
	for pocket, says := range map[bool]string{false: "kitchen.yaml differs here", true: "kitchen.yaml"} {
		g := newGardener(t)
		g.page.pocket = pocket
		w := sendForm(g, parcelForm(t, "x.zip", parcel))
		require.Equal(t, http.StatusOK, w.Code, says)
		assert.Equal(t, pocket, strings.Contains(readFile(t, g.dir, "kitchen.yaml"), "measures: uk"))
	}
	broken := newGardener(t)
	require.NoError(t, writeFile(broken.dir, "journal/2031/0101-0000-lift-tub-3.yaml", "kind: lift\n"))
	w = sendForm(broken, parcelForm(t, "x.zip", parcel))
	assert.Equal(t, http.StatusOK, w.Code)
	assert.NotContains(t, w.Body.String(), `href="/settle"`)
}

// Who waits for a plan longer than an answer may take is told so, and nothing is
// written.
func TestWaitingTooLong(t *testing.T) {
	g := newCook(t).gardener
	written := g.entries()
	for range 2 {
		g.page.planning <- struct{}{}
	}
	over, cancel := context.WithTimeout(t.Context(), 0)
	defer cancel()
	for _, r := range []*http.Request{
		request("GET", "/share?"+asked(), nil, nil), request("GET", "/share/sheet?"+asked(), nil, nil), request("GET", "/cook", nil, nil),
		request("GET", "/dish?name=Crushed+potatoes+with+lovage&portions=3", nil, nil), request("GET", "/reckoner", nil, nil),
		request("POST", "/share", url.Values{"go": {"1"}, "dish": {crushed}, "once": {"p"}}, nil), request("POST", "/cook", url.Values{"step": {"s1"}, "says": {"done"}, "once": {"q"}}, nil),
	} {
		w := follow(g.handler, serve(g.handler, r.WithContext(over)))
		assert.Contains(t, w.Body.String(), "That took too long. Ask for less at once.", r.URL.Path)
		assert.GreaterOrEqual(t, w.Code, 400, r.URL.Path)
	}
	assert.Equal(t, written, g.entries())
	end, err := g.page.written.begin(t.Context(), "busy")
	require.NoError(t, err)
	token := "busy"
	err = g.page.written.do(sentAs(t, nil).WithContext(over), &token, func(string) (string, error) { t.Error("written"); return "", nil })
	assert.ErrorIs(t, err, context.DeadlineExceeded)
	end()
}

// A browser that has gone is noticed at every step of a slow answer.
func TestBrowsersThatHaveGone(t *testing.T) {
	p := newPage(t, Options{})
	for room := range 2 {
		packed := &packer{to: &goneBrowser{left: room}}
		packed.Header().Set("Content-Type", "text/html")
		_, err := packed.Write([]byte("Working it out"))
		require.NoError(t, err, "it is held")
		assert.ErrorIs(t, packed.FlushError(), io.ErrClosedPipe, "%d writes are taken", room)
	}
	begun := httptest.NewRecorder()
	parts := &packer{to: begun}
	parts.Header().Set("Content-Type", "text/html")
	parts.Header().Set("Content-Length", "14")
	parts.WriteHeader(http.StatusCreated)
	parts.WriteHeader(http.StatusOK)
	require.NoError(t, parts.FlushError())
	assert.Equal(t, http.StatusCreated, begun.Code)
	assert.Equal(t, "gzip", begun.Header().Get("Content-Encoding"))
	assert.Empty(t, begun.Header().Get("Content-Length"))
	assert.True(t, begun.Flushed)
	held := httptest.NewRecorder()
	assert.Equal(t, held, (&packer{to: held}).Unwrap())
	(&packer{to: held}).end()
	assert.Empty(t, held.Header(), "nothing was answered")
	assert.False(t, sendPart(&goneBrowser{}, p.screens["refused"], "top", screen{}, ""))
	w := httptest.NewRecorder()
	assert.True(t, sendPart(w, p.screens["refused"], "no such part", screen{}, "after"))
	assert.Equal(t, "<p>The page could not be laid out.</p>after", w.Body.String())
	assert.Equal(t, "text/html; charset=utf-8", w.Header().Get("Content-Type"))
	assert.True(t, w.Flushed)

	p.patience = 0
	release := make(chan struct{})
	defer close(release)
	gone := make(chan struct{})
	go func() {
		p.showSlowly(&goneBrowser{}, request("GET", "/", nil, nil), "refused", screen{}, func() (int, any) { <-release; return 200, "" })
		close(gone)
	}()
	select {
	case <-gone:
	case <-time.After(20 * time.Second):
		t.Fatal("it waits for an answer that nobody reads")
	}
}

// goneBrowser takes so many writes, and then is gone.
type goneBrowser struct {
	header http.Header
	left   int
}

func (b *goneBrowser) Header() http.Header {
	if b.header == nil {
		b.header = http.Header{}
	}
	return b.header
}
func (b *goneBrowser) WriteHeader(int) {}
func (b *goneBrowser) Flush()          {}
func (b *goneBrowser) Write(data []byte) (int, error) {
	if b.left--; b.left < 0 {
		return 0, io.ErrClosedPipe
	}
	return len(data), nil
}

// One port is opened, and no more than that; who calls too often is closed, an
// error that passes is passed on and waited out, one for good ends it.
func TestListeningGoesOn(t *testing.T) {
	before := runtime.NumGoroutine()
	_, err := Listen(65535, false)
	if err == nil || !strings.Contains(err.Error(), "address already in use") {
		require.NoError(t, err, "the last port is one")
	}
	for _, port := range []int{0, 0} {
		l, err := Listen(port, false)
		require.NoError(t, err)
		require.Len(t, l.Addresses(), 1)
		assert.LessOrEqual(t, runtime.NumGoroutine(), before+3, "nothing else is listened to")
		require.NoError(t, l.Close())
	}
	free, err := Listen(0, false)
	require.NoError(t, err)
	require.NoError(t, free.Close())
	_, err = listenAt(free.Port(), []netip.Addr{netip.MustParseAddr("127.0.0.1"), netip.MustParseAddr("192.0.2.1")})
	require.Error(t, err, "an address of nobody (RFC 5737)")
	again, err := Listen(free.Port(), false)
	require.NoError(t, err, "what was opened is closed again")
	require.NoError(t, again.Close())
	calls := make(chan caller, 40)
	for n := range 25 {
		calls <- caller{conn: &heldConn{from: fmt.Sprintf("192.168.1.66:%d", 1000+n)}}
	}
	calls <- caller{err: passing(true)}
	calls <- caller{conn: &heldConn{from: "192.168.1.7:1"}}
	calls <- caller{err: errors.New("for good")}
	calls <- caller{conn: &heldConn{from: "192.168.1.8:1"}}
	l := &Listening{callers: make(chan caller), closed: make(chan struct{}), at: []net.Listener{fakeListener{calls}}}
	ended := make(chan struct{})
	go func() { l.take(l.at[0]); close(ended) }()
	var got []string
	for range 27 {
		conn, err := l.Accept()
		if err != nil {
			got = append(got, err.Error())
		} else {
			got = append(got, conn.RemoteAddr().String())
		}
	}
	<-ended
	assert.Equal(t, []string{"192.168.1.66:1023", "for a moment", "192.168.1.7:1", "for good"}, got[23:])
	assert.Len(t, calls, 1, "nobody is taken in any more")
	assert.EqualError(t, l.Close(), "not closed")

	l = &Listening{callers: make(chan caller), closed: make(chan struct{}), at: []net.Listener{fakeListener{calls}}}
	waiting := &heldConn{from: "192.168.1.9:1"}
	<-calls
	calls <- caller{conn: waiting}
	close(l.closed)
	l.take(l.at[0])
	assert.True(t, waiting.shut, "who waits at the end is closed")
	nowhere := &nowhereConn{}
	assert.Nil(t, l.crowd.let(nowhere))
	assert.True(t, nowhere.shut)
	assert.Error(t, newPage(t, Options{}).Serve(t.Context(), closedListener(t)))
}

type fakeListener struct{ calls chan caller }

func (l fakeListener) Accept() (net.Conn, error) { one := <-l.calls; return one.conn, one.err }
func (l fakeListener) Close() error              { return errors.New("not closed") }
func (l fakeListener) Addr() net.Addr            { return nil }

type nowhereConn struct{ heldConn }

func (c *nowhereConn) RemoteAddr() net.Addr { return &net.UnixAddr{Name: "somewhere"} }

func closedListener(t *testing.T) net.Listener {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	require.NoError(t, l.Close())
	return l
}

// A curve by hand: 10 mm in 4 to 8, expected 6 min, and 20 mm in 8 to 16, expected
// 12 min. Up to 16 minutes go in steps of 5 to 20; the sizes in steps of 2.
func TestCurveByHand(t *testing.T) {
	points := []curvePoint{{10, 4, 6, 8}, {20, 8, 12, 16}}
	assert.Nil(t, drawCurve("x", nil))
	assert.Nil(t, drawCurve("x", points[:1]))
	drawn := drawCurve("potato, cube", points)
	assert.Equal(t, &curve{
		Of: "potato, cube", Line: "M0.00 70.00L100.00 40.00", Band: "M0.00 60.00L100.00 20.00L100.00 60.00L0.00 80.00z",
		Sizes:   []mark{{"0.00%", "10"}, {"20.00%", "12"}, {"40.00%", "14"}, {"60.00%", "16"}, {"80.00%", "18"}, {"100.00%", "20"}},
		Minutes: []mark{{"100.00%", "0"}, {"75.00%", "5"}, {"50.00%", "10"}, {"25.00%", "15"}, {"0.00%", "20"}},
		Says:    "potato, cube: minutes by size, from 6 min at 10 mm to 12 min at 20 mm; the table below has the figures.",
	}, drawn)
	for length, step := range map[float64]float64{0: 1, 1: 1, 5: 1, 5.1: 2, 10: 2, 10.1: 5, 25: 5, 25.1: 10, 50: 10, 51: 20, 240: 50, 600: 200} {
		assert.Equal(t, step, roundStep(length, 5), "%v", length)
	}
}
