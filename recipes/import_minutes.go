package recipes

import (
	"math/big"
	"strconv"
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

const (
	numberSaid = `(?:\d+(?:[.,]\d+)?(?:\s?[¼½¾⅓⅔]|\s\d/\d|-\d/\d)?|[¼½¾⅓⅔]|\d/\d)`
	inWordSaid = `(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty|fifty|sixty|ninety|a quarter of an|quarter of an|three[- ]quarters of an|half an|an?)`
)

var timeSaid = pattern.New(`(?i)(?:(` + numberSaid + `|\b` + inWordSaid + `)\s*(?:-|–|to|or)\s*)?(` + numberSaid + `|\b` + inWordSaid + `)(?:\s+or so)?[\s-]*(seconds?|secs?\b\.?|minutes?|mins?\b\.?|hours?|hrs?\b\.?|h\b)(\s+and\s+a\s+half|\s+and\s+a\s+quarter)?(?:\s*(?:and\s*)?(\d+|` + inWordSaid + `)\s*(?:minutes?|mins?\b|m\b))?`)

var numberWords = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"a dozen": 12, "fifteen": 15, "twenty": 20, "twenty-five": 25, "thirty": 30, "thirty-five": 35, "forty": 40, "forty-five": 45, "fifty": 50, "sixty": 60, "ninety": 90}

// tensAndOnes writes in figures what would look like a range: twenty-five.
var tensAndOnes = strings.NewReplacer("twenty-five", "25", "Twenty-five", "25", "thirty-five", "35", "Thirty-five", "35", "forty-five", "45", "Forty-five", "45")

// minutesIn is the first time a text names, in minutes, of a range the longer end
// and of seconds the full minute; 0 where it names none.
func minutesIn(text string) int {
	m := timeSaid.FindStringSubmatch(tensAndOnes.Replace(text))
	if m == nil {
		return 0
	}
	value := numberOf(m[2])
	if value == nil {
		return 0
	}
	if before := numberOf(m[1]); before != nil && before.Cmp(value) > 0 && value.Cmp(one) < 0 {
		value.Add(value, before) // 1-1/2 is no range
	}
	switch unit := strings.ToLower(m[3]); unit[0] {
	case 's':
		value.Quo(value, big.NewRat(60, 1))
	case 'h':
		value.Mul(value, big.NewRat(60, 1))
		if strings.HasSuffix(strings.ToLower(m[4]), "half") {
			value.Add(value, big.NewRat(30, 1))
		} else if m[4] != "" {
			value.Add(value, big.NewRat(15, 1))
		}
		if more := numberOf(m[5]); more != nil {
			value.Add(value, more)
		}
	}
	whole := new(big.Int).Quo(new(big.Int).Add(value.Num(), new(big.Int).Sub(value.Denom(), big.NewInt(1))), value.Denom())
	if !whole.IsInt64() || whole.Int64() > mostOwnMinutes {
		return 0
	}
	return int(whole.Int64())
}

// numberOf reads a number in figures or in a word; nil where it is none.
func numberOf(text string) *big.Rat {
	text = strings.ToLower(strings.ReplaceAll(text, ",", "."))
	switch text {
	case "":
		return nil
	case "a", "an":
		return big.NewRat(1, 1)
	case "a quarter of an", "quarter of an":
		return big.NewRat(1, 4)
	case "half an":
		return big.NewRat(1, 2)
	case "three-quarters of an", "three quarters of an":
		return big.NewRat(3, 4)
	}
	if n := numberWords[text]; n > 0 {
		return big.NewRat(int64(n), 1)
	}
	if n, err := strconv.Atoi(text); err == nil {
		return big.NewRat(int64(n), 1)
	}
	q, err := units.Parse(text, units.NoSystem)
	if err != nil || q.IsRange() {
		return nil
	}
	return q.Rat()
}
