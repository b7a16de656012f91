package page

import (
	"maps"
	"net/http"
	"net/url"
	"sync"
)

// answers keeps the screens that answer a form, such as what is wrong in it, so
// that they are shown at an address of their own: nobody who goes back or loads
// a screen again sends a form once more.
type answers struct {
	mu    sync.Mutex
	pages map[string]answered
	order []string
}

// answered is a screen as it was laid out.
type answered struct {
	status int
	text   string
}

const (
	maxAnswers  = 64
	longestLink = 4 << 10 // bytes of what was typed that go into an address
)

// keep keeps a screen and returns the address it is shown at. What was typed
// goes into the address: should the screen be forgotten, the form is not empty.
func (a *answers) keep(r *http.Request, one answered) string {
	key := newToken()
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.pages == nil {
		a.pages = map[string]answered{}
	}
	a.pages[key], a.order = one, append(a.order, key)
	if len(a.order) > maxAnswers {
		delete(a.pages, a.order[0])
		a.order = a.order[1:]
	}
	typed := contentsTyped(r)
	typed.Set("answer", key)
	return r.URL.Path + "?" + typed.Encode()
}

// contentsTyped is what was typed into a form, as far as an address can hold it.
func contentsTyped(r *http.Request) url.Values {
	typed := url.Values(maps.Clone(r.PostForm))
	for _, name := range []string{"once", "sure", "more", "keep"} {
		typed.Del(name)
	}
	if len(typed.Encode()) > longestLink {
		return url.Values{}
	}
	return typed
}

// of is the screen that an address is of.
func (a *answers) of(r *http.Request) (one answered, ok bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	one, ok = a.pages[r.URL.Query().Get("answer")]
	return one, ok
}

// showAnswers shows what stands at addresses that [answers] gave.
func (p *Page) showAnswers(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if one, ok := p.answers.of(r); ok && r.Method == http.MethodGet {
			sendScreen(w, one)
			return
		}
		next.ServeHTTP(w, r)
	})
}
