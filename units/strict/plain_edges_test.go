package strict

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Where plain reading ends: keys of two hundred bytes, brackets ten deep, letters that
// the library takes for no print.
func TestWherePlainReadingEnds(t *testing.T) {
	nested := func(depth int) string { return "a: " + strings.Repeat("[", depth) + "x" + strings.Repeat("]", depth) }
	for text, plain := range map[string]bool{
		strings.Repeat("k", 200) + ": 1": true, strings.Repeat("k", 201) + ": 1": false, "a: {" + strings.Repeat("k", 200) + ": 1}": true, "a: {" + strings.Repeat("k", 201) + ": 1}": false,
		nested(1): true, nested(10): true, nested(11): false, "a: {b: {c: {d: e}}}": true,
		"a: x\u00a0y": true, "a: x\u009fy": false, "a: x\u0080y": false, "a: \ud7ff": true, "a: \ue000": false, "a: x\x7f": false, "a: ~": false, "a: x~": true, "a: }": false, "a: \u00bf": true,
		"a_b-c d1: 1": true, "1a: 1": false, "-a: 1": false, "a : 1": false, "é: 1": true, "a1: 1": true, "a,b: 1": false, "Z: 1": true, "z: 1": true, "A: 1": true, "@: 1": false, "[: 1": false, "{: 1": false, "`: 1": false, "a9: 1": true, "a0: 1": true, "a/: 1": false, "a:: 1": false,
		"a: -0": true, "a: -9": true, "a: -/": false, "a: -:": false, "a: [1:0]": true, "a: [1:/]": false, "a: [1:9]": true, "a: [1::]": false,
		"a: 1\n\n\nb: 2\n": true, "a:\n - 1\n - 2\n": true, "a:\n - 1\n  - 2\n": false, "a:\n  - 1\n - 2\n": false, "a:\n  b: 1\n   c: 2\n": false, "- a: 1\n  b: 2\n- a: 3\n": true, "- a: 1\n b: 2\n": false, "a: 1\n...\n": true, "a: 1\n ...\n": false, "....": false,
	} {
		assert.Equal(t, plain, sameAsLibrary(t, text), "%q", text)
	}
	c := counted{}
	long := plainLine{number: 1, text: "aébc"}
	assert.Equal(t, []int{0, 1, 2, 4}, []int{c.before(long, 0), c.before(long, 1), c.before(long, 3), c.before(long, 5)})
	assert.Equal(t, 1, c.before(long, 1), "back again")
	assert.Equal(t, 2, c.before(plainLine{number: 2, text: "éé"}, 4), "another line")
	assert.Equal(t, 1, c.before(plainLine{number: 2, text: "é"}, 2), "what stands behind its dash")
}
