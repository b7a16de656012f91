package render

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/webdriver"
	"trencher/recipes/meal"
)

// plansPrinted is how many random plans are printed: 50 with TRENCHER_LONG=full.
func plansPrinted() int {
	switch os.Getenv("TRENCHER_LONG") {
	case "full":
		return 50
	case "":
		return 2
	}
	return 8
}

// The sheet as it comes out of a printer: type to be read from where it hangs, no
// card in two pieces, no scrap for a last side.
func TestSheetOnPaper(t *testing.T) {
	if os.Getenv("TRENCHER_LIVE") != "1" {
		t.Skip("TRENCHER_LIVE=1 prints sheets")
	}
	b := webdriver.Start(t, webdriver.Look{Width: 900})
	plans := allPlans()
	for seed := uint64(1); len(plans) < plansPrinted()+len(allPlans()); seed++ {
		if plan, ok := randomPlan(t, rand.New(rand.NewPCG(19, seed))); ok {
			plans[fmt.Sprintf("random %d", seed)] = plan
		}
	}
	for name, plan := range plans {
		for _, font := range fontsTried {
			t.Run(name+" in "+font, func(t *testing.T) {
				lines, sides, lastFilled := onPaper(t, b, sheetOf(t, plan), font)
				assertSheetOnPaper(t, plan, lines)
				if sides > 1 {
					assert.GreaterOrEqual(t, lastFilled, 1.0/3, "the last of %d sides is a scrap", sides)
				}
			})
		}
	}
}

// assertSheetOnPaper looks at the lines of a printed sheet, part by part.
func assertSheetOnPaper(t *testing.T, plan meal.Plan, lines []line) {
	t.Helper()
	assert.NotEmpty(t, lines)
	after := func(start int, is func(line) bool) int {
		if i := slices.IndexFunc(lines[start:], is); i >= 0 {
			return start + i
		}
		return len(lines) - 1
	}
	least := func(points float64, part []line) {
		t.Helper()
		for _, l := range part {
			assert.GreaterOrEqual(t, l.points, points, "side %d: %q", l.side, l.text)
		}
	}
	least(9, lines)
	at := 0
	if len(plan.Steps) > 0 {
		at = after(0, func(l line) bool { return l.text == "By the clock" })
	}
	for d := range plan.Dishes {
		head := after(at, func(l line) bool { return l.points == cardHeadPoints })
		foot := after(head, func(l line) bool {
			return strings.HasPrefix(l.text, fmt.Sprintf("Card %d of %d,", d+1, len(plan.Dishes)))
		})
		assert.Less(t, head, foot, "card %d is not whole", d+1)
		assert.Equal(t, lines[head].side, lines[foot].side, "card %d lies on two sides", d+1)
		if d == 0 && len(plan.Steps) > 0 {
			assert.Greater(t, head-at, 3*len(plan.Steps)-1, "every step has its number, its time and its words")
			least(14, lines[at:head])
		}
		least(11, lines[head:foot+1])
		at = foot
	}
}

// cardHeadPoints is the size of a card's name, which nothing else on the sheet has.
const cardHeadPoints = 15
