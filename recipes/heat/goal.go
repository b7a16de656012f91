package heat

import "math"

// setGoal takes the wished cut's time, or, without a wish, the one that suits
// the sizes present best.
func (p *cutPlanner) setGoal() error {
	if p.wish.Cut.Shape == 0 {
		p.goal = p.bestGoal()
		return nil
	}
	if !p.baseTime.done {
		return ErrNotDone
	}
	p.goal = math.Log(p.baseTime.seconds)
	return nil
}

// bestGoal goes down from the longest time, which asks for the fewest cuts, to
// the first that all sizes meet within a tenth, or about as near as any does,
// and from there to where the miss is least.
func (p *cutPlanner) bestGoal() float64 {
	const tries, alike = 160, 0.06
	from, to := p.lnTime(0, p.high()), p.lnTime(len(ladder)-1, p.low)
	at := func(i int) float64 { return from + (to-from)*float64(i)/tries }
	var worst [tries + 1]float64
	least := never
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
func (p *cutPlanner) worst(goal float64) float64 {
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

// cube finds the edge, in mm, of the cube that takes as long as the goal, and how
// it fares.
func (p *cutPlanner) cube() (edge float64, s situation) {
	if p.wish.Cut.Shape == Cube {
		return p.base.body.EdgeMM(), p.base
	}
	const growth = 1.6 // time goes about with size to this power
	unit := brickBody(1, 1, 1)
	edge = p.base.body.EdgeMM()
	for range 12 {
		miss := p.goal - p.lnSeconds(unit.scaled(edge))
		edge = min(max(edge*math.Exp(miss/growth), SmallestMM), LargestMM)
		if math.Abs(miss) < 1e-4 {
			break
		}
	}
	s = p.base
	s.body = unit.scaled(edge)
	return edge, s
}
