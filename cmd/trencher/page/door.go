package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net/http"
	"strings"
	"sync"
	"time"
)

const (
	codeLetters = "abcdefghjkmnpqrstuvwxyz23456789" // none that are read for another
	codeLength  = 8
	maxWrong    = 10                     // wrong tries before the code is changed
	tryEvery    = 500 * time.Millisecond // between two tries
	maxGuests   = 16
	visit       = 24 * time.Hour
	visitCookie = "trencher-visit"
)

// door lets a phone in that gives the code printed in the terminal. A code
// opens once; then the next one is printed.
type door struct {
	announce func(code string) // called with each new code
	now      func() time.Time

	mu      sync.Mutex
	code    string
	wrong   int
	nextTry time.Time
	visits  map[string]time.Time // token → until when it is good
}

func newDoor(announce func(code string), now func() time.Time) *door {
	d := &door{announce: announce, now: now, visits: map[string]time.Time{}}
	d.changeCode()
	return d
}

// changeCode makes and prints the next code. The caller holds the lock, or is
// alone.
func (d *door) changeCode() {
	letters := make([]byte, codeLength)
	for i := range letters {
		letters[i] = codeLetters[randomBelow(len(codeLetters))]
	}
	d.code, d.wrong = string(letters), 0
	d.announce(d.code[:codeLength/2] + " " + d.code[codeLength/2:])
}

// randomBelow is an even choice of 0 to n-1, n at most 256.
func randomBelow(n int) int {
	for {
		var b [1]byte
		rand.Read(b[:]) // never fails
		if int(b[0]) < 256/n*n {
			return int(b[0]) % n
		}
	}
}

// answer is what the door says to a try.
type answer int

const (
	wrongCode answer = iota
	tooSoon
	letIn
)

// try takes a code as typed; on letIn the token is the visit's.
func (d *door) try(typed string) (token string, said answer) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	if now.Before(d.nextTry) {
		return "", tooSoon
	}
	d.nextTry = now.Add(tryEvery)
	plain := strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(typed))
	if subtle.ConstantTimeCompare([]byte(plain), []byte(d.code)) != 1 {
		if d.wrong++; d.wrong >= maxWrong {
			d.changeCode()
		}
		return "", wrongCode
	}
	token = newToken()
	d.admit(token, now)
	d.changeCode()
	return token, letIn
}

func newToken() string {
	var token [24]byte
	rand.Read(token[:]) // never fails
	return base64.RawURLEncoding.EncodeToString(token[:])
}

// admit remembers a visit; past the limit the one that ends first gives way.
func (d *door) admit(token string, now time.Time) {
	d.visits[token] = now.Add(visit)
	if len(d.visits) <= maxGuests {
		return
	}
	first := token
	for one, until := range d.visits {
		if until.Before(d.visits[first]) {
			first = one
		}
	}
	delete(d.visits, first)
}

func (d *door) knows(r *http.Request) bool {
	cookie, err := r.Cookie(visitCookie)
	if err != nil {
		return false
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	until, known := d.visits[cookie.Value]
	return known && d.now().Before(until)
}

// guard shows nothing but the style sheet and the question for the code to
// whoever has not given it.
func (d *door) guard(p *Page, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.Method == http.MethodPost && r.URL.Path == "/code":
			d.take(p, w, r)
		case r.URL.Path == p.style.Address || d.knows(r):
			next.ServeHTTP(w, r)
		default:
			d.ask(p, w, r, http.StatusUnauthorized, "")
		}
	})
}

func (d *door) take(p *Page, w http.ResponseWriter, r *http.Request) {
	token, said := d.try(r.PostFormValue("code"))
	switch said {
	case tooSoon:
		d.ask(p, w, r, http.StatusTooManyRequests, "Too fast. Wait a second, then try again.")
	case wrongCode:
		d.ask(p, w, r, http.StatusUnauthorized, "That is not the code in the terminal. Type the newest one.")
	case letIn:
		http.SetCookie(w, &http.Cookie{Name: visitCookie, Value: token, Path: "/", MaxAge: int(visit.Seconds()),
			HttpOnly: true, SameSite: http.SameSiteStrictMode})
		http.Redirect(w, r, "/", http.StatusSeeOther)
	}
}

func (d *door) ask(p *Page, w http.ResponseWriter, r *http.Request, status int, wrong string) {
	p.show(w, r, status, "code", screen{Title: "The code, please", Bare: true,
		Data: field{Name: "code", Label: "Code from the terminal", Wrong: wrong}})
}
