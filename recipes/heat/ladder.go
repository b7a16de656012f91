package heat

import "math"

// ladder is the order of ever smaller parts of a tuber.
var ladder = [...]Shape{Whole, Halves, Quarters, Eighths}

// ladderStops is at how many sizes each rung is reckoned.
const ladderStops = 9

// planner holds the time from loading, by part and size, at one supply of steam.
type planner struct {
	crop    Crop
	wish    Wish
	bands   []Sizes
	learned Learned
	low     float64 // smallest tuber, mm
	step    float64 // between stops, in ln(mm)
	rungs   [len(ladder)][ladderStops]float64
	base    situation // the wished piece, at the supply that all pieces share
	goal    float64   // ln of the seconds from loading to bring all to
	fullS   float64
}

// pieces says whether the wish is for pieces cut to a size, not for parts.
func (w Wish) pieces() bool { return w.Cut.Shape >= Cube }

// wholeOnly says whether whole tubers are all that the plan compares with.
func (w Wish) wholeOnly() bool { return w.pieces() && (w.Sparing || w.Cut.Shape != Cube) }

func (p *planner) high() float64 { return p.low * math.Exp((ladderStops-1)*p.step) }

// reckon runs every rung at every stop, at the steam per area that the whole
// load takes as pieces of about the wished size.
func (p *planner) reckon(c Conditions) error {
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
	if c.Heaped {
		base = base.heaped()
	}
	p.base, p.low = base, low
	p.step = math.Log(high*1.0001/low) / (ladderStops - 1)
	for i, shape := range ladder {
		if i > 0 && p.wish.wholeOnly() {
			break
		}
		for stop := range ladderStops {
			body, err := BodyOf(p.crop, Cut{Shape: shape, SizeMM: low * math.Exp(float64(stop)*p.step)})
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
func (p *planner) lnSeconds(body Body) float64 {
	s := p.base
	s.body = body
	h := s.run()
	if !h.done {
		h.doneS = longestS
	}
	return math.Log(h.doneS)
}

// lnTime is the logarithm of the seconds from loading of a rung at a size.
func (p *planner) lnTime(rung int, mm float64) float64 {
	at := math.Log(mm/p.low) / p.step
	i := min(max(int(at), 0), ladderStops-2)
	share := at - float64(i)
	return p.rungs[rung][i]*(1-share) + p.rungs[rung][i+1]*share
}

// minutes turns the logarithm of seconds from loading into this kitchen's
// minutes from full flow.
func (p *planner) minutes(lnSeconds float64) float64 {
	scaled, _, _ := p.learned.band(max(0, math.Exp(lnSeconds)-p.fullS)/60, 0, 0)
	return scaled
}

// nearest is the rung that ends nearest to a goal at a size, and by how much it
// misses; of two alike, the one with fewer cuts.
func (p *planner) nearest(mm, goal float64) (rung int, miss float64) {
	miss = math.Inf(1)
	for i := range ladder {
		if m := p.lnTime(i, mm) - goal; math.Abs(m) < math.Abs(miss)-1e-9 {
			rung, miss = i, m
		}
	}
	return rung, miss
}

// setGoal takes the wished cut's time, or, without a wish, the one that suits
// the sizes present best.
func (p *planner) setGoal() error {
	if p.wish.Cut.Shape == 0 {
		p.goal = p.bestGoal()
		return nil
	}
	h := p.base.run()
	if !h.done {
		return ErrNotDone
	}
	p.goal = math.Log(h.doneS)
	return nil
}

// bestGoal goes down from the longest time, which asks for the fewest cuts, to
// the first that all sizes meet within a tenth, or about as near as any does,
// and from there to where the miss is least.
func (p *planner) bestGoal() float64 {
	const tries, alike = 160, 0.06
	from, to := p.lnTime(0, p.high()), p.lnTime(len(ladder)-1, p.low)
	at := func(i int) float64 { return from + (to-from)*float64(i)/tries }
	var worst [tries + 1]float64
	least := math.Inf(1)
	for i := range worst {
		worst[i] = p.worst(at(i))
		least = min(least, worst[i])
	}
	enough := max(math.Log(1+evenWithin), least+alike)
	i := 0
	for worst[i] > enough {
		i++
	}
	for i < tries && worst[i+1] < worst[i] {
		i++
	}
	return at(i)
}

// worst is the largest miss over the sizes present.
func (p *planner) worst(goal float64) float64 {
	const stops = 40
	worst := 0.0
	for _, b := range p.bands {
		for i := range stops + 1 {
			_, miss := p.nearest(b.LowMM+(b.HighMM-b.LowMM)*float64(i)/stops, goal)
			worst = max(worst, math.Abs(miss))
		}
	}
	return worst
}

// cube finds the edge, in mm, of the cube that takes as long as the goal, and
// runs it with its band.
func (p *planner) cube() (edge float64, middle, low, high heated, err error) {
	const growth = 1.6 // time goes about with size to this power
	unit := brickBody(1, 1, 1)
	edge = p.base.body.EdgeMM()
	for range 12 {
		miss := p.goal - p.lnSeconds(unit.scaled(edge))
		edge = min(max(edge*math.Exp(miss/growth), smallestMM), largestMM)
		if math.Abs(miss) < 1e-4 {
			break
		}
	}
	s := p.base
	s.body = unit.scaled(edge)
	middle, low, high, err = s.band(false)
	return edge, middle, low, high, err
}

// halving parts a band where one part of the tuber gives way to the next.
func (p *planner) halving(b Sizes) []CutRule {
	var rules []CutRule
	from := b.LowMM
	rung, _ := p.nearest(from, p.goal)
	for {
		to, next := b.HighMM, rung
		for i := rung + 1; i < len(ladder); i++ {
			if edge := p.boundary(rung, i, b); edge < to {
				to, next = edge, i
			}
		}
		rules = append(rules, CutRule{Cut{Shape: ladder[rung]}, from, to, p.minutes(p.lnTime(rung, from)), p.minutes(p.lnTime(rung, to))})
		if next == rung {
			return rules
		}
		from, rung = to, next
	}
}

// boundary is the size within a band at which two rungs miss the goal alike.
func (p *planner) boundary(rung, next int, b Sizes) float64 {
	both := func(mm float64) float64 { return 2*p.goal - p.lnTime(rung, mm) - p.lnTime(next, mm) }
	if both(b.HighMM) >= 0 {
		return math.Inf(1)
	}
	return root(b.LowMM, b.HighMM, both)
}

// sizeAt is the size within a band at which a rung takes a time, or the end of
// the band that comes nearest.
func (p *planner) sizeAt(rung int, lnSeconds float64, b Sizes) float64 {
	switch {
	case p.lnTime(rung, b.LowMM) >= lnSeconds:
		return b.LowMM
	case p.lnTime(rung, b.HighMM) <= lnSeconds:
		return b.HighMM
	}
	return root(b.LowMM, b.HighMM, func(mm float64) float64 { return lnSeconds - p.lnTime(rung, mm) })
}

// cutting leaves the tubers whole that end no more than a tenth late, or have
// no room for the wished piece, and gives the others that piece.
func (p *planner) cutting(b Sizes) ([]CutRule, error) {
	room := p.sizeAt(0, p.goal+math.Log(1+evenWithin), b)
	for mm := room; mm < b.HighMM && p.wish.Cut.CheckTuber(mm) != nil; mm += 0.25 {
		room = mm + 0.25
	}
	var rules []CutRule
	if room > b.LowMM+0.05 {
		to := min(room, b.HighMM)
		rules = append(rules, CutRule{Cut{Shape: Whole}, b.LowMM, to, p.minutes(p.lnTime(0, b.LowMM)), p.minutes(p.lnTime(0, to))})
	}
	if room > b.HighMM-0.05 {
		return rules, nil
	}
	least, err := BodyOf(p.crop, Piece(p.wish.Cut, max(room, b.LowMM)))
	if err != nil {
		return nil, err
	}
	most, err := BodyOf(p.crop, Piece(p.wish.Cut, b.HighMM))
	if err != nil {
		return nil, err
	}
	return append(rules, CutRule{p.wish.Cut, max(room, b.LowMM), b.HighMM, p.minutes(p.lnSeconds(least)), p.minutes(p.lnSeconds(most))}), nil
}

// close gives, for each rung, the sizes within a tenth of the goal, as far as
// the smallest to the largest tuber span them.
func (p *planner) close() []CutRule {
	var rules []CutRule
	all := Sizes{p.low, p.high()}
	least, most := p.goal+math.Log(1-evenWithin), p.goal+math.Log(1+evenWithin)
	for i, shape := range ladder {
		if p.lnTime(i, all.LowMM) <= most && p.lnTime(i, all.HighMM) >= least {
			from, to := p.sizeAt(i, least, all), p.sizeAt(i, most, all)
			rules = append(rules, CutRule{Cut{Shape: shape}, from, to, p.minutes(p.lnTime(i, from)), p.minutes(p.lnTime(i, to))})
		}
	}
	return rules
}
