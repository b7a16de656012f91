package page

import (
	"cmp"
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net/http"
	"net/netip"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"
)

// A code is drawn from 31^10, some 8e14: at ten thousand tries a second, more
// than a home network carries, a day's guessing finds it once in a million days.
// So the limits below need not keep anybody out to keep the code safe.
const (
	codeLetters  = "abcdefghjkmnpqrstuvwxyz23456789" // none that are read for another
	codeLength   = 10
	triesAtOnce  = 5           // of one address; then
	tryEvery     = time.Second // one after this long
	mostTrying   = 4096        // addresses whose tries are remembered
	maxGuests    = 16
	longestAgent = 400 // bytes of what a phone calls itself
	visitLasts   = 24 * time.Hour
	visitCookie  = "trencher-visit"
)

// door lets a phone in that gives the code printed in the terminal. A code
// opens once; then the next one is printed. Wrong codes slow down the address
// they come from and nobody else, and never change the code somebody is typing.
type door struct {
	announce func(code string) // called with each new code
	now      func() time.Time

	mu     sync.Mutex
	code   string
	tried  map[netip.Addr]time.Time // address → when all its tries are free again
	visits map[string]*visit        // by their tokens
	number int                      // of the visit let in last
}

// visit is a phone that was let in.
type visit struct {
	number int    // names it on the screen; its token is nobody else's business
	agent  string // what it calls itself
	from   netip.Addr
	since  time.Time
	seen   time.Time
}

func newDoor(announce func(code string), now func() time.Time) *door {
	d := &door{announce: announce, now: now, tried: map[netip.Addr]time.Time{}, visits: map[string]*visit{}}
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
	d.code = string(letters)
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
func (d *door) try(typed, agent string, from netip.Addr) (token string, said answer) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	if !d.mayTry(from, now) {
		return "", tooSoon
	}
	plain := strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(typed))
	if subtle.ConstantTimeCompare([]byte(plain), []byte(d.code)) != 1 {
		return "", wrongCode
	}
	token = newToken()
	d.admit(token, agent, from, now)
	d.changeCode()
	return token, letIn
}

// mayTry counts a try of an address, which may come some at once and then at
// intervals. The caller holds the lock.
func (d *door) mayTry(from netip.Addr, now time.Time) bool {
	free := d.tried[from]
	if free.Before(now) {
		free = now
	}
	if free = free.Add(tryEvery); free.Sub(now) > triesAtOnce*tryEvery {
		return false
	}
	if _, known := d.tried[from]; !known && len(d.tried) >= mostTrying {
		d.forgetTries(now)
	}
	d.tried[from] = free
	return true
}

// forgetTries makes room for an address: those go whose tries are free again,
// or else all: better a few tries too many than somebody kept out.
func (d *door) forgetTries(now time.Time) {
	for address, free := range d.tried {
		if !free.After(now) {
			delete(d.tried, address)
		}
	}
	if len(d.tried) >= mostTrying {
		clear(d.tried)
	}
}

func newToken() string {
	var token [24]byte
	rand.Read(token[:]) // never fails
	return base64.RawURLEncoding.EncodeToString(token[:])
}

// admit remembers a visit; past the limit the one that was let in first gives
// way.
func (d *door) admit(token, agent string, from netip.Addr, now time.Time) {
	d.number++
	d.visits[token] = &visit{number: d.number, agent: agent[:min(len(agent), longestAgent)], from: from, since: now, seen: now}
	for len(d.visits) > maxGuests {
		first := token
		for one, v := range d.visits {
			if v.number < d.visits[first].number {
				first = one
			}
		}
		delete(d.visits, first)
	}
}

// visitOf is the visit a request belongs to, if there is one.
func (d *door) visitOf(r *http.Request) (_ visit, letIn bool) {
	cookie, err := r.Cookie(visitCookie)
	if err != nil {
		return visit{}, false
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	v, now := d.visits[cookie.Value], d.now()
	if v == nil || !now.Before(v.since.Add(visitLasts)) {
		return visit{}, false
	}
	v.seen = now
	return *v, true
}

// letInNow lists the visits that are good, the last let in first.
func (d *door) letInNow() (list []visit) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, v := range d.visits {
		if d.now().Before(v.since.Add(visitLasts)) {
			list = append(list, *v)
		}
	}
	slices.SortFunc(list, func(a, b visit) int { return cmp.Compare(b.number, a.number) })
	return list
}

