package heat

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// thorough asks for the longer runs, which the continuous check does; whole for
// all there are.
func thorough() bool { return os.Getenv("TRENCHER_LONG") == "1" || whole() }
func whole() bool    { return os.Getenv("TRENCHER_LONG") == "full" }

// shapeCheck is one real shape and the body that stands for it, for a half size
// in m: the shortest half side, or the tuber's radius.
type shapeCheck struct {
	name string
	mesh func(cells int) solid // for half size 1
	body func(half float64) Body
}

func shapeChecks() []shapeCheck {
	var checks []shapeCheck
	lengths := []float64{1.3}
	switch {
	case whole():
		lengths = []float64{1, 1.3, 1.7}
	case thorough():
		lengths = []float64{1, 1.7}
	}
	for _, long := range lengths {
		for _, shape := range []Shape{Whole, Halves, HalvesAcross, Quarters, Eighths, Wedges} {
			checks = append(checks, shapeCheck{
				fmt.Sprintf("%v of a tuber %g long", shape, long),
				func(n int) solid {
					along := n * 3 / 4
					if shape == HalvesAcross {
						along = n // its heat runs along the tuber: 9 cells are 1 °C off, 12 and 16 half of it
					}
					return ballPart(shape, long, 1, 1, [3]int{n, along, n * 3 / 4})
				},
				func(half float64) Body { return tuberBody(shape, long*half, half, half) },
			})
		}
	}
	for _, sides := range [][3]float64{{1, 1, 1}, {1, 1, 6}, {1, 2, 3}} {
		checks = append(checks, shapeCheck{
			fmt.Sprintf("box %v", sides),
			func(n int) solid {
				return brickPart(sides[0], sides[1], sides[2], [3]int{n * 3 / 4, n * 3 / 4, n * 3 / 4})
			},
			func(half float64) Body {
				return brickBody(2e3*half*sides[0], 2e3*half*sides[1], 2e3*half*sides[2])
			},
		})
	}
	for _, flat := range []float64{4, 1} {
		checks = append(checks, shapeCheck{
			fmt.Sprintf("slice %g times as wide as thick", flat),
			func(n int) solid { return discPart(flat, 1, [3]int{n * 3 / 4, n / 2, n * 3 / 4}) },
			func(half float64) Body { return discBody(2e3*half*flat, 2e3*half) },
		})
	}
	for _, shape := range []Shape{Halves, Quarters, Wedges} {
		checks = append(checks, shapeCheck{
			fmt.Sprintf("%v of a stick", shape),
			func(n int) solid { return stickPart(shape, 1, 5, [3]int{n, n * 3 / 4, n / 2}) },
			func(half float64) Body { return stickBody(shape, 2e3*half, 10e3*half) },
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

// allowed is how far the equivalent body may be from the elements. At the weak
// film that the band's high end takes (Biot number about 5 for small pieces) the
// body is up to 5 % slow, which errs to the safe side.
func allowed(film float64) (time, celsius float64) {
	if film < filmNominal {
		return 0.05, 1
	}
	return 0.035, 0.5
}

// The independent check: the equivalent radial body against finite elements on
// the real shape, over sizes and Biot numbers. Time to each doneness within 3 %, a
// thick slice's within 3.5 %, the centre within 0.5 °C when done.
func TestBodiesAgainstElements(t *testing.T) {
	cells, films, halves := 11, []float64{filmNominal}, []float64{0.0125, 0.025}
	if thorough() {
		cells, films, halves = 12, []float64{filmHeap, filmNominal, 1500}, []float64{0.0125, 0.03}
	}
	if whole() {
		cells = 14
	}
	for _, check := range shapeChecks() {
		t.Run(check.name, func(t *testing.T) {
			t.Parallel()
			e := check.mesh(cells).assemble()
			for _, film := range films {
				for _, half := range halves {
					againstElements(t, check, e, film, half)
				}
			}
		})
	}
}

// againstElements compares a body's run with that of its mesh, at one film and
// half size.
func againstElements(t *testing.T, check shapeCheck, e *elements, film, half float64) {
	waxy := crop(t, "potato", "waxy")
	const start = 15.0
	steam := SteamC(0)
	p := waxy.Composition.At((start + steam) / 2)
	biot := film * half / p.Conductivity
	want := cookElements(e, biot, half, p, steam, start, waxy)
	worst, warm := 0.0, 0.0
	near, nearC := allowed(film)
	for i, target := range waxy.Targets {
		h := withoutEnd(check.body(half), p, film, steam, start)
		got := h.cooked(target, waxy.Z)
		require.True(t, got.done)
		at := h.at(want.seconds[i]).centre
		worst = max(worst, math.Abs(got.seconds/want.seconds[i]-1))
		warm = max(warm, math.Abs(at-want.celsius[i]))
	}
	t.Logf("Bi %4.1f: time within %.1f %%, centre within %.2f °C", biot, worst*100, warm)
	assert.LessOrEqual(t, worst, near, "Bi %.1f", biot)
	assert.LessOrEqual(t, warm, nearC, "Bi %.1f", biot)
}

// Long tubers, such as salad kinds, at the nominal film: within 3 % in time.
func TestLongTubersAgainstElements(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	const half, start = 0.015, 15.0
	steam := SteamC(0)
	p := waxy.Composition.At((start + steam) / 2)
	for _, shape := range []Shape{Whole, Halves, HalvesAcross, Quarters, Eighths} {
		e := ballPart(shape, 2.5, 1, 1, [3]int{10, 10, 7}).assemble()
		want := cookElements(e, filmNominal*half/p.Conductivity, half, p, steam, start, waxy)
		body := tuberBody(shape, 2.5*half, half, half)
		for i, target := range waxy.Targets {
			got := withoutEnd(body, p, filmNominal, steam, start).cooked(target, waxy.Z)
			assert.InEpsilon(t, want.seconds[i], got.seconds, 0.03, "%s", shape)
		}
	}
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
