package heat

import "math"

// ladder is the order of ever smaller parts of a tuber.
var ladder = [...]Shape{Whole, Halves, Quarters, Eighths}

// ladderStops is at how many sizes each rung is reckoned.
const ladderStops = 9

// cutPlanner holds the time from loading, by part and size, at one supply of steam.
type cutPlanner struct {
	crop   Crop
	wish   Wish
	bands  []Sizes
	around Conditions
	low    float64 // smallest tuber, mm
	step   float64 // between stops, in ln(mm)
	rungs  [len(ladder)][ladderStops]float64
	base   situation // the wished piece, at the supply that all pieces share
	goal   float64   // ln of the seconds from loading to bring all to
	// baseRun is the wished piece's run, and baseTime what it takes.
	baseRun  *filling
	baseTime timing
	fullS    float64 // what its minutes count from: 0 where steam does not flow freely first
	// sensitivity is that of the wished piece; it stands for all sizes.
	sensitivity float64
}

// pieces says whether the wish is for pieces cut to a size, not for parts.
func (w Wish) pieces() bool { return w.Cut.Shape >= Cube }

// wholeOnly says whether whole tubers are all that the plan compares with.
func (w Wish) wholeOnly() bool { return w.pieces() && (w.Sparing || w.Cut.Shape != Cube) }

func (p *cutPlanner) high() float64 { return p.low * math.Exp((ladderStops-1)*p.step) }

// reckon runs every rung at every stop, at the steam per area that the whole
// load takes as pieces of about the wished size.
func (p *cutPlanner) reckon(c Conditions) error {
	low, high := p.bands[0].LowMM, p.bands[0].HighMM
	for _, b := range p.bands {
		low, high = min(low, b.LowMM), max(high, b.HighMM)
	}
	usual := p.wish.Cut
	switch {
	case usual.Shape == 0:
		usual = Cut{Shape: Cube, SizeMM: 25}
	case !usual.Sized():
		usual = usual.WithTuber(high)
	}
	base, err := newSituation(p.crop, usual, p.wish.Until, c)
	if err != nil {
		return err
	}
	p.base, p.low, p.baseRun = base, low, base.run(shells)
	p.baseTime = timing{p.baseRun.last().cooked(base.target, base.crop.Z), p.baseRun.freeS}
	p.step = math.Log(high*1.0001/low) / (ladderStops - 1)
	for i, shape := range ladder {
		if i > 0 && p.wish.wholeOnly() {
			break
		}
		for stop := range ladderStops {
			size := min(low*math.Exp(float64(stop)*p.step), LargestMM)
			body, err := BodyOf(p.crop, Cut{Shape: shape, SizeMM: size})
			if err != nil {
				return err
			}
			p.rungs[i][stop] = p.lnSeconds(body)
		}
	}
	return nil
}

// lnSeconds is the logarithm of a body's time from loading; one that is not
// done in time counts as the longest.
func (p *cutPlanner) lnSeconds(body Body) float64 {
	if body == p.base.body {
		return math.Log(p.baseTime.seconds)
	}
	s := p.base
	s.body = body
	return math.Log(s.time().seconds)
}

// lnTime is the logarithm of the seconds from loading of a rung at a size.
func (p *cutPlanner) lnTime(rung int, mm float64) float64 {
	at := math.Log(mm/p.low) / p.step
	i := min(max(int(at), 0), ladderStops-2)
	share := at - float64(i)
	return p.rungs[rung][i]*(1-share) + p.rungs[rung][i+1]*share
}

// minutes turns the logarithm of seconds from loading into this kitchen's
// minutes from full flow.
func (p *cutPlanner) minutes(lnSeconds float64) float64 {
	return p.around.Learned.expects(max(0, math.Exp(lnSeconds)-p.fullS)/60, p.sensitivity)
}

// nearest is the rung that ends nearest to a goal at a size, and by how much it
// misses; of two alike, the one with fewer cuts.
func (p *cutPlanner) nearest(mm, goal float64) (rung int, miss float64) {
	miss = never
	for i := range ladder {
		if m := p.lnTime(i, mm) - goal; math.Abs(m) < math.Abs(miss)-hair {
			rung, miss = i, m
		}
	}
	return rung, miss
}
