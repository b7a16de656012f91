package page

import (
	"bufio"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// gzipped asks for a screen compressed.
func gzipped(handler http.Handler, target string) *httptest.ResponseRecorder {
	return serve(handler, request("GET", target, nil, func(r *http.Request) { r.Header.Set("Accept-Encoding", "gzip, deflate, br") }))
}

func unzipped(t *testing.T, w *httptest.ResponseRecorder) string {
	t.Helper()
	require.Equal(t, "gzip", w.Header().Get("Content-Encoding"))
	from, err := gzip.NewReader(w.Body)
	require.NoError(t, err)
	text, err := io.ReadAll(from)
	require.NoError(t, err)
	return string(text)
}

// What a browser says of gzip, by RFC 9110, section 12.5.3, whose own examples
// are the last five.
func TestTakesGzip(t *testing.T) {
	for accepts, want := range map[string]bool{
		"": false, "identity": false, "br": false, "gzip": true, "GZIP": true, "gzip;q=0": false, "gzip;q=0.000": false, "*;q=0": false,
		"*": true, "br, *;q=0.1": true, "*, gzip;q=0": false, "gzip;q=1.0, *;q=0": true, "gzip ; q=0.5": true, "gzip;q=much": false,
		"compress, gzip": true, "compress;q=0.5, gzip;q=1.0": true, "gzip;q=1.0, identity; q=0.5, *;q=0": true,
	} {
		assert.Equal(t, want, takesGzip(accepts), accepts)
	}
}

// A screen is the same compressed or not; it says how long it is, and that it
// differs by what the browser takes.
func TestScreensAreCompressed(t *testing.T) {
	g := newGardener(t)
	for _, target := range []string{"/season", "/keep?food=boiled-potatoes", "/no-such-screen"} {
		plain, packed := g.get(target), gzipped(g.handler, target)
		assert.Empty(t, plain.Header().Get("Content-Encoding"))
		assert.Equal(t, "Accept-Encoding", plain.Header().Get("Vary"))
		assert.Equal(t, "Accept-Encoding", packed.Header().Get("Vary"))
		assert.Equal(t, plain.Code, packed.Code)
		assert.Equal(t, strconv.Itoa(packed.Body.Len()), packed.Header().Get("Content-Length"), target)
		assert.Less(t, 2*packed.Body.Len(), plain.Body.Len(), "worth while: %s", target)
		assert.Equal(t, plain.Body.String(), unzipped(t, packed), target)
	}
}

// A redirect and what is zipped already go as they are.
func TestSmallAnswersAreNotCompressed(t *testing.T) {
	g := newGardener(t)
	parcel := gzipped(g.handler, "/carry/plot")
	assert.Equal(t, "application/zip", parcel.Header().Get("Content-Type"))
	assert.Empty(t, parcel.Header().Get("Content-Encoding"))
	for size, want := range map[int]string{leastCompressed - 1: "", leastCompressed: "gzip"} {
		w := gzipped(compress(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			send(w, "text/plain; charset=utf-8", strings.Repeat("a", size))
		})), "/")
		assert.Equal(t, want, w.Header().Get("Content-Encoding"), size)
	}
	form := aLift()
	w := serve(g.handler, request("POST", "/weigh", form, func(r *http.Request) { r.Header.Set("Accept-Encoding", "gzip") }))
	assert.Equal(t, http.StatusSeeOther, w.Code)
	assert.Empty(t, w.Header().Get("Content-Encoding"))
}

// An answer that is sent in parts is compressed part by part: the first can be
// read before the second is there.
func TestPartsAreCompressedAsTheyGo(t *testing.T) {
	goOn := make(chan struct{})
	server := httptest.NewServer(compress(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		io.WriteString(w, "Working it out\n")
		http.NewResponseController(w).Flush()
		<-goOn
		io.WriteString(w, "worked out\n")
	})))
	defer server.Close()
	answer, err := http.Get(server.URL) // Go's client takes gzip, and reads it
	require.NoError(t, err)
	defer answer.Body.Close()
	assert.True(t, answer.Uncompressed, "it came compressed")
	lines := bufio.NewReader(answer.Body)
	first, err := lines.ReadString('\n')
	require.NoError(t, err)
	assert.Equal(t, "Working it out\n", first)
	close(goOn)
	rest, err := io.ReadAll(lines)
	require.NoError(t, err)
	assert.Equal(t, "worked out\n", string(rest))
}

// What ends in a panic does not look whole.
func TestWhatBreaksOffIsNotSent(t *testing.T) {
	broken := compress(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		send(w, "text/html", strings.Repeat("half ", 1000))
		panic(http.ErrAbortHandler)
	}))
	w := httptest.NewRecorder()
	assert.Panics(t, func() {
		broken.ServeHTTP(w, request("GET", "/", nil, func(r *http.Request) { r.Header.Set("Accept-Encoding", "gzip") }))
	})
	assert.Zero(t, w.Body.Len())
}

// The style sheet and the script stand at addresses made of what they say, and
// may be kept for good; each way of sending one has its own tag.
func TestOwnFilesMayBeKept(t *testing.T) {
	c := newCook(t)
	body := c.get("/cook").Body.String()
	for _, one := range []asset{c.page.style, c.page.script, c.page.away} {
		assert.Contains(t, body, `="`+one.Address+`"`)
		plain, packed := c.get(one.Address), gzipped(c.handler, one.Address)
		tags := map[string]bool{}
		for _, w := range []*httptest.ResponseRecorder{plain, packed} {
			assert.Equal(t, http.StatusOK, w.Code)
			assert.Equal(t, "public, max-age=31536000, immutable", w.Header().Get("Cache-Control"))
			assert.Equal(t, "Accept-Encoding", w.Header().Get("Vary"))
			assert.Equal(t, strconv.Itoa(w.Body.Len()), w.Header().Get("Content-Length"))
			tags[w.Header().Get("ETag")] = true
		}
		assert.Len(t, tags, 2)
		assert.Equal(t, plain.Body.String(), unzipped(t, packed))
		for tag, status := range map[string]int{plain.Header().Get("ETag"): http.StatusNotModified, `"other", W/` + plain.Header().Get("ETag"): http.StatusNotModified,
			packed.Header().Get("ETag"): http.StatusOK, "": http.StatusOK} {
			w := serve(c.handler, request("GET", one.Address, nil, func(r *http.Request) { r.Header.Set("If-None-Match", tag) }))
			assert.Equal(t, status, w.Code, tag)
		}
	}
	assert.NotEqual(t, newAsset("style", "css", "text/css", "a").Address, newAsset("style", "css", "text/css", "b").Address)
	assert.Equal(t, "no-cache", c.get("/style.css").Header().Get("Cache-Control"), "this address stays when what it says changes")
	assert.Equal(t, http.StatusNotFound, c.get("/style-0000000000000000.css").Code)
}
