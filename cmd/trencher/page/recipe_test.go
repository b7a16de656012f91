package page

import (
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A pasted recipe is read back line by line, corrected in its boxes, and kept
// once nothing is open: then it is one of the dishes.
func TestRecipeIsReadBackAndKept(t *testing.T) {
	g := newGardener(t)
	assert.Contains(t, g.get("/recipe").Body.String(), "The recipe, as it is written")
	form := url.Values{"once": {"r1"}, "text": {"Beets with dill\r\n\r\nIngredients\r\n300 g beetroot\r\n2 smoots dill\r\n\r\nMethod\r\nBoil the beetroot for 40 minutes. Serve hot."}}
	w := g.post("/recipe", form)
	body := w.Body.String()
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, body, "The recipe does not say how many portions it makes")
	assert.Contains(t, body, `name="line-4"`, "the line that was not read has a box")
	assert.NotContains(t, body, `name="keep"`, "nothing can be kept yet")

	form.Set("portions", "2")
	form.Set("line-4", "1 tbsp dill, chopped")
	form.Set("line-4-was", "2 smoots dill")
	w = g.post("/recipe", form)
	assert.Equal(t, http.StatusOK, w.Code, w.Body.String())
	assert.Contains(t, w.Body.String(), "Beets with dill, 2 portions, hot")
	assert.Contains(t, w.Body.String(), `name="keep"`)
	assert.NotContains(t, g.get("/share").Body.String(), "Beets with dill")

	form.Set("keep", "1")
	for range 2 { // a double tap keeps it once
		w = g.post("/recipe", form)
		assert.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
	}
	assert.Contains(t, g.get("/share").Body.String(), "Beets with dill")

	form.Set("once", tokenOf(t, g, "/recipe"))
	w = g.post("/recipe", form)
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "its name is taken")
}

func TestRecipeBoxesSayWhatIsWrong(t *testing.T) {
	g := newGardener(t)
	for box, value := range map[string]string{"portions": "a few", "cook": "potato=fry", "amount": "much", "served": "soon", "text": ""} {
		form := url.Values{"text": {"Mash\nServes 2\n1 kg potatoes\nBoil for 20 minutes."}}
		form.Set(box, value)
		w := g.post("/recipe", form)
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, box)
		assert.Contains(t, w.Body.String(), `href="#`+box+`"`, box)
	}
}
