package page

import (
	"net/http"
	"net/url"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The latest entry of this device is shown and taken back, by an entry, once;
// then there is nothing more to take back.
func TestUndoOnThePage(t *testing.T) {
	g := newGardener(t)
	g.page.where.Device = func() string { return "aaaaaa" }
	assert.Contains(t, g.get("/undo").Body.String(), "nothing that could be taken back")
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	body := g.get("/undo").Body.String()
	assert.Contains(t, body, "lift of tub-3, 1.82 kg")
	file := regexp.MustCompile(`name="entry" value="([^"]+)"`).FindStringSubmatch(body)
	require.NotNil(t, file)
	form := url.Values{"once": {"u1"}, "entry": {file[1]}}
	require.Equal(t, http.StatusSeeOther, g.post("/undo", form).Code)
	require.Equal(t, http.StatusSeeOther, g.post("/undo", form).Code, "a double tap takes back once")
	assert.Equal(t, 2, g.entries(), "the lift, and what struck it out")
	stock := g.get("/?done=u1").Body.String()
	assert.Contains(t, stock, "Taken back: lift of tub-3, 1.82 kg")
	assert.Contains(t, stock, "Nothing to eat on hand.")
	form.Set("once", "u2")
	assert.Equal(t, http.StatusUnprocessableEntity, g.post("/undo", form).Code)
	assert.Equal(t, 2, g.entries())
}
