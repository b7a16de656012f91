package page

import (
	"io"
	"net/http"
	"net/url"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var insistButton = regexp.MustCompile(`name="sure" value="([0-9a-f]+)"`)

// The page asks about what is hardly meant, and writes it once the same
// question comes back with a yes; a yes to one question is none to another.
func TestThePageAsksBeforeHarm(t *testing.T) {
	address, dir := startPage(t)
	browser := &http.Client{CheckRedirect: func(r *http.Request, _ []*http.Request) error {
		if r.URL.Query().Has("answer") {
			return nil // what is asked has an address of its own
		}
		return http.ErrUseLastResponse
	}}
	form := url.Values{"once": {"one"}, "planting": {"tub-3"}, "unit": {"kg"}, "bowl-1-full": {"22.9"}, "bowl-1-empty": {"0.31"}, "at": {momentOf(0, 0)}}
	post := func() (int, string) {
		answer, err := browser.PostForm(address+"/weigh", form)
		require.NoError(t, err)
		defer answer.Body.Close()
		text, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		return answer.StatusCode, string(text)
	}
	status, body := post()
	require.Equal(t, http.StatusUnprocessableEntity, status)
	assert.Contains(t, body, "22.59 kg from tub-3 this season?")
	mark := insistButton.FindStringSubmatch(body)
	require.NotNil(t, mark)
	require.Zero(t, countEntries(t, dir))

	form.Set("sure", mark[1])
	form.Set("bowl-1-full", "99")
	status, _ = post()
	require.Equal(t, http.StatusUnprocessableEntity, status, "that is another question")
	require.Zero(t, countEntries(t, dir))
	form.Set("bowl-1-full", "22.9")
	status, _ = post()
	require.Equal(t, http.StatusSeeOther, status)
	require.EqualValues(t, 1, countEntries(t, dir))
}
