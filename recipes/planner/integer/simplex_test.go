package integer

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

// handTableau is two outside unknowns (columns 0 and 1, at nought) and rows as given:
// the basic unknowns 2, 3, … are at − cells·outside.
func handTableau(at []float64, cells ...float64) *tableau {
	t := &tableau{at: at, cells: cells, outside: []int{0, 1}, atHigh: []bool{false, false}, price: []float64{-1, -1}, lo: []float64{0, 0}, hi: []float64{9, 9}, where: []int{^0, ^1}}
	for i := range at {
		t.basic = append(t.basic, 2+i)
		t.lo, t.hi, t.where = append(t.lo, 0), append(t.hi, 9), append(t.where, i)
	}
	return t
}

// The unknown furthest outside its bounds leaves, for the length of its row; a hair
// outside does not count.
func TestLeaving(t *testing.T) {
	for _, c := range []struct {
		at     []float64
		skip   []int
		r      int
		upward bool
	}{
		{[]float64{0, 9, 4}, nil, -1, false},
		{[]float64{-1, -3, -2}, nil, 1, true},
		{[]float64{-1, 13, -2}, nil, 1, false},
		{[]float64{-1, 10, -1}, nil, 0, true},
		{[]float64{10, -1, 10}, nil, 0, false},
		{[]float64{-1, -3, -2}, []int{1}, 2, true},
		{[]float64{-1, -3, -2}, []int{1, 2, 0}, -1, false},
		{[]float64{-tolerance / 16.5, 9 + tolerance/16.5, 0}, nil, -1, false},
		{[]float64{-tolerance / 15.5, 0, 0}, nil, 0, true},
		{[]float64{0, 0, 9 + tolerance/15.5}, nil, 2, false},
	} {
		tab := handTableau(c.at, make([]float64, 2*len(c.at))...)
		tab.skip = c.skip
		r, upward := tab.leaving()
		require.Equal(t, c.r, r, c)
		if r >= 0 {
			require.Equal(t, c.upward, upward, c)
		}
	}
	tab := handTableau([]float64{-3, -2}, 2, 2, 1, 0) // 3²/(1+2²+2²) is less than 2²/(1+1²)
	r, _ := tab.leaving()
	require.Equal(t, 1, r)
	tab = handTableau([]float64{-3, -1}, 2, 2, 1, 0) // and more than 1²/(1+1²)
	r, _ = tab.leaving()
	require.Equal(t, 0, r)
}

// The column that enters keeps all prices on their side: the smallest price for its
// cell, and among those alike but for a hair the largest cell.
func TestEntering(t *testing.T) {
	for _, c := range []struct {
		about  string
		cells  [2]float64
		price  [2]float64
		atHigh [2]bool
		fixed  int
		upward bool
		want   int
	}{
		{"the cheaper", [2]float64{-1, -1}, [2]float64{-2, -1}, [2]bool{}, -1, true, 1},
		{"by the cell", [2]float64{-4, -1}, [2]float64{-2, -1}, [2]bool{}, -1, true, 0},
		{"alike: the larger cell", [2]float64{-1, -2}, [2]float64{-1, -2}, [2]bool{}, -1, true, 1},
		{"more than a hair apart", [2]float64{-2, -1}, [2]float64{-2.2e-9, 0}, [2]bool{}, -1, true, 1},
		{"alike but for a hair", [2]float64{-2, -1}, [2]float64{-1.9e-9, 0}, [2]bool{}, -1, true, 0},
		{"wrong side", [2]float64{1, -1}, [2]float64{-1, -5}, [2]bool{}, -1, true, 1},
		{"down", [2]float64{1, -1}, [2]float64{-1, -5}, [2]bool{}, -1, false, 0},
		{"at its most it comes down", [2]float64{1, -1}, [2]float64{1, -5}, [2]bool{true, false}, -1, true, 0},
		{"none", [2]float64{1, 1}, [2]float64{-1, -1}, [2]bool{}, -1, true, -1},
		{"too small a cell", [2]float64{-0.9e-3, 1}, [2]float64{-1, -1}, [2]bool{}, -1, true, -1},
		{"large enough", [2]float64{-1e-3, 1}, [2]float64{-1, -1}, [2]bool{}, -1, true, 0},
		{"fixed", [2]float64{-1, -1}, [2]float64{-1, -5}, [2]bool{}, 0, true, 1},
	} {
		tab := handTableau([]float64{-1}, c.cells[0], c.cells[1])
		tab.price, tab.atHigh = c.price[:], c.atHigh[:]
		if c.fixed >= 0 {
			tab.hi[c.fixed] = tab.lo[c.fixed]
		}
		q, enough := tab.entering(0, c.upward, pivotMin)
		require.Equal(t, c.want, q, c.about)
		require.Equal(t, q >= 0, enough, c.about)
	}
}

