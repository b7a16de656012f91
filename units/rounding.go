package units

import (
	"math/big"
	"strings"
)

// roundHalfUp is n to the nearest multiple of step, halves upwards.
func roundHalfUp(n, step number) number {
	return floor(n.quo(step).add(ratio(1, 2))).mul(step)
}

// floor is the whole number at or below n.
func floor(n number) number {
	if n.isWhole() {
		return n
	}
	r := n.rat()
	q := new(big.Int)
	q.Div(r.Num(), r.Denom()) // Euclid: below for a positive divisor
	return fromRat(new(big.Rat).SetInt(q))
}

// toStep rounds to a step, never to nothing: the least is one step.
func toStep(n, step number, down bool) number {
	rounded := roundHalfUp(n, step)
	if down {
		rounded = lower(n, floor(n.quo(step)).mul(step), rounded)
	}
	if rounded.cmp(step) < 0 {
		return step
	}
	return rounded
}

// mostShort is how much less than asked is taken of what is better short than
// over: beyond it the nearest is, for half the baking powder raises nothing.
var mostShort = ratio(15, 100)

// lower is the measure below n, unless that is far short of it and the nearest is
// nearer.
func lower(n, below, nearest number) number {
	if off(below, n).cmp(n.mul(mostShort)) > 0 {
		return nearest
	}
	return below
}

// nearestOf is the nearest of rising candidates, the upper of two as near; or
// with down the highest not above n, if that is not far short. Below them all it
// is the least.
func nearestOf(n number, candidates []number, down bool) number {
	best, below := candidates[0], candidates[0]
	for _, c := range candidates[1:] {
		if c.cmp(n) <= 0 {
			below = c
		}
		if off(c, n).cmp(off(best, n)) <= 0 {
			best = c
		}
	}
	if down {
		return lower(n, below, best)
	}
	return best
}

func smaller(a, b number) number {
	if a.cmp(b) < 0 {
		return a
	}
	return b
}

func larger(a, b number) number {
	if a.cmp(b) > 0 {
		return a
	}
	return b
}

// printed is a number as a cook reads it: 1½, ¾, 2, 0.3.
func printed(n number) string {
	base := floor(n)
	part := n.sub(base)
	for i, value := range vulgarValues {
		if part.sign() != 0 && part.cmp(value) == 0 {
			if base.sign() == 0 {
				return string(vulgarSigns[i])
			}
			return formatNumber(base) + string(vulgarSigns[i])
		}
	}
	return formatNumber(n)
}

// counted is a number of named things: 1 clove, 2½ handfuls, ½ cup.
func counted(n number, name string) string {
	if n.cmp(whole(1)) > 0 {
		name = pluralName(name)
	}
	return printed(n) + " " + name
}

// pluralName is the plural of a kitchen name. Sizes and dozens have none: 2
// large.
func pluralName(name string) string {
	switch {
	case name == "leaf":
		return "leaves"
	case name == "dozen" || name == "gross" || name == "brace" || name == "score" || name == "medium" || strings.HasSuffix(name, "small") || strings.HasSuffix(name, "large"):
		return name
	}
	if p := plural(name); p != "" {
		return p
	}
	return name
}

// plural is the regular plural of a spelled-out name; short symbols and
// names in brackets have none.
func plural(name string) string {
	if len(name) < 3 || name[0] == '[' || name[0] == '{' || strings.ContainsAny(name, "()°²³/") {
		return ""
	}
	for _, hiss := range []string{"s", "x", "ch", "sh"} {
		if strings.HasSuffix(name, hiss) {
			return name + "es"
		}
	}
	return name + "s"
}
