package harvest

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// grower is one whose true appetite and true yields are known.
type grower struct {
	crop, class string
	plants      int
	yield       float64 // g a plant in a middling year
	years       float64 // by how much years differ, as a share
	eats        float64 // g a season
	appetite    float64 // by how much that differs
	loses       float64 // share of the harvest
}

// newGrower draws one whose plot lies in the published range nine times out of
// ten, and whose years differ by more or less than is usual.
func newGrower(r *rand.Rand) grower {
	kinds := [][2]string{{"potato", "second early"}, {"carrot", ""}, {"onion", ""}, {"leek", ""}, {"runner bean", ""}, {"courgette", ""}, {"beetroot", ""}}
	k := kinds[r.IntN(len(kinds))]
	row, _ := LookupCrop(k[0])
	usual, _ := row.usual(k[1], PerPlant)
	low, high := math.Log(float64(usual.Grams.Low)), math.Log(float64(usual.Grams.High))
	g := grower{crop: k[0], class: k[1], plants: 10 + r.IntN(60), yield: math.Exp((low+high)/2 + r.NormFloat64()*(high-low)/2/1.645),
		years: 0.15 + 0.25*r.Float64(), appetite: 0.1 + 0.15*r.Float64(), loses: 0.03 + 0.2*r.Float64()}
	g.eats = float64(g.plants) * g.yield * (0.4 + 0.6*r.Float64())
	return g
}

func (g grower) season(r *rand.Rand) (gave, want float64) {
	return float64(g.plants) * g.yield * math.Exp(r.NormFloat64()*g.years), g.eats * math.Exp(r.NormFloat64()*g.appetite)
}

// journalOf is the seasons a grower logged: one lift, what was eaten of it,
// what went bad, and the rest given away.
func (g grower) journalOf(r *rand.Rand, seasons int) *Ledger {
	s := shelf{}
	var plantings []Planting
	for year := 2031; year < 2031+seasons; year++ {
		gave, want := g.season(r)
		net := math.Max(10, math.Round(gave))
		plantings = append(plantings, Planting{ID: "bed", Crop: g.crop, Class: g.class, SeedCount: g.plants, Planted: day(fmt.Sprintf("%d-04-10", year))})
		lift := liftOf("bed", fmt.Sprintf("%d-08-01 10:00", year), fmt.Sprintf("%.0f g", net))
		lift.File = fmt.Sprintf("journal/%d/0801-1000-lift-bed.yaml", year)
		s[year] = append(s[year], lift)
		left := net
		for i, part := range []struct {
			to string
			g  float64
		}{{KindCompost, net * g.loses}, {KindUse, want}, {KindGive, net}} {
			grams := math.Floor(math.Min(left, part.g))
			if grams < 1 {
				continue
			}
			m := moveOf(part.to, fmt.Sprintf("%d-08-02 1%d:00", year, i), lift.Lots(Planting{Crop: g.crop}, "")[0].ID, fmt.Sprintf("%.0f g", grams))
			m.File = fmt.Sprintf("journal/%d/0802-1%d00-%s-bed.yaml", year, i, part.to)
			s[year] = append(s[year], m)
			left -= grams
		}
	}
	return NewLedger(s, plantings, false)
}

// Growers whose true needs are known: what they will need next season lies in
// the range that is told at least 85 times in 100, after one season and after
// ten, and the range of ten seasons is the narrower.
func TestNextHoldsWhatGrowersNeed(t *testing.T) {
	volume := Volume(400, 2_000, 20_000)
	width := map[int]float64{}
	for _, seasons := range []int{1, 2, 4, 10} {
		r := rand.New(rand.NewPCG(uint64(seasons), 7))
		inside := 0
		for range volume {
			g := newGrower(r)
			next, err := g.journalOf(r, seasons).Next(context.Background(), NextQuestion{Year: 2031 + seasons})
			require.NoError(t, err)
			require.Len(t, next.Crops, 1)
			c := next.Crops[0]
			gave, want := g.season(r)
			needs := want / (1 - g.loses) / (gave / float64(g.plants))
			if c.Plants.Low <= needs && needs <= c.Plants.High {
				inside++
			}
			width[seasons] += math.Log(c.Plants.High/c.Plants.Low) / float64(volume)
			assert.Equal(t, seasons == 1, len(c.Guessed) > 0, "one season is a guess, and said to be")
		}
		assert.GreaterOrEqual(t, float64(inside)/float64(volume), 0.85, "after %d seasons", seasons)
	}
	assert.Less(t, width[10], width[1])
	assert.Less(t, width[10], math.Log(6), "a range that says something")
}

// What was given away is no appetite; what was composted has to be grown too.
func TestNextCountsWhatIsEaten(t *testing.T) {
	lift := liftOf("bed-1", "2031-08-01 10:00", "10 kg")
	lot := lift.Lots(plot()[1], "")[0].ID
	use := moveOf(KindUse, "2031-08-02 10:00", lot, "4 kg")
	next := func(entries ...Entry) NextCrop {
		l, _ := ledgerOf(entries...)
		n, err := l.Next(context.Background(), NextQuestion{Year: 2032})
		require.NoError(t, err)
		require.Len(t, n.Crops, 1)
		assert.Equal(t, []int{2031}, n.Seasons)
		return n.Crops[0]
	}
	given := next(lift, use, moveOf(KindGive, "2031-08-02 11:00", lot, "6 kg"))
	thrown := next(lift, use, moveOf(KindCompost, "2031-08-02 11:00", lot, "6 kg"))
	assert.Equal(t, "4000 6000 0", fmt.Sprint(given.Eaten, given.Given, given.Lost))
	assert.Equal(t, "4000 0 6000", fmt.Sprint(thrown.Eaten, thrown.Given, thrown.Lost))
	assert.Greater(t, thrown.Plants.Likely, given.Plants.Likely)
	assert.False(t, given.Short)
	assert.True(t, next(lift, moveOf(KindUse, "2031-08-02 10:00", lot, "10 kg")).Short, "all of it eaten: perhaps more was wanted")
	assert.Positive(t, given.M2)
	assert.Positive(t, given.Seed)
	assert.NotEmpty(t, given.Sowings)
	empty, _ := ledgerOf()
	_, err := empty.Next(context.Background(), NextQuestion{Year: 2032})
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "season", wrong.Field)
}