// A column that does not mend a row by going all the way is passed over, and goes; of
// what is no column of the program nobody knows how far it may go.
func TestEnteringPassesColumns(t *testing.T) {
	for _, c := range []struct {
		about  string
		lacks  float64
		most   [2]float64
		of     int // how many of the two are columns of the program
		want   int
		enough bool
		flips  []int
	}{
		{"the cheaper does", 2, [2]float64{9, 9}, 2, 0, true, nil},
		{"just", 4, [2]float64{2, 9}, 2, 0, true, nil},
		{"but for rounding", 4 + tolerance/17, [2]float64{2, 9}, 2, 0, true, nil},
		{"it does not", 4 + tolerance/15, [2]float64{2, 9}, 2, 1, true, []int{0}},
		{"both do", 7, [2]float64{2, 1}, 2, 1, true, []int{0}},
		{"both do not", 7.5, [2]float64{2, 1}, 2, 1, false, []int{0}},
		{"a slack", 7.5, [2]float64{2, 1}, 0, 0, true, nil},
	} {
		tab := handTableau([]float64{-c.lacks}, -2, -3)
		tab.price, tab.low = []float64{-1, -3}, make([]int64, c.of)
		tab.hi[0], tab.hi[1] = c.most[0], c.most[1]
		q, enough := tab.entering(0, true, pivotMin)
		require.Equal(t, c.want, q, c.about)
		require.Equal(t, c.enough, enough, c.about)
		require.Equal(t, c.flips, tab.flips, c.about)
	}
}

// What is passed over goes to its other bound before the pivot: column 0 from 0 to 2
// mends 4 of the 5 that are lacking, and column 1 the rest.
func TestPivotFlips(t *testing.T) {
	tab := handTableau([]float64{-5}, -2, -1)
	tab.price, tab.low = []float64{-1, -3}, make([]int64, 2)
	tab.hi[0] = 2
	r, q, upward := tab.choose()
	require.Equal(t, []int{0, 1}, []int{r, q})
	tab.pivot(r, q, upward)
	require.Equal(t, []bool{true, false}, tab.atHigh)
	require.Equal(t, []float64{1}, tab.at, "of column 1")
	require.Equal(t, []float64{2, 1, 0}, []float64{tab.value(0), tab.value(1), tab.value(2)})
}

// A row that only a small cell can mend waits until no other is left; one that no
// cell mends is impossible.
func TestChoose(t *testing.T) {
	type choice struct {
		r, q   int
		upward bool
	}
	for _, c := range []struct {
		about string
		at    []float64
		cells []float64
		want  choice
	}{
		{"nothing to mend", []float64{1, 1}, []float64{-1, -1, -1, -1}, choice{-1, -1, false}},
		{"the worst first", []float64{-1, -2}, []float64{-1, 0, 0, -1}, choice{1, 1, true}},
		{"a small cell waits", []float64{-1, -2}, []float64{-1, 0, 0, -1e-4}, choice{0, 0, true}},
		{"only small cells", []float64{-1, -2}, []float64{-1e-4, 0, 0, -1e-5}, choice{1, 1, true}},
		{"only small cells, the first the worst", []float64{-2, -1}, []float64{-1e-4, 0, 0, -1e-5}, choice{0, 0, true}},
		{"only small cells, downwards", []float64{10, 12}, []float64{1e-4, 0, 0, 1e-5}, choice{1, 1, false}},
		{"just large enough to count", []float64{-1, -2}, []float64{-1, 0, 0, -1.05e-6}, choice{0, 0, true}},
		{"too small to count", []float64{-1, -2}, []float64{-1, 0, 0, -0.9e-6}, choice{1, -1, true}},
		{"impossible behind one that waits", []float64{-1, -2}, []float64{1, 1, 0, -1e-4}, choice{0, -1, true}},
	} {
		tab := handTableau(c.at, c.cells...)
		r, q, upward := tab.choose()
		require.Equal(t, c.want, choice{r, q, upward}, c.about)
	}
}

