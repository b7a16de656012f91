package pattern_test

import (
	"fmt"
	"regexp"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units/pattern"
)

func Example() {
	weight := pattern.New(`(\d+) (g|kg)`)
	fmt.Println(weight.FindStringSubmatch("some 250 g of it"))
	// Output: [250 g 250 g]
}

// Every method answers as the regular expression's own does.
func TestAnswersAsRegexp(t *testing.T) {
	const expression, text = `(\pL+) ?(\d+)?`, "one 1, two 2, three"
	p, re := pattern.New(expression), regexp.MustCompile(expression)
	again := func(s string) string { return "<" + s + ">" }
	againBytes := func(b []byte) []byte { return append(b, b...) }

	assert.Equal(t, re.MatchString(text), p.MatchString(text))
	assert.False(t, pattern.New(`^x`).MatchString(text))
	assert.Equal(t, re.FindString(text), p.FindString(text))
	assert.Equal(t, re.FindStringIndex(text), p.FindStringIndex(text))
	assert.Equal(t, re.FindStringSubmatch(text), p.FindStringSubmatch(text))
	assert.Equal(t, re.FindSubmatch([]byte(text)), p.FindSubmatch([]byte(text)))
	assert.Equal(t, re.FindAllString(text, 2), p.FindAllString(text, 2))
	assert.Equal(t, re.FindAllStringSubmatch(text, 2), p.FindAllStringSubmatch(text, 2))
	assert.Equal(t, re.FindAllStringSubmatchIndex(text, 2), p.FindAllStringSubmatchIndex(text, 2))
	assert.Equal(t, re.ReplaceAllString(text, "$2$1"), p.ReplaceAllString(text, "$2$1"))
	assert.Equal(t, re.ReplaceAllStringFunc(text, again), p.ReplaceAllStringFunc(text, again))
	assert.Equal(t, re.ReplaceAllFunc([]byte(text), againBytes), p.ReplaceAllFunc([]byte(text), againBytes))
	assert.Equal(t, re.Split(text, 2), p.Split(text, 2))
}

// A pattern may be used by many at once from its first use on.
func TestUsedByManyAtOnce(t *testing.T) {
	p := pattern.New(`\d+`)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() { assert.Equal(t, "12", p.FindString("a 12")) })
	}
	all.Wait()
}

func TestPatternThatDoesNotCompile(t *testing.T) {
	assert.Panics(t, func() { pattern.New(`(`).MatchString("") })
}
