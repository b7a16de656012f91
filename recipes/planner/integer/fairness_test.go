package integer

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

// Three columns wished for as 2 to 3 to 4, and what they come to at a point.
func TestFairnessByHand(t *testing.T) {
	a := &aim{shares: []Share{{Column: 0, Weight: big.NewInt(2)}, {Column: 1, Weight: big.NewInt(3)}, {Column: 2, Weight: big.NewInt(4)}}}
	columns := []Column{{Most: 9}, {Most: 9}, {Most: 9}}
	for _, c := range []struct {
		x       []int64
		all     string // what the least of all columns comes to
		nonzero string // of those above 0
	}{
		{[]int64{4, 6, 8}, "2", "2"},
		{[]int64{4, 5, 8}, "5/3", "5/3"},
		{[]int64{0, 5, 8}, "0", "5/3"},
		{[]int64{0, 0, 3}, "0", "3/4"},
		{[]int64{0, 0, 0}, "0", "9/2"},
		{[]int64{9, 9, 9}, "9/4", "9/4"},
	} {
		top := MaxMin{Shares: a.shares}.top(columns)
		require.Equal(t, "9/2", top.RatString())
		require.Equal(t, c.all, newFairness(a, false, top).at(c.x).RatString(), c.x)
		require.Equal(t, c.nonzero, newFairness(a, true, top).at(c.x).RatString(), c.x)
	}
	f := newFairness(a, false, big.NewRat(9, 2))
	require.Equal(t, int64(12), f.unit.Int64(), "halves, thirds and quarters are all whole twelfths")
	require.Equal(t, int64(20), f.steps(big.NewRat(5, 3)).Int64())
	require.Equal(t, int64(13), f.steps(big.NewRat(10, 9)).Int64(), "13 1/3, rounded down")
	require.Equal(t, int64(60), newFairness(a, false, big.NewRat(9, 5)).unit.Int64(), "the top may be of another piece's fifths")
	require.Equal(t, "9/4", f.highest(columns).RatString(), "nine of the last are 2 1/4 times its wish")
	require.Equal(t, "9/2", newFairness(a, true, big.NewRat(9, 2)).highest(columns).RatString(), "which need not be made")
	columns[1].Most = 0
	require.Equal(t, "0", f.highest(columns).RatString())
}

// What the columns must be for a fair share of 5/2 with wishes of 1 and 2: at least 3
// and 5. One that may be nought is then nought or as many; one that cannot come to as
// many is nought; a larger batch, or least, stays.
func TestNarrowedByHand(t *testing.T) {
	a := &aim{shares: []Share{{Column: 0, Weight: big.NewInt(1)}, {Column: 1, Weight: big.NewInt(2)}}, links: []int{-1, -1}}
	for _, c := range []struct {
		about   string
		orZero  bool
		columns []Column
		want    map[int]Column
	}{
		{"all", false, []Column{{Most: 9, Rank: 3}, {Most: 9}}, map[int]Column{0: {Least: 3, Most: 9, Rank: 3}, 1: {Least: 5, Most: 9}}},
		{"all, with batches", false, []Column{{Most: 9, Batch: 4}, {Most: 9, Batch: 2}}, map[int]Column{0: {Least: 4, Most: 9, Batch: 4}, 1: {Least: 5, Most: 9, Batch: 2}}},
		{"all, more than there is", false, []Column{{Most: 2}, {Most: 4}}, map[int]Column{0: {Least: 3, Most: 2}, 1: {Least: 5, Most: 4}}},
		{"or nought", true, []Column{{Most: 3}, {Most: 4}}, map[int]Column{0: {Most: 3, Batch: 3}, 1: {}}},
		{"or nought, with batches", true, []Column{{Most: 9, Batch: 4}, {Most: 9, Batch: 2}}, map[int]Column{0: {Most: 9, Batch: 4}, 1: {Most: 9, Batch: 5}}},
		{"or nought, but it has to be", true, []Column{{Least: 1, Most: 9}, {Least: 6, Most: 9}}, map[int]Column{0: {Least: 3, Most: 9}, 1: {Least: 6, Most: 9}}},
	} {
		f := newFairness(a, c.orZero, big.NewRat(9, 1))
		p := &program{columns: c.columns}
		require.Equal(t, c.want, f.narrowed(p, big.NewRat(5, 2)).columns, c.about)
		require.Empty(t, f.narrowed(p, new(big.Rat)).columns, "nothing is asked for a share of nought")
		require.Empty(t, f.narrowed(p, big.NewRat(-1, 2)).columns)
		require.Empty(t, f.narrowed(p, big.NewRat(5, 2)).rows, c.about)
	}
}