// One step by hand: basic 2 stands at −1 and is mended by column 0, with a cell of
// −2: that goes to 1/2, which takes 3/2 off basic 3.
func TestPivotByHand(t *testing.T) {
	tab := handTableau([]float64{-1, 4}, -2, 1, 3, 1)
	tab.price = []float64{-1, -4}
	tab.pivot(0, 0, true)
	require.Equal(t, []int{0, 3}, tab.basic)
	require.Equal(t, []int{2, 1}, tab.outside)
	require.Equal(t, []int{0, ^1, ^0, 1}, tab.where)
	require.Equal(t, []float64{0.5, 2.5}, tab.at)
	require.Equal(t, []float64{-0.5, -0.5, 1.5, 2.5}, tab.cells)
	require.Equal(t, []float64{-0.5, -4.5}, tab.price)
	require.Equal(t, []bool{false, false}, tab.atHigh)
	require.False(t, tab.broken)

	tab = handTableau([]float64{11, 4}, 2, 1, 0, 1) // downwards: 2 over its most
	tab.pivot(0, 0, false)
	require.Equal(t, []float64{1, 4}, tab.at)
	require.Equal(t, []bool{true, false}, tab.atHigh, "what leaves stands at its most")
	require.Equal(t, 9.0, tab.bound(0))

	tab = handTableau([]float64{-1, 4}, -1e-13, 1, 3, 1)
	tab.pivot(0, 0, true)
	require.True(t, tab.broken, "overflown")
	require.Equal(t, unknown, tab.dual(&budget{}, 9), "which ends it")
	tab = handTableau([]float64{-1e13, 4}, -1, 1, 3, 1)
	tab.pivot(0, 0, true)
	require.True(t, tab.broken)
}

// What eliminating leaves of nought is nought.
func TestEliminate(t *testing.T) {
	cells := []float64{2, 6, 5, 1, 1e-12}
	eliminate(cells, []int32{0, 1, 3}, []float64{9, 3, 0.5 + 1e-12}, 0)
	require.Equal(t, []float64{-18, 0, 5, 0, 1e-12}, cells, "only where the pivot row is not nought")
	cells = []float64{2, 1e-10}
	eliminate(cells, []int32{1}, []float64{1e-10}, 0)
	require.Equal(t, []float64{0, 1e-10 - 2e-10}, cells)
	cells = []float64{1, 1e-12, 1e-12}
	eliminate(cells, []int32{1, 2}, []float64{1.05e-11, 1.15e-11}, 0)
	require.Equal(t, []float64{0, 0}, cells[:2])
	require.InDelta(t, -1.05e-11, cells[2], 1e-20)
	cells = []float64{1, nothing, -nothing}
	eliminate(cells, []int32{1, 2}, []float64{0, 0}, 0)
	require.Equal(t, []float64{0, nothing, -nothing}, cells, "at the edge it is something")
	cells = []float64{0, 7}
	eliminate(cells, []int32{1}, []float64{3}, 0)
	require.Equal(t, []float64{0, 7}, cells)
}

// A dual simplex that may go on no longer says so, and keeps count.
// What is as small as nothing is nought, without a sign; all else is what it was, to the
// last bit.
func TestCleared(t *testing.T) {
	require.Equal(t, math.Float64bits(nothing), uint64(nothingBits))
	below := math.Nextafter(nothing, 0)
	for _, v := range []float64{0, below, 1e-300, math.SmallestNonzeroFloat64} {
		require.Zero(t, math.Float64bits(cleared(v)), v)
		require.Zero(t, math.Float64bits(cleared(-v)), -v)
	}
	for _, v := range []float64{nothing, math.Nextafter(nothing, 1), 1, 1e300, math.Inf(1), math.NaN()} {
		require.Equal(t, math.Float64bits(v), math.Float64bits(cleared(v)), v)
		require.Equal(t, math.Float64bits(-v), math.Float64bits(cleared(-v)), -v)
	}
}

func TestDualStops(t *testing.T) {
	p := &program{columns: repeated(3, 9), rows: []Row{atMost(5, 1, 1), atMost(4, 0, 1, 1), atMost(7, 1, 0, 2)}, asked: -1}
	tab := newTableau(p)
	tab.aim(over(3, terms(3, 4, 2)))
	tab.bringIn()
	all := &budget{}
	whole := &tableau{}
	whole.copyFrom(tab)
	require.Equal(t, optimal, whole.dual(all, 99))
	require.Greater(t, all.pivots, 1)
	work := &budget{}
	require.Equal(t, unknown, tab.dual(work, all.pivots-1))
	require.Equal(t, all.pivots-1, work.pivots)
	require.Equal(t, optimal, tab.dual(work, 2))
	require.Equal(t, all.pivots, work.pivots)
}

