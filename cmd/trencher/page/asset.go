package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"net/http"
	"strconv"
	"strings"
	"sync"
)

// awayScript keeps what is shown on the screen should the network go.
//
//go:embed away.js
var awayScript string

// asset is a file of the page itself, such as its style sheet. Its address holds
// a hash of what it says, so that a browser may keep it for good: what says
// something else has another address.
type asset struct {
	Address    string
	kind, hash string
	plain      []byte
	packed     func() []byte // once it is asked for: a phone's own page never does
}

// newAsset is the file name.suffix that says text.
func newAsset(name, suffix, kind, text string) asset {
	sum := sha256.Sum256([]byte(text))
	hash := hex.EncodeToString(sum[:8])
	return asset{Address: "/" + name + "-" + hash + "." + suffix, kind: kind, hash: hash, plain: []byte(text),
		packed: sync.OnceValue(func() []byte { return compressed([]byte(text)) })}
}

// keepForGood lets a browser keep what stands at an address without asking again
// (RFC 8246).
const keepForGood = "public, max-age=31536000, immutable"

// send answers with the file. Compressed it is another thing with a tag of its
// own (RFC 9110, section 8.8.3.3).
func (a asset) send(w http.ResponseWriter, r *http.Request) {
	body, tag := a.plain, `"`+a.hash+`"`
	header := w.Header()
	if takesGzip(r.Header.Get("Accept-Encoding")) {
		body, tag = a.packed(), `"`+a.hash+`-gzip"`
		header.Set("Content-Encoding", "gzip")
	}
	header.Set("Content-Type", a.kind)
	header.Set("ETag", tag)
	header.Set("Cache-Control", "no-cache")
	if r.URL.Path == a.Address {
		header.Set("Cache-Control", keepForGood)
	}
	if hasTag(r.Header.Get("If-None-Match"), tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	header.Set("Content-Length", strconv.Itoa(len(body)))
	w.Write(body) // an error here means the browser has gone
}

// hasTag tells whether an If-None-Match names a tag.
func hasTag(list, tag string) bool {
	for one := range strings.SplitSeq(list, ",") {
		if one = strings.TrimPrefix(strings.TrimSpace(one), "W/"); one == tag || one == "*" {
			return true
		}
	}
	return false
}
