package units_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"trencher/units"
)

// Words that an amount is made of, well and badly.
var wovenWords = []string{"1", "2", "½", "1/2", "3/4", "0", "1.5", "1,5", "250", "1000", "12", "-", "–", "to", "and", "+", "&", "x", "×", "(", ")", "/", ",", ".", "a", "an", "half", "quarter", "two", "thirds", "of", "about", "or", "minus", "plus", "g", "kg", "lb", "oz", "ml", "l", "cup", "cups", "pint", "tbsp", "tsp", "UK", "US", "metric", "C", "F", "gas mark", "heaped", "level", "large", "tin", "tins", "can", "bunch", "cloves", "pinch", "dozen", "m", "m2", "cm", "in", "rod", "min", "h", "smoot", "butter", "to taste", "400g", "14-oz", "2x", "½-1", "1½", "fl oz", "fl", "degrees"}

// Words in every company, as an amount and as a unit: what comes of each, as when
// somebody last read the difference.
func TestWovenAmounts(t *testing.T) {
	var out strings.Builder
	random := rand.New(rand.NewPCG(20, 16))
	for n := range 5000 {
		var words []string
		if n%3 > 0 {
			words = append(words, wovenWords[random.IntN(11)])
		}
		for range 1 + random.IntN(4) {
			words = append(words, wovenWords[random.IntN(len(wovenWords))])
		}
		text := strings.Join(words, map[bool]string{true: " ", false: ""}[n%7 > 0])
		system := units.System(n % 5)
		q, err := units.Parse(text, system)
		if err == nil {
			fmt.Fprintf(&out, "%s (%s) %s\n", text, system, q)
			continue
		}
		if n%4 == 0 { // what is wrong with the rest is mostly said before
			reason, _, _ := strings.Cut(strings.TrimPrefix(err.Error(), fmt.Sprintf("%q: ", text)), ";")
			fmt.Fprintf(&out, "%s (%s) ! %.48s\n", text, system, reason)
		}
	}
	reviewed(t, "woven.txt", out.String())
}
