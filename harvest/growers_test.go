package harvest_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/units"
)

// notebook is a journal in memory, season by season.
type notebook map[int][]harvest.Entry

func (n notebook) Seasons() ([]int, error) {
	var years []int
	for year := range n {
		years = append(years, year)
	}
	slices.Sort(years)
	return years, nil
}

func (n notebook) Season(_ context.Context, year int) ([]harvest.Entry, []harvest.LeftOut, error) {
	return n[year], nil, nil
}

func (n notebook) Write(e harvest.Entry) (string, error) { return "", fmt.Errorf("nobody writes here") }

// plotter is a grower whose ways are none of the planner's: years are good,
// middling or bad by the throw of a die, not by a bell curve; appetite walks up
// and down in steps; some are careful and some are not; some give the rest away,
// some have it lying there. The usual figures are the grower's own
// guess at what the seed packet says, off by up to twice.
type plotter struct {
	*rand.Rand
	crop, class  string
	plants       int
	good         float64 // g a plant in a good year
	bad          float64 // share of it that a bad year gives
	odds         float64 // of a bad year
	wants        float64 // g a season to eat
	restless     float64 // by how much that changes from one year to the next, at most
	spoils       float64 // of the harvest, at most
	gives, lifts int
}

// packets are g a plant, as a grower would say them off hand: common knowledge,
// no source, and not the planner's table.
var packets = []struct {
	crop, class string
	grams       float64
}{{"potato", "early maincrop", 1100}, {"potato", "first early", 450}, {"carrot", "", 75}, {"leek", "", 220}, {"beetroot", "", 150},
	{"courgette", "", 4500}, {"tomato", "", 2200}, {"parsnip", "", 220}, {"onion", "", 130}, {"kale", "", 700}}

func newPlotter(r *rand.Rand) plotter {
	p := packets[r.IntN(len(packets))]
	g := plotter{Rand: r, crop: p.crop, class: p.class, plants: 5 + r.IntN(80), good: p.grams * math.Pow(2, 2*r.Float64()-1),
		bad: 0.5 + 0.4*r.Float64(), odds: r.Float64() / 3, restless: 0.3 * r.Float64(), spoils: 0.25 * r.Float64(), gives: r.IntN(3), lifts: 1 + r.IntN(5)}
	g.wants = float64(g.plants) * g.good * (0.3 + 0.5*r.Float64())
	return g
}

// yield is g a plant of one year.
func (g *plotter) yield() float64 {
	y := g.good * (0.85 + 0.3*g.Float64())
	if g.Float64() < g.odds {
		y *= g.bad
	}
	return y
}

// loss is the share of one year's harvest that nobody could eat.
func (g *plotter) loss() float64 { return g.spoils * (g.Float64() + g.Float64()) / 2 }

// appetite is what would be eaten this year: a step up or down from the last.
func (g *plotter) appetite() float64 {
	g.wants *= 1 + g.restless*(2*g.Float64()-1)
	return g.wants
}

// write logs a season of several lifts and what became of each, and returns the
// ledger's planting.
func (g *plotter) write(n notebook, year int) harvest.Planting {
	p := harvest.Planting{ID: "bed", Crop: g.crop, Class: g.class, SeedCount: g.plants, Planted: time.Date(year, 4, 20, 0, 0, 0, 0, time.UTC)}
	gave, wants, spoilt := float64(g.plants)*g.yield(), g.appetite(), g.loss()
	each, left := gave/float64(g.lifts), wants
	for i := range g.lifts {
		at := time.Date(year, 7, 10+9*i, 10, 0, 0, 0, time.UTC)
		lift := &harvest.Lift{Planting: p.ID, Weighings: []harvest.Weighing{{Gross: gramsOf(each)}}}
		lift.At, lift.File = at, fmt.Sprintf("journal/%d/%s-lift-bed.yaml", year, at.Format("0102-1504"))
		n[year] = append(n[year], lift)
		lot := lift.Lots(p, "")[0].ID
		fit := each * (1 - spoilt)
		eaten := math.Min(left, fit)
		left -= eaten
		fates := []struct {
			to string
			g  float64
		}{{harvest.KindUse, eaten * 0.6}, {harvest.KindUse, eaten * 0.4}, {harvest.KindCompost, each * spoilt}}
		if g.gives > 0 {
			fates = append(fates, struct {
				to string
				g  float64
			}{harvest.KindGive, fit - eaten})
		}
		for j, f := range fates {
			if math.Floor(f.g) < 1 {
				continue
			}
			m := &harvest.Move{To: f.to, Lot: lot, Weight: gramsOf(f.g)}
			m.At = at.Add(time.Duration(j+1) * time.Hour)
			m.File = fmt.Sprintf("journal/%d/%s-%d-%s.yaml", year, m.At.Format("0102-1504"), j, f.to)
			n[year] = append(n[year], m)
		}
	}
	return p
}

func gramsOf(g float64) units.Quantity { return units.New(decimal.NewFromInt(int64(g)), units.Gram) }

// The number of plants a grower turns out to need lies in the range that was
// told at least 85 times in 100, after one season, a few, and ten; and the range
// says something.
func TestPlottersNeedWhatNextTells(t *testing.T) {
	volume := harvest.Volume(300, 600, 5_000)
	for _, seasons := range []int{1, 3, 10} {
		inside, width := 0, 0.0
		for seed := range volume {
			g := newPlotter(rand.New(rand.NewPCG(uint64(seed), uint64(91+seasons))))
			n := notebook{}
			var plantings []harvest.Planting
			for year := 2031; year < 2031+seasons; year++ {
				plantings = append(plantings, g.write(n, year))
			}
			next, err := harvest.NewLedger(n, plantings, false).Next(context.Background(), harvest.NextQuestion{Year: 2031 + seasons})
			require.NoError(t, err)
			require.Len(t, next.Crops, 1)
			c := next.Crops[0]
			needs := g.appetite() / (1 - g.loss()) / g.yield()
			if c.Plants.Low <= needs && needs <= c.Plants.High {
				inside++
			}
			width += math.Log(c.Plants.High/c.Plants.Low) / float64(volume)
		}
		t.Logf("after %d seasons: %.1f %% within, from low to high %.1f times", seasons, 100*float64(inside)/float64(volume), math.Exp(width))
		assert.GreaterOrEqual(t, float64(inside)/float64(volume), 0.85, "after %d seasons", seasons)
		assert.Less(t, width, math.Log(6), "after %d seasons", seasons)
	}
}
