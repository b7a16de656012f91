package heat

import "math"

// halving parts a band where one part of the tuber gives way to the next.
func (p *cutPlanner) halving(b Sizes) []CutRule {
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
func (p *cutPlanner) boundary(rung, next int, b Sizes) float64 {
	both := func(mm float64) float64 { return 2*p.goal - p.lnTime(rung, mm) - p.lnTime(next, mm) }
	if both(b.HighMM) >= 0 {
		return never
	}
	return root(b.LowMM, b.HighMM, both)
}

// sizeAt is the size within a band at which a rung takes a time, or the end of
// the band that comes nearest.
func (p *cutPlanner) sizeAt(rung int, lnSeconds float64, b Sizes) float64 {
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
func (p *cutPlanner) cutting(b Sizes) ([]CutRule, error) {
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
func (p *cutPlanner) close() []CutRule {
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