// The rows that tell the relaxation: so many of a column for each that is made, and
// how many can be made for what a row holds: 2·3 + 3·5 + 4·7 = 49, of which 21 hold
// the first two, and 20 only one.
func TestNarrowedTellsTheRelaxation(t *testing.T) {
	shares := []Share{{Column: 0, Weight: big.NewInt(1), Sign: 3}, {Column: 1, Weight: big.NewInt(2), Sign: 4}, {Column: 2, Weight: big.NewInt(3), Sign: 5}}
	for _, c := range []struct {
		limit int64
		fit   int64 // -1: all of them
		most  int64 // of the last column
	}{{49, -1, 9}, {48, 2, 9}, {21, 2, 9}, {20, 1, 9}, {6, 1, 9}, {5, 0, 9}, {21, -1, 6}, {20, 1, 6}} {
		m := Model{Columns: append(repeated(3, 9), binaries(3)...), Rows: []Row{atMost(c.limit, 2, 3, 4)},
			Levels: []Level{{Goal: MaxMin{Shares: shares, OrZero: true}}}}
		m.Columns[2].Most = c.most
		p := newPart(t.Context(), &m, []int{0, 1, 2, 3, 4, 5}, &budget{}) // all of it, however small
		a := &p.aims[0]
		require.Equal(t, []int{1, 2, 3}, a.links, "a row each that says nothing yet")
		require.Equal(t, []count{{of: 0, at: 4}}, a.counts)
		for _, i := range []int{1, 2, 3, 4} {
			require.True(t, p.prog.rows[i].empty(), i)
			require.Zero(t, p.prog.rows[i].Limit.Sign(), i)
		}
		to := newFairness(a, true, big.NewRat(9, 1)).narrowed(p.prog, big.NewRat(7, 3)) // 3, 5 and 7 portions
		require.Equal(t, AtMost(0, Times(3, 3), Times(-1, 0)), to.rows[1])
		require.Equal(t, AtMost(0, Times(5, 4), Times(-1, 1)), to.rows[2])
		require.Equal(t, AtMost(0, Times(7, 5), Times(-1, 2)), to.rows[3])
		counted, told := to.rows[4]
		require.Equal(t, c.fit >= 0, told, c.limit)
		if told {
			made := []Term{Times(1, 3), Times(1, 4), Times(1, 5)}
			if c.most < 7 {
				made = made[:2] // the last is nought anyway
			}
			require.Equal(t, AtMost(c.fit, made...), counted, c.limit)
		}
	}
}

// A count reckons with the batch of a column where it is more than is asked.
func TestCountsReckonWithBatches(t *testing.T) {
	p := &program{columns: []Column{{Most: 9, Batch: 4}, {Most: 9}, {Most: 1}, {Most: 1}}, rows: []Row{atMost(6, 1, 1)}}
	row, told := count{of: 0}.row(p, map[int]int{0: 2, 1: 3}, map[int]int64{0: 2, 1: 3})
	require.True(t, told, "4 and 3 do not fit, though 2 and 3 would")
	require.Equal(t, AtMost(1, Times(1, 2), Times(1, 3)), row)
	p.rows[0].Limit = big.NewInt(7)
	_, told = count{of: 0}.row(p, map[int]int{0: 2, 1: 3}, map[int]int64{0: 2, 1: 3})
	require.False(t, told)
}

// Rows that a column eases, and rows of one linked column, cannot be counted.
func TestWhatIsCounted(t *testing.T) {
	shares := []Share{{Column: 0, Weight: big.NewInt(1), Sign: 2}, {Column: 1, Weight: big.NewInt(1), Sign: 3}}
	for _, c := range []struct {
		about string
		row   Row
		want  int
	}{
		{"both", atMost(9, 1, 2), 1}, {"one is eased", atMost(9, 1, -2), 0}, {"one only", atMost(9, 1), 0}, {"one and what is not linked", AtMost(9, Times(1, 0), Times(1, 4)), 0},
		{"both and what is not linked", AtMost(9, Times(1, 0), Times(1, 1), Times(1, 4)), 1}, {"what is not linked eases", AtMost(9, Times(1, 0), Times(1, 1), Times(-1, 4)), 0},
	} {
		m := Model{Columns: append(repeated(2, 9), binaries(3)...), Rows: []Row{c.row}, Levels: []Level{{Goal: MaxMin{Shares: shares, OrZero: true}}}}
		p := newPart(t.Context(), &m, []int{0, 1, 2, 3, 4}, &budget{})
		require.Len(t, p.aims[0].counts, c.want, c.about)
	}
}

func TestCeiling(t *testing.T) {
	for text, want := range map[string]int64{"0": 0, "1/9": 1, "1": 1, "10/9": 2, "-1/2": 0, "1048576": MostValue, "2097151/2": MostValue, "1048577": MostValue + 1, "1e30": MostValue + 1, "1048576.01": MostValue + 1} {
		r, ok := new(big.Rat).SetString(text)
		require.True(t, ok)
		require.Equal(t, want, ceiling(r), text)
	}
}

// A share is linked to its sign where both lie in one part, and there is one.
func TestLinks(t *testing.T) {
	for _, c := range []struct {
		about   string
		sign    int
		columns []int
		want    []int
	}{
		{"the sign comes first", 1, []int{1, 2}, []int{1}}, {"it comes behind", 3, []int{2, 3}, []int{1}},
		{"it lies elsewhere", 1, []int{2, 3}, []int{-1}}, {"there is none", 0, []int{2, 3}, []int{-1}}, {"nor below nought", -1, []int{2, 3}, []int{-1}},
	} {
		m := Model{Columns: repeated(4, 1), Rows: []Row{AtMost(9, Times(1, 2))}, Levels: []Level{{Goal: MaxMin{Shares: []Share{{Column: 2, Weight: big.NewInt(1), Sign: c.sign}}, OrZero: true}}}}
		p := newPart(t.Context(), &m, c.columns, &budget{})
		require.Equal(t, c.want, p.aims[0].links, c.about)
	}
}