// Prices of nought are set a little apart, each to the side it may be on; others stay.
func TestNudge(t *testing.T) {
	tab := handTableau(nil)
	tab.outside = []int{0, 1, 2, 3, 4}
	tab.atHigh = []bool{false, true, false, true, false}
	tab.price = []float64{0, 0, -1, 1, -1e-8}
	tab.nudge()
	require.Equal(t, []float64{-1, 1}, tab.price[2:4])
	by := func(k uint32) float64 { return 1e-9 * (10 + float64((k*2654435761)>>16)) }
	require.InDelta(t, -by(1), tab.price[0], 1e-15)
	require.InDelta(t, by(2), tab.price[1], 1e-15)
	require.InDelta(t, -1e-8-by(5), tab.price[4], 1e-15)
	require.Less(t, math.Abs(tab.price[0]), 1e-4)
}

// A relaxation with many best points comes to its best although prices are nudged on
// the way.
func TestLongDualIsNudgedAndEnds(t *testing.T) {
	p := &program{columns: repeated(60, 1), asked: -1}
	for i := range 59 {
		p.rows = append(p.rows, AtMost(1, Times(1, i), Times(1, i+1)))
	}
	tab := newTableau(p)
	all := make([]int64, 60)
	for j := range all {
		all[j] = 1
	}
	tab.aim(over(60, terms(all...)))
	require.Equal(t, optimal, tab.reoptimise(&budget{}))
	require.InDelta(t, 30, math.Ldexp(tab.claims(), tab.shape.goalBits), 1e-6)
	bound, _ := newCertifier(tab.shape).judge(tab, optimal, nil)
	require.Equal(t, int64(30), bound.Int64())
}

// A bound agrees with what the tableau claims when it is above it by less than a
// 256th of the goal's largest coefficient's power of two.
func TestAgrees(t *testing.T) {
	p := &program{columns: repeated(1, 1), asked: -1}
	tab := newTableau(p)
	tab.aim(over(1, terms(1_000_000))) // a 256th of 2^20 is 4,096
	require.True(t, tab.agrees(big.NewInt(1_000_000)))
	require.True(t, tab.agrees(big.NewInt(1_004_090)))
	require.False(t, tab.agrees(big.NewInt(1_004_096)))
	require.True(t, tab.agrees(big.NewInt(900_000)))
	require.False(t, tab.agrees(nil))
}

// Rows come in as the point breaks them, and go out when they do not bind.
func TestBringInAndShed(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(4, 1, 1), atMost(40, 1, 1), atMost(3, 1)}, asked: -1}
	tab := newTableau(p)
	tab.aim(over(2, terms(3, 2)))
	require.Empty(t, tab.basic)
	require.True(t, tab.bringIn())
	require.Equal(t, []int{tab.shape.slack(0), tab.shape.slack(2)}, tab.basic)
	require.Equal(t, absent, tab.where[tab.shape.slack(1)])
	require.Equal(t, []float64{4 - 18, 3 - 9}, []float64{tab.at[0] * 2, tab.at[1] * 2}, "scaled by the bits of their coefficients")
	require.False(t, tab.bringIn(), "once")
	require.Equal(t, optimal, tab.dual(&budget{}, 99))
	tab.restrict(0, 0, 1)
	tab.reoptimise(&budget{})
	tab.shed()
	for _, k := range tab.basic {
		require.NotEqual(t, tab.shape.slack(2), k, "x ≤ 1 and not only 3: that row does not bind")
	}
	require.InDelta(t, 3, tab.value(1), 1e-9)
}

// A row that its good cells mend only together with small ones is mended by a good one.
func TestChooseByAGoodCell(t *testing.T) {
	tab := handTableau([]float64{-9.0005}, -1, -1e-4)
	tab.low = make([]int64, 2)
	r, q, upward := tab.choose()
	require.Equal(t, []any{0, 0, true}, []any{r, q, upward})
	tab.at[0] = -9.001
	_, q, _ = tab.choose()
	require.Equal(t, -1, q, "9.0009 is all they come to")
}

