package page

import (
	"context"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"strconv"
	"time"
)

// What one request may cost.
const (
	maxBody       = 64 << 10         // bytes of a filled-in form
	maxHeader     = 16 << 10         // bytes of headers
	maxFields     = 400              // values in one form
	maxWorking    = 60 * time.Second // for one answer
	HeaderTimeout = 5 * time.Second
	readTimeout   = 15 * time.Second
	idleTimeout   = 2 * time.Minute
)

// guard wraps the page's screens in everything a request must pass first.
func (p *Page) guard(screens http.Handler) http.Handler {
	writes := http.NewCrossOriginProtection()
	writes.SetDenyHandler(p.refusal(http.StatusForbidden,
		"This came from another site. Open the page itself and fill the form in there."))
	var handler http.Handler = screens
	if p.door != nil {
		handler = p.door.guard(p, handler)
	}
	handler = p.limitForm(handler)
	handler = writes.Handler(handler)
	handler = p.checkHost(handler)
	return compress(limitTime(setHeaders(handler)))
}

// policy is what a screen may load: the page's own style sheet and scripts, which
// may ask the page itself.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// isPlan are the screens that a browser may keep to go back to, should the
// network go. All others are asked for anew: what food they are about may have
// become another thing.
var isPlan = map[string]bool{"/share": true, "/share/sheet": true, "/dish": true, "/reckoner": true}

// setHeaders tells the browser to load nothing but the page's own, and to keep no
// copy but of a plan.
func setHeaders(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		header := w.Header()
		header.Set("Content-Security-Policy", policy)
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("Referrer-Policy", "same-origin")
		header.Set("Cross-Origin-Opener-Policy", "same-origin")
		header.Set("Cross-Origin-Resource-Policy", "same-origin")
		header.Set("Cache-Control", "no-store")
		if isPlan[r.URL.Path] && r.Method == http.MethodGet {
			header.Set("Cache-Control", "private, no-cache")
		}
		next.ServeHTTP(w, r)
	})
}

// checkHost refuses a request that asks for the page under a foreign name: a
// site that points its own name at this machine ("DNS rebinding") would
// otherwise pass for the page itself.
func (p *Page) checkHost(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !p.isOurHost(r.Host) {
			p.refuse(w, r, http.StatusMisdirectedRequest, "This is not the page's address. Use the one printed in the terminal.")
			return
		}
		next.ServeHTTP(w, r)
	})
}

// isOurHost tells whether a Host header names this page: localhost or a
// loopback address; with phones let in, any address of a home network, as only
// names can be pointed elsewhere.
func (p *Page) isOurHost(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name, port = host, "80"
	}
	if port != strconv.Itoa(p.port) {
		return false
	}
	if name == "localhost" {
		return true
	}
	address, err := netip.ParseAddr(name)
	return err == nil && (address.IsLoopback() || p.door != nil && isAtHome(address))
}

// limitForm reads a form within bounds before any screen sees it.
func (p *Page) limitForm(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		most := int64(maxBody)
		if r.URL.Path == "/carry" && p.isLetIn(r) {
			most = maxCarried
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		err := r.ParseForm()
		var tooLarge *http.MaxBytesError
		switch {
		case errors.As(err, &tooLarge):
			p.refuse(w, r, http.StatusRequestEntityTooLarge, "That is more than the form takes. Send it in parts.")
		case err != nil:
			p.refuse(w, r, http.StatusBadRequest, "The form did not arrive whole. Go back and send it again.")
		case countValues(r) > maxFields:
			p.refuse(w, r, http.StatusRequestEntityTooLarge, "That is more than the form takes. Send it in parts.")
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// isLetIn tells whether a request may see more than the question for the code.
func (p *Page) isLetIn(r *http.Request) bool {
	if p.door == nil {
		return true
	}
	_, letIn := p.door.visitOf(r)
	return letIn
}

func countValues(r *http.Request) int {
	n := 0
	for _, values := range r.Form {
		n += len(values)
	}
	return n
}

// limitTime bounds the work done for one request.
func limitTime(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), maxWorking)
		defer cancel()
		next.ServeHTTP(w, r.WithContext(ctx))
	})
}

// refusal is a handler that always refuses.
func (p *Page) refusal(status int, says string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { p.refuse(w, r, status, says) })
}

// refuse answers with a status and one sentence.
func (p *Page) refuse(w http.ResponseWriter, r *http.Request, status int, says string) {
	p.show(w, r, status, "refused", screen{Title: http.StatusText(status), Data: says})
}
