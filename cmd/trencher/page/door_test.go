package page

import (
	"fmt"
	"html"
	"math"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// doorPage is a page open to phones, with the codes it has printed and a
// clock that the test moves.
type doorPage struct {
	handler http.Handler
	seen    *int
	codes   []string
	now     time.Time
}

func newDoorPage(t *testing.T) *doorPage {
	t.Helper()
	d := &doorPage{now: time.Date(2031, 7, 12, 12, 0, 0, 0, time.UTC)}
	p := newPage(t, Options{
		Phone:    true,
		Announce: func(code string) { d.codes = append(d.codes, code) },
		Now:      func() time.Time { return d.now },
	})
	d.handler, d.seen = guarded(p)
	return d
}

func (d *doorPage) newest() string { return d.codes[len(d.codes)-1] }

// give types a code, a second after the last try.
func (d *doorPage) give(code string) *http.Response {
	d.now = d.now.Add(time.Second)
	return d.giveAt(code, "192.168.1.30")
}

// giveAt types a code at an address.
func (d *doorPage) giveAt(code, address string) *http.Response {
	return serve(d.handler, request("POST", "/code", url.Values{"code": {code}}, func(r *http.Request) { r.RemoteAddr = address + ":50123" })).Result()
}

// visit asks for the page with the cookie of an earlier answer.
func (d *doorPage) visit(cookies []*http.Cookie) int {
	return serve(d.handler, request("GET", "/", nil, func(r *http.Request) {
		for _, cookie := range cookies {
			r.AddCookie(cookie)
		}
	})).Code
}

func TestDoorLetsAPhoneInWithTheCode(t *testing.T) {
	d := newDoorPage(t)
	require.Len(t, d.codes, 1)
	assert.Regexp(t, regexp.MustCompile(`^[a-z2-9]{5} [a-z2-9]{5}$`), d.newest())
	assert.Equal(t, http.StatusUnauthorized, d.visit(nil))
	assert.Zero(t, *d.seen)

	answer := d.give(strings.ToUpper(" " + d.newest() + " "))
	assert.Equal(t, http.StatusSeeOther, answer.StatusCode)
	require.Len(t, answer.Cookies(), 1)
	cookie := answer.Cookies()[0]
	assert.True(t, cookie.HttpOnly)
	assert.Equal(t, http.SameSiteStrictMode, cookie.SameSite)
	assert.Equal(t, http.StatusOK, d.visit(answer.Cookies()))
	assert.Equal(t, 1, *d.seen)
}

func TestDoorCodeOpensOnce(t *testing.T) {
	d := newDoorPage(t)
	code := d.newest()
	require.Equal(t, http.StatusSeeOther, d.give(code).StatusCode)
	require.Len(t, d.codes, 2, "the next code is printed")
	assert.Equal(t, http.StatusUnauthorized, d.give(code).StatusCode)
	assert.Equal(t, http.StatusSeeOther, d.give(d.newest()).StatusCode)
}

// Of one address a few tries are taken at once, then one each second; even the
// right code waits, but never longer than five.
func TestDoorSlowsGuessing(t *testing.T) {
	d := newDoorPage(t)
	for range triesAtOnce {
		assert.Equal(t, http.StatusUnauthorized, d.giveAt("wrong", "192.168.1.66").StatusCode)
	}
	assert.Equal(t, http.StatusTooManyRequests, d.giveAt(d.newest(), "192.168.1.66").StatusCode)
	d.now = d.now.Add(tryEvery)
	assert.Equal(t, http.StatusSeeOther, d.giveAt(d.newest(), "192.168.1.66").StatusCode)
}

// However many try, and at however many addresses: somebody with the code at an
// address of their own is let in at once, and it is still the code they read.
func TestDoorFloodKeepsNobodyOut(t *testing.T) {
	d := newDoorPage(t)
	code := d.newest()
	checked := 0
	for round := range 5 {
		for address := range mostTrying + 1000 {
			at := fmt.Sprintf("10.9.%d.%d", address/250, address%250)
			for range 3 {
				if d.giveAt(fmt.Sprintf("guess%05d", checked), at).StatusCode == http.StatusUnauthorized {
					checked++
				}
			}
			if round > 0 && address > 100 {
				break // the rest tried once
			}
		}
		assert.Len(t, d.codes, 1, "the code stays the one that somebody is typing")
		d.now = d.now.Add(time.Second)
	}
	require.Greater(t, checked, mostTrying)
	assert.Equal(t, http.StatusSeeOther, d.giveAt(code, "192.168.1.7").StatusCode)
}

// A day of guessing, faster than a home network carries it and from as many
// addresses as one likes, has less than one chance in a hundred thousand.
func TestDoorCodeIsNotGuessed(t *testing.T) {
	const guesses = 24 * 60 * 60 * 10_000
	assert.Less(t, guesses/math.Pow(float64(len(codeLetters)), codeLength), 1e-5)
	d := newDoorPage(t)
	letters := map[rune]int{}
	for range 400 {
		d.now = d.now.Add(time.Minute)
		require.Equal(t, http.StatusSeeOther, d.give(d.newest()).StatusCode)
		for _, letter := range strings.ReplaceAll(d.newest(), " ", "") {
			letters[letter]++
		}
	}
	assert.Len(t, letters, len(codeLetters), "every letter is drawn")
	mean := 400 * codeLength / len(codeLetters)
	for letter, n := range letters { // 129 expected of each; 6 standard deviations are 67
		assert.InDelta(t, mean, n, 67, "%c", letter)
	}
}

func TestDoorVisitsEnd(t *testing.T) {
	d := newDoorPage(t)
	cookies := d.give(d.newest()).Cookies()
	require.Equal(t, http.StatusOK, d.visit(cookies))
	d.now = d.now.Add(visitLasts)
	assert.Equal(t, http.StatusUnauthorized, d.visit(cookies))
}

func TestDoorRefusesMadeUpVisits(t *testing.T) {
	d := newDoorPage(t)
	for _, value := range []string{"", "x", strings.Repeat("A", 32)} {
		assert.Equal(t, http.StatusUnauthorized, d.visit([]*http.Cookie{{Name: visitCookie, Value: value}}))
	}
	assert.Zero(t, *d.seen)
}

func TestDoorHoldsFewVisits(t *testing.T) {
	d := newDoorPage(t)
	first := d.give(d.newest()).Cookies()
	var last []*http.Cookie
	for range maxGuests {
		last = d.give(d.newest()).Cookies()
	}
	assert.Equal(t, http.StatusUnauthorized, d.visit(first), "the oldest gives way")
	assert.Equal(t, http.StatusOK, d.visit(last))
}

func TestDoorRefusesTheCodeFromAnotherSite(t *testing.T) {
	d := newDoorPage(t)
	w := serve(d.handler, request("POST", "/code", url.Values{"code": {d.newest()}}, func(r *http.Request) {
		r.Header.Set("Origin", "http://attacker.example")
	}))
	assert.Equal(t, http.StatusForbidden, w.Code)
}

// Nobody from outside the local network is let in, code or no code.
func TestDoorLetsNobodyInFromElsewhere(t *testing.T) {
	for address, status := range map[string]int{
		"203.0.113.9": http.StatusForbidden, "8.8.8.8": http.StatusForbidden, "[2001:db8::5]": http.StatusForbidden, "172.32.0.1": http.StatusForbidden, "100.64.0.1": http.StatusForbidden,
		"10.0.0.9": http.StatusSeeOther, "172.31.255.1": http.StatusSeeOther, "192.168.250.3": http.StatusSeeOther, "169.254.7.7": http.StatusSeeOther,
		"127.0.0.1": http.StatusSeeOther, "[::1]": http.StatusSeeOther, "[fd00::7]": http.StatusSeeOther, "[fe80::7%eth0]": http.StatusSeeOther, "[::ffff:192.168.1.4]": http.StatusSeeOther,
	} {
		d := newDoorPage(t)
		assert.Equal(t, status, d.giveAt(d.newest(), address).StatusCode, address)
	}
}

// Whoever signs in lands on the screen that was asked for; a form sent after the
// visit has ended comes back as it was typed. Nobody is led off the page.
func TestDoorLeadsToWhatWasAskedFor(t *testing.T) {
	d := newDoorPage(t)
	to := regexp.MustCompile(`name="to" value="([^"]*)"`)
	lands := func(asked *httptest.ResponseRecorder) string {
		require.Equal(t, http.StatusUnauthorized, asked.Code)
		d.now = d.now.Add(time.Minute)
		for _, code := range []string{"a wrong one", d.newest()} { // mistyped once
			found := to.FindStringSubmatch(asked.Body.String())
			require.NotNil(t, found)
			asked = serve(d.handler, request("POST", "/code", url.Values{"code": {code}, "to": {html.UnescapeString(found[1])}}, nil))
		}
		require.Equal(t, http.StatusSeeOther, asked.Code)
		return asked.Header().Get("Location")
	}
	for _, target := range []string{"/", "/weigh", "/share?go=1&dish=Crushed+potatoes&guests=6+adults%0A2+no+milk"} {
		assert.Equal(t, target, lands(serve(d.handler, request("GET", target, nil, nil))))
	}
	sent := lands(serve(d.handler, request("POST", "/weigh", url.Values{"once": {"x"}, "planting": {"tub-3"}, "bowl-1-full": {"1.46 kg"}}, nil)))
	assert.Equal(t, "/weigh?bowl-1-full=1.46+kg&planting=tub-3", sent)
	for _, elsewhere := range []string{"", "http://attacker.example/", "//attacker.example/", `/\attacker.example/`, `\attacker.example`, "javascript:alert(1)", "/code", "attacker.example", "/%2f%2fattacker.example", "/\t/attacker.example"} {
		d.now = d.now.Add(time.Minute)
		w := serve(d.handler, request("POST", "/code", url.Values{"code": {d.newest()}, "to": {elsewhere}}, nil))
		at, err := url.Parse(w.Header().Get("Location"))
		require.NoError(t, err, elsewhere)
		assert.Empty(t, at.Host, elsewhere)
		assert.Regexp(t, `^/([^/\\]|$)`, w.Header().Get("Location"), elsewhere)
	}
}
