package render

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The second route: word by word, each put on the line where there is room for it.
func wordByWord(text string, width int) []string {
	lines := []string{""}
	for _, word := range strings.Fields(text) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last+" "+word) <= width:
			*last += " " + word
		default:
			lines = append(lines, word)
		}
	}
	return lines
}

func TestLinesHoldAsManyWordsAsFit(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	pieces := []string{" ", " ", " ", "  ", "\t", "\n", "\u00a0", "a", "bowl", "½", "jalapeño", "of", "potatoes-and-more"}
	for range 20_000 {
		var text strings.Builder
		for range random.IntN(14) {
			text.WriteString(pieces[random.IntN(len(pieces))])
		}
		width := 1 + random.IntN(16)
		require.Equal(t, wordByWord(text.String(), width), slices.Collect(eachLine(text.String(), width)), "%q in %d", text.String(), width)
	}
}

// Of a text that stands as it is to stand, the lines are parts: a list of thousands
// is not copied for them.
func TestLinesAreNotCopied(t *testing.T) {
	text := strings.Repeat("a sack of potatoes ", 20) + "is left"
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		for line := range eachLine(text, 30) {
			if line == "" {
				panic("an empty line")
			}
		}
	}))
	assert.Equal(t, text, strings.Join(slices.Collect(eachLine(text, 30)), " "))
}
