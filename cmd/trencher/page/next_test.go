package page

import (
	"io"
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page draws what to plant, and says what to mend in its own boxes.
func TestThePageTellsWhatToPlant(t *testing.T) {
	address, _ := startPage(t)
	get := func(query url.Values) (int, string) {
		answer, err := http.Get(address + "/next?" + query.Encode())
		require.NoError(t, err)
		defer answer.Body.Close()
		text, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		return answer.StatusCode, string(text)
	}
	status, body := get(url.Values{"for": {"2 adults, 2 children"}, "eat": {"late maincrop potato, 3 a week, 26 weeks"}})
	require.Equal(t, http.StatusOK, status)
	assert.Contains(t, body, "late maincrop potato: 40 plants, ")
	assert.Contains(t, body, ">40 plants, ", "in the picture too")
	assert.Contains(t, body, "bed in square metres")
	for box, query := range map[string]url.Values{"eat": {"eat": {"potatoes"}, "for": {"2"}}, "for": {"eat": {"potato, 3 a week, 26 weeks"}, "for": {"some"}}, "year": {"year": {"soon"}}} {
		status, body = get(query)
		assert.Equal(t, http.StatusUnprocessableEntity, status, box)
		assert.Contains(t, body, `href="#`+box+`"`)
	}
}
