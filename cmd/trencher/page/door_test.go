package page

import (
	"net/http"
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
	return serve(d.handler, request("POST", "/code", url.Values{"code": {code}}, nil)).Result()
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
	assert.Regexp(t, regexp.MustCompile(`^[a-z2-9]{4} [a-z2-9]{4}$`), d.newest())
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

func TestDoorChangesACodeThatIsGuessedAt(t *testing.T) {
	d := newDoorPage(t)
	code := d.newest()
	for range maxWrong {
		assert.Equal(t, http.StatusUnauthorized, d.give("aaaaaaaa").StatusCode)
	}
	assert.NotEqual(t, code, d.newest())
	assert.Equal(t, http.StatusUnauthorized, d.give(code).StatusCode)
}

func TestDoorSlowsGuessing(t *testing.T) {
	d := newDoorPage(t)
	d.give("wrong")
	w := serve(d.handler, request("POST", "/code", url.Values{"code": {d.newest()}}, nil))
	assert.Equal(t, http.StatusTooManyRequests, w.Code, "even the right code waits")
}

func TestDoorVisitsEnd(t *testing.T) {
	d := newDoorPage(t)
	cookies := d.give(d.newest()).Cookies()
	require.Equal(t, http.StatusOK, d.visit(cookies))
	d.now = d.now.Add(visit)
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