// What a row lacks is mended by its good cells alone as far as anybody can tell.
func TestEnoughButForAHair(t *testing.T) {
	for lacks, want := range map[float64]bool{9: true, 9 + tolerance/16.5: true, 9 + tolerance/15.5: false, 9.1: false} {
		tab := handTableau([]float64{-lacks}, -1, 1)
		tab.low = make([]int64, 2)
		_, enough := tab.entering(0, true, pivotMin)
		require.Equal(t, want, enough, lacks)
	}
}

// A copy is all of it: what the relaxation says, and what is wrong with it.
func TestCopiesAreWhole(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(4, 1, 1)}, asked: -1}
	tab := newTableau(p)
	tab.aim(over(2, terms(3, 2)))
	tab.reoptimise(&budget{})
	tab.broken, tab.stuck, tab.upward = true, 7, true
	var again tableau
	again.copyFrom(tab)
	require.Equal(t, []any{true, 7, true}, []any{again.broken, again.stuck, again.upward})
	require.Equal(t, []any{tab.low, tab.high, tab.lo, tab.hi, tab.basic, tab.outside, tab.where, tab.atHigh, tab.cells, tab.price, tab.at},
		[]any{again.low, again.high, again.lo, again.hi, again.basic, again.outside, again.where, again.atHigh, again.cells, again.price, again.at})
	again.restrict(0, 1, 1)
	again.pivot(0, 0, true)
	require.Equal(t, int64(9), tab.high[0], "and one of its own")
	require.InDelta(t, 4, tab.value(0), 1e-9)
}

// Of very many rows that a point breaks those come in first that it breaks most.
func TestBringInTheWorstFirst(t *testing.T) {
	p := &program{columns: repeated(mostBrought+20, 900), asked: -1}
	var coefs []int64
	for j := range p.columns {
		p.rows = append(p.rows, AtMost(int64(900-5*(j+1)), Times(1, j)))
		coefs = append(coefs, 1)
	}
	tab := newTableau(p)
	tab.aim(over(len(p.columns), terms(coefs...)))
	require.True(t, tab.bringIn())
	require.Len(t, tab.basic, mostBrought)
	for j := range p.columns {
		require.Equal(t, j >= 20, tab.where[tab.shape.slack(j)] != absent, j)
	}
	require.True(t, tab.bringIn(), "and then the others")
	require.Len(t, tab.basic, len(p.columns))
	require.False(t, tab.bringIn())
}

// Where very many unknowns are outside their bounds rows are not measured.
func TestLeavingOfMany(t *testing.T) {
	at, cells := []float64{-3, -2}, []float64{2, 2, 1, 0}
	for len(at) < mostMeasured {
		at, cells = append(at, -1e-3), append(cells, 0, 0)
	}
	r, _ := handTableau(at, cells...).leaving()
	require.Equal(t, 1, r, "9/9 is less than 4/2")
	r, _ = handTableau(append(at, -1e-3), append(cells, 0, 0)...).leaving()
	require.Zero(t, r, "one more: 3 is more than 2")
}

// Columns whose unknowns are fixed are left out once they are an eighth of all; they still
// stand where they stood, and all else is what it was.
func TestLeaveOutFixed(t *testing.T) {
	for fixed, want := range map[int]int{0: 9, 1: 9, 2: 7, 9: 0} {
		p := &program{columns: repeated(9, 5), rows: []Row{atMost(20, 1, 1, 1, 1, 1, 1, 1, 1, 1), atMost(9, 2, 3, 1)}, asked: -1}
		tab := newTableau(p)
		tab.aim(over(9, terms(1, 2, 3, 4, 5, 6, 7, 8, 9)))
		require.Equal(t, optimal, tab.reoptimise(&budget{}))
		for j, left := 0, fixed; left > 0; j++ {
			if tab.where[j] < 0 || fixed == 9 {
				tab.restrict(j, 1, 1)
				left--
			}
		}
		values, rows, claims := []float64{}, len(tab.at), tab.claims()
		for j := range 9 {
			values = append(values, tab.value(j))
		}
		tab.leaveOutFixed()
		require.Equal(t, claims, tab.claims())
		for j := range 9 {
			require.Equal(t, values[j], tab.value(j))
		}
		require.Len(t, tab.at, rows)
		require.Len(t, tab.cells, rows*tab.width())
		require.Len(t, tab.price, tab.width())
		require.Len(t, tab.atHigh, tab.width())
		for j, k := range tab.outside {
			require.Equal(t, ^j, tab.where[k])
		}
		if fixed < 9 {
			require.Equal(t, want, tab.width(), "%d fixed", fixed)
		}
	}
}
