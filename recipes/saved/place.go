package saved

import (
	"strconv"
	"strings"
)

// placed is the recipe with the line of the file that each of its lines stands in.
func (r Recipe) placed(text string) Recipe {
	where := finder{text: text}
	for i := range r.Lines {
		r.Lines[i].Line = where.line(r.Lines[i].Text)
	}
	return r
}

// finder finds the lines of a recipe in the file it came from. It only looks
// on from the line before: a recipe is written in its own order.
type finder struct {
	text   string
	at     int // where to look on from
	passed int // the line breaks before at
	missed int
}

// mostMissed is after how many lines that are not there letter by letter the
// finder gives up.
const mostMissed = 20

// line is the line of the file a text stands in; 0 if it is not there as it
// is.
func (f *finder) line(text string) int {
	if f.missed >= mostMissed {
		return 0
	}
	quoted := strings.Trim(strconv.Quote(text), `"`)
	found := strings.Index(f.text[f.at:], quoted)
	if found < 0 {
		found = strings.Index(f.text[f.at:], text)
	}
	if found < 0 {
		f.missed++
		return 0
	}
	f.passed += strings.Count(f.text[f.at:f.at+found], "\n")
	f.at += found
	return f.passed + 1
}
