package heat

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
)

// thorough asks for the longer runs, which the continuous check does; whole for
// all there are.
func thorough() bool { return os.Getenv("TRENCHER_LONG") == "1" || whole() }
func whole() bool    { return os.Getenv("TRENCHER_LONG") == "full" }

// shapeCheck is one real shape and the body that stands for it, for a half size
// in m: the shortest half side, or the tuber's radius.
type shapeCheck struct {
	name      string
	mesh      func(cells int) solid // for half size 1
	body      func(half float64) Body
	sizes     []float64 // half sizes in mm
	anyCentre bool      // its time alone is compared
}

func shapeChecks() []shapeCheck {
	var checks []shapeCheck
	for _, long := range []float64{1, 1.3, 1.7} {
		for _, shape := range []Shape{Whole, Halves, HalvesAcross, Quarters, Eighths, Wedges} {
			checks = append(checks, shapeCheck{
				name: fmt.Sprintf("%v of a tuber %g long", shape, long), sizes: []float64{12.5, 25},
				mesh: func(n int) solid {
					if shape == HalvesAcross { // its heat runs along the tuber: 12 cells are half a degree off
						return ballPart(shape, long, 1, 1, [3]int{n, n * 4 / 3, n})
					}
					return ballPart(shape, long, 1, 1, [3]int{n, n * 3 / 4, n * 3 / 4})
				},
				body: func(half float64) Body { return tuberBody(shape, long*half, half, half) },
			})
		}
	}
	for _, shape := range []Shape{Whole, Halves, HalvesAcross, Quarters, Eighths} { // salad kinds
		checks = append(checks, shapeCheck{
			name: fmt.Sprintf("%v of a tuber 2.5 long", shape), sizes: []float64{15}, anyCentre: true,
			mesh: func(n int) solid { return ballPart(shape, 2.5, 1, 1, [3]int{10, 10, 7}) },
			body: func(half float64) Body { return tuberBody(shape, 2.5*half, half, half) },
		})
	}
	for _, sides := range [][3]float64{{1, 1, 1}, {1, 1, 6}, {1, 2, 3}} {
		checks = append(checks, shapeCheck{
			name: fmt.Sprintf("box %v", sides), sizes: []float64{12.5, 25},
			mesh: func(n int) solid {
				return brickPart(sides[0], sides[1], sides[2], [3]int{n * 3 / 4, n * 3 / 4, n * 3 / 4})
			},
			body: func(half float64) Body {
				return brickBody(2e3*half*sides[0], 2e3*half*sides[1], 2e3*half*sides[2])
			},
		})
	}
	for _, flat := range []float64{4, 1} {
		checks = append(checks, shapeCheck{
			name: fmt.Sprintf("slice %g times as wide as thick", flat), sizes: []float64{12.5, 25},
			mesh: func(n int) solid { return discPart(flat, 1, [3]int{n * 3 / 4, n / 2, n * 3 / 4}) },
			body: func(half float64) Body { return discBody(2e3*half*flat, 2e3*half) },
		})
	}
	for _, shape := range []Shape{Halves, Quarters, Wedges} {
		checks = append(checks, shapeCheck{
			name: fmt.Sprintf("%v of a stick", shape), sizes: []float64{12.5, 25},
			mesh: func(n int) solid { return stickPart(shape, 1, 5, [3]int{n, n * 3 / 4, n / 2}) },
			body: func(half float64) Body { return stickBody(shape, 2e3*half, 10e3*half) },
		})
	}
	return checks
}

// referenceCook is when the slowest point of the real shape reaches each
// target, no cooler than tissue softens, and how hot it is then.
type referenceCook struct{ seconds, celsius [3]float64 }

func cookElements(e *elements, biot, half float64, p Properties, steam, start float64, crop Crop) referenceCook {
	var out referenceCook
	scale := half * half / p.Diffusivity()
	cook, rate, before, cooler, next := 0.0, 0.0, 0.0, start, 0
	e.slowest(biot, 0.006, func(fo, theta float64) bool {
		seconds, celsius := fo*scale, steam-theta*(steam-start)
		now := math.Pow(10, (celsius-100)/crop.Z)
		gain := (rate + now) / 2 * (seconds - before) / 60
		for next < 3 && cook+gain >= crop.Targets[next] && celsius >= softensC {
			share := max(0, (crop.Targets[next]-cook)/gain)
			if cooler < softensC {
				share = max(share, (softensC-cooler)/(celsius-cooler))
			}
			out.seconds[next] = before + share*(seconds-before)
			out.celsius[next] = cooler + share*(celsius-cooler)
			next++
		}
		cook, rate, before, cooler = cook+gain, now, seconds, celsius
		return next < 3
	})
	return out
}

// withoutEnd is a body's history in steam that never runs short.
func withoutEnd(body Body, p Properties, film, steam, start float64) *history {
	s := situation{body: body, props: p, film: film, start: start, steam: steam, areaW: math.Inf(1), layers: 1}
	return s.run(shells).last()
}

// The elements themselves against an exact product of series: refining the grid
// by two brings them about four times nearer.
func TestElementsConverge(t *testing.T) {
	exact := exactPassing("box", []float64{2, 2, 2}, 10, 1, 1, 0.15)
	miss := func(cells int) float64 {
		e := brickPart(1, 1, 1, [3]int{cells, cells, cells}).assemble()
		return math.Abs(elementsPassing(e, 10, 0.004, 0.15)/exact - 1)
	}
	coarse, fine := miss(4), miss(8)
	t.Logf("4 cells %.2f %%, 8 cells %.2f %% from the exact series: order %.1f", coarse*100, fine*100, math.Log2(coarse/fine))
	assert.Less(t, fine, 0.01)
	assert.Greater(t, math.Log2(coarse/fine), 1.5)
}

// elementsPassing is when the slowest point of a mesh passes theta.
func elementsPassing(e *elements, biot, dt, theta float64) float64 {
	at, before, moment := 0.0, 1.0, 0.0
	e.slowest(biot, dt, func(fo, now float64) bool {
		if now <= theta {
			moment = at + (fo-at)*math.Log(before/theta)/math.Log(before/now)
			return false
		}
		at, before = fo, now
		return true
	})
	return moment
}
