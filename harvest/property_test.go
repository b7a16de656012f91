package harvest

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"testing/quick"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// randomJournal makes a season of lifts and of what became of their lots, with
// overdrafts, corrections and voids, all from one seed.
type randomJournal struct {
	*rand.Rand
	plantings []Planting
	entries   []Entry
	lots      []string
	minute    int
}

func newRandomJournal(seed uint64) *randomJournal {
	j := &randomJournal{Rand: rand.New(rand.NewPCG(seed, 3))}
	for i := range 1 + j.IntN(4) {
		p := Planting{ID: fmt.Sprintf("bed-%d", i), Crop: []string{"potato", "beetroot", "oca"}[j.IntN(3)], Planted: day("2031-04-01")}
		if j.IntN(2) == 0 {
			p.Tub = units.MustParse("30 l")
		}
		j.plantings = append(j.plantings, p)
	}
	for range j.IntN(60) {
		if len(j.lots) == 0 || j.IntN(4) == 0 {
			j.lift()
			continue
		}
		j.move()
	}
	j.correct()
	j.Shuffle(len(j.entries), func(a, b int) { j.entries[a], j.entries[b] = j.entries[b], j.entries[a] })
	return j
}

// weight is a weight up to a limit in tenths of a gram, in one of the units a
// scale shows.
func (j *randomJournal) weight(tenths int64) units.Quantity {
	g := decimal.New(1+j.Int64N(tenths), -1)
	switch j.IntN(3) {
	case 0:
		return units.New(g.Shift(-3), units.Kilogram)
	case 1:
		return units.New(g.Round(0).Add(decimal.NewFromInt(1)).Div(decimal.NewFromInt(32)), units.Ounce)
	}
	return units.New(g, units.Gram)
}

func (j *randomJournal) when() time.Time {
	j.minute += 1 + j.IntN(3000)
	return day("2031-06-01").Add(time.Duration(j.minute) * time.Minute)
}

func (j *randomJournal) lift() {
	p := j.plantings[j.IntN(len(j.plantings))]
	l := &Lift{Planting: p.ID}
	l.At = j.when()
	l.File = fmt.Sprintf("journal/2031/%s-lift-%s.yaml", l.At.Format("0102-1504"), p.ID)
	for range 1 + j.IntN(4) {
		l.Weighings = append(l.Weighings, Weighing{Gross: j.weight(30_000)})
	}
	rest := l.Net()
	for range j.IntN(4) {
		g := Grade{Condition: Conditions()[j.IntN(5)], Weight: j.weight(5_000)}
		if j.IntN(2) == 0 {
			g.Sizes = units.Band{Low: 20, High: 45}
		}
		if rest = rest.Sub(grams(g.Weight)); rest.Sign() < 0 {
			break
		}
		l.Grades = append(l.Grades, g)
	}
	j.entries = append(j.entries, l)
	for _, lot := range l.Lots(p, "") {
		j.lots = append(j.lots, lot.ID)
	}
}

func (j *randomJournal) move() {
	m := &Move{Lot: j.lots[j.IntN(len(j.lots))], Weight: j.weight(8_000)}
	m.To = []string{KindGive, KindCompost, KindStore}[j.IntN(3)]
	m.At = j.when()
	m.File = fmt.Sprintf("journal/2031/%s-%s-%d.yaml", m.At.Format("0102-1504"), m.To, len(j.entries))
	j.entries = append(j.entries, m)
}

// correct voids and replaces some of the moves.
func (j *randomJournal) correct() {
	for i, e := range slices.Clone(j.entries) {
		m, ok := e.(*Move)
		if !ok || j.IntN(6) > 0 {
			continue
		}
		if j.IntN(2) == 0 {
			v := &Void{Voids: m.File}
			v.At, v.File = j.when(), fmt.Sprintf("journal/2031/void-%d.yaml", i)
			j.entries = append(j.entries, v)
			continue
		}
		again := *m
		again.Weight, again.Replaces = j.weight(8_000), m.File
		again.File = fmt.Sprintf("journal/2031/again-%d.yaml", i)
		j.entries = append(j.entries, &again)
	}
}

// For any journal: what a lift weighed is what its lots weigh, and what its
// lots weigh is what went to the kitchen, into store, away, on the heap and is
// on hand, to the last digit; on every day of the season, not only at its end.
func TestEveryGramIsAccountedFor(t *testing.T) {
	volume := Volume(300, 5_000, 20_000)
	err := quick.Check(func(seed uint64) bool {
		j := newRandomJournal(seed)
		on := day("2031-06-01").AddDate(0, 0, j.IntN(150))
		account, err := Settle(j.plantings, j.entries, on)
		require.NoError(t, err, "seed %d", seed)
		for _, l := range account.Lifts {
			sum := decimal.Zero
			for _, lot := range l.Lots {
				require.True(t, lot.Gave.Equal(lot.Went.Sum()), "seed %d: lot %s", seed, lot.ID)
				onHand := lot.Went.OnHand.Add(lot.Went.Stored)
				require.True(t, lot.Weight.Equal(decimal.Max(onHand, decimal.Zero)), "seed %d", seed)
				require.True(t, onHand.Sign() >= 0 || len(account.Warnings) > 0, "seed %d: overdrawn in silence", seed)
				sum = sum.Add(lot.Gave)
			}
			require.True(t, sum.Equal(l.Net()), "seed %d: %s", seed, l.File)
		}
		net := decimal.Zero
		for _, y := range account.Season(2031).Rows {
			require.True(t, y.Net.Equal(y.Went.Sum()), "seed %d: %s", seed, y.Planting.ID)
			require.True(t, y.Net.Equal(y.ToEat.Add(y.Green).Add(y.Rotten)), "seed %d", seed)
			graded := decimal.Zero
			for _, g := range y.Graded {
				graded = graded.Add(g.Grams)
			}
			require.True(t, y.Net.Equal(graded), "seed %d", seed)
			net = net.Add(y.Net)
		}
		for _, l := range account.Lifts {
			net = net.Sub(l.Net())
		}
		require.True(t, net.IsZero(), "seed %d: a lift is missing from the season", seed)
		return true
	}, &quick.Config{MaxCount: volume})
	require.NoError(t, err)
}

// The order in which files are read does not show in the answer.
func TestOrderOfReadingDoesNotMatter(t *testing.T) {
	for seed := range uint64(100) {
		j := newRandomJournal(seed)
		on := day("2031-10-01")
		first, err := Settle(j.plantings, j.entries, on)
		require.NoError(t, err)
		slices.Reverse(j.entries)
		second, err := Settle(j.plantings, j.entries, on)
		require.NoError(t, err)
		require.Equal(t, names(first.Stock()), names(second.Stock()))
		require.Equal(t, first.Warnings, second.Warnings)
	}
}