// signOut ends the visits that are meant, and returns them.
func (d *door) signOut(meant func(visit) bool) (out []visit) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for token, v := range d.visits {
		if meant(*v) {
			out = append(out, *v)
			delete(d.visits, token)
		}
	}
	return out
}

// guard shows nothing but the style sheet and the question for the code to
// whoever has not given it, and nothing at all to callers from elsewhere.
func (d *door) guard(p *Page, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_, known := d.visitOf(r)
		switch {
		case !isAtHome(callerOf(r)):
			p.refuse(w, r, http.StatusForbidden, "Only machines of the local network are let in.")
		case r.Method == http.MethodPost && r.URL.Path == "/code":
			d.take(p, w, r)
		case known || r.URL.Path == p.style.Address:
			next.ServeHTTP(w, r)
		default:
			d.ask(p, w, r, http.StatusUnauthorized, codeForm{To: askedFor(r)})
		}
	})
}

// callerOf is the address a request comes from; the zero one, which is nowhere,
// where that is not known.
func callerOf(r *http.Request) netip.Addr {
	at, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	return at.Addr().Unmap().WithZone("")
}

// isAtHome tells the addresses of this machine and of a home network from all
// others: loopback, RFC 1918, RFC 4193, and link-local (RFC 3927, RFC 4291).
func isAtHome(address netip.Addr) bool {
	return address.IsLoopback() || address.IsPrivate() || address.IsLinkLocalUnicast()
}

// codeForm asks for the code, on the way to a screen.
type codeForm struct {
	Code field
	To   string
}

// askedFor is the address of the screen somebody asked for; of a form that was
// sent, that of the form with what was typed.
func askedFor(r *http.Request) string {
	if r.Method != http.MethodPost {
		return (&url.URL{Path: r.URL.Path, RawQuery: r.URL.RawQuery}).String()
	}
	to := r.URL.Path
	if values := contentsTyped(r); len(values) > 0 {
		to += "?" + values.Encode()
	}
	return to
}

// ownAddress is an address of the page that came back with a form; "/" where it
// is none: nobody is led anywhere else.
func ownAddress(to string) string {
	u, err := url.Parse(to)
	if err != nil || u.Scheme != "" || u.Host != "" || u.Path == "/code" || !strings.HasPrefix(to, "/") || strings.HasPrefix(u.Path, "//") || strings.Contains(to, `\`) {
		return "/"
	}
	return (&url.URL{Path: u.Path, RawQuery: u.RawQuery}).String()
}

func (d *door) take(p *Page, w http.ResponseWriter, r *http.Request) {
	to := ownAddress(typed(r, "to"))
	token, said := d.try(r.PostFormValue("code"), r.UserAgent(), callerOf(r))
	switch said {
	case tooSoon:
		d.ask(p, w, r, http.StatusTooManyRequests, codeForm{field{Wrong: "Too fast. Wait a second, then try again."}, to})
	case wrongCode:
		d.ask(p, w, r, http.StatusUnauthorized, codeForm{field{Wrong: "That is not the code in the terminal. Type the newest one."}, to})
	case letIn:
		http.SetCookie(w, &http.Cookie{Name: visitCookie, Value: token, Path: "/", MaxAge: int(visitLasts.Seconds()),
			HttpOnly: true, SameSite: http.SameSiteStrictMode})
		http.Redirect(w, r, to, http.StatusSeeOther)
	}
}

func (d *door) ask(p *Page, w http.ResponseWriter, r *http.Request, status int, form codeForm) {
	form.Code.Name, form.Code.Label = "code", "Code from the terminal"
	p.show(w, r, status, "code", screen{Title: "The code, please", Bare: true, Data: form})
}
