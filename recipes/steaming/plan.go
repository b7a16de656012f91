package steaming

import (
	"fmt"
	"math"
	"slices"
)

// SizeClass is a part of a crop by size: a riddle band, or a count and a weight
// (their mean tuber then stands for it, a tenth either way), or both.
type SizeClass struct {
	LowMM, HighMM float64
	Grams         float64
	Count         int
}

// Wish is what a cutting plan is to reach: pieces that end with this cut, or
// with no cut given whatever time suits the sizes best.
type Wish struct {
	Cut   Cut
	Until Doneness
}

// CutRule says what to do with tubers from FromMM up to ToMM across. Shortest
// and Longest are the minutes of their pieces, from steam at full flow.
type CutRule struct {
	Cut               Cut
	FromMM, ToMM      float64
	Shortest, Longest float64
}

// CutPlan brings the pieces of mixed sizes to one time.
type CutPlan struct {
	Minutes, Low, High float64 // from steam at full flow: one clock for all
	ComeUp             float64
	PieceMM            float64   // edge of the cube that takes that long
	Rules              []CutRule // over all sizes present, smallest first
	// Close are the sizes at which each cut ends within a tenth of Minutes:
	// sort by them to have it even.
	Close []CutRule
	// Early and Late are how far, in per cent of the time from loading, the
	// first and the last pieces miss it. Even: both within ten.
	Early, Late float64
	Even        bool
	// Classes holds, for each class asked, the rules that apply to it.
	Classes []ClassCut
	Notes   []string
}

// ClassCut is one size class with the rules for its sizes.
type ClassCut struct {
	Class SizeClass
	Rules []CutRule
}

// ladder is the order of ever smaller parts of a tuber.
var ladder = [...]Shape{Whole, Halves, Quarters, Eighths}

const (
	evenWithin  = 0.10
	ladderStops = 25 // sizes at which each rung is reckoned
)

// PlanCuts says how to cut each size so that all pieces end together: within a
// tenth, or as near as whole, halves, quarters and eighths come.
func PlanCuts(crop Crop, classes []SizeClass, wish Wish, c Conditions) (CutPlan, error) {
	bands, err := Bands(crop, classes)
	if err != nil {
		return CutPlan{}, err
	}
	c = c.filled()
	p := planner{crop: crop, until: wish.Until, bands: bands, learned: c.Learned}
	if err := p.reckon(wish.Cut, c); err != nil {
		return CutPlan{}, err
	}
	goal, err := p.goal(wish.Cut)
	if err != nil {
		return CutPlan{}, err
	}
	return p.plan(goal, classes)
}

// Bands gives each class its sizes; a class known by count and weight those of
// its mean tuber, a tenth either way.
func Bands(crop Crop, classes []SizeClass) ([]Sizes, error) {
	if len(classes) == 0 {
		return nil, &InputError{What: "sizes", Problem: "none given", Accepted: "give at least one size class, as 20-45 mm"}
	}
	bands := make([]Sizes, len(classes))
	for i, class := range classes {
		bands[i] = Sizes{class.LowMM, class.HighMM}
		if bands[i] == (Sizes{}) {
			if class.Count <= 0 || !(class.Grams > 0) {
				return nil, &InputError{What: "sizes", Value: fmt.Sprintf("class %d", i+1), Problem: "neither sizes nor count and weight", Accepted: "give 20-45 mm, or a count and a weight"}
			}
			mean := meanDiameterMM(crop, class.Grams/float64(class.Count))
			bands[i] = Sizes{mean * 0.9, mean * 1.1}
		}
		if err := bands[i].check(); err != nil {
			return nil, err
		}
	}
	return bands, nil
}

// rawDensity is a raw tuber's, in g/mm³ (1080 kg/m³, memory).
const rawDensity = 1080e-6

// meanDiameterMM is the diameter of an ellipsoid of the crop's length and of
// that weight.
func meanDiameterMM(crop Crop, grams float64) float64 {
	return 2 * math.Cbrt(3*grams/(4*math.Pi*rawDensity*crop.Length))
}

// planner holds the time from loading, by cut and size, at one supply of steam.
type planner struct {
	crop    Crop
	until   Doneness
	bands   []Sizes
	low     float64
	step    float64 // between stops, in ln(mm)
	rungs   [len(ladder)][ladderStops]float64
	base    situation // at the supply all pieces share
	learned Learned
}

// reckon runs every rung at every stop, at the steam per area that the whole
// load takes as pieces of about the wished size.
func (p *planner) reckon(wish Cut, c Conditions) error {
	low, high := p.bands[0].LowMM, p.bands[0].HighMM
	for _, b := range p.bands {
		low, high = min(low, b.LowMM), max(high, b.HighMM)
	}
	usual := Cut{Shape: Cube, SizeMM: 25}
	if wish.Sized() {
		usual = wish
	} else if wish.Shape != 0 {
		usual = wish.WithTuber(high)
	}
	base, err := newSituation(p.crop, usual, p.until, c)
	if err != nil {
		return err
	}
	if c.Heaped {
		base = base.heaped()
	}
	p.base, p.low = base, low
	p.step = math.Log(high*1.0001/low) / (ladderStops - 1)
	for i, shape := range ladder {
		for stop := range ladderStops {
			s := base
			if s.body, err = BodyOf(p.crop, Cut{Shape: shape, SizeMM: low * math.Exp(float64(stop)*p.step)}); err != nil {
				return err
			}
			h := s.run()
			if !h.done {
				h.doneS = longestS
			}
			p.rungs[i][stop] = math.Log(h.doneS)
		}
	}
	return nil
}

// lnTime is the logarithm of the seconds from loading of a rung at a size.
func (p *planner) lnTime(rung int, mm float64) float64 {
	at := math.Log(mm/p.low) / p.step
	i := min(max(int(at), 0), ladderStops-2)
	share := at - float64(i)
	return p.rungs[rung][i]*(1-share) + p.rungs[rung][i+1]*share
}

// nearest is the rung that ends nearest to the goal at a size, and by how much
// it misses; of equals the one with fewer cuts.
func (p *planner) nearest(mm, goal float64) (rung int, miss float64) {
	miss = math.Inf(1)
	for i := range ladder {
		if m := p.lnTime(i, mm) - goal; math.Abs(m) < math.Abs(miss)-1e-9 {
			rung, miss = i, m
		}
	}
	return rung, miss
}

// goal is the logarithm of the seconds from loading to bring all pieces to: of
// the wished cut, or the one that misses least, with the fewest cuts.
func (p *planner) goal(wish Cut) (float64, error) {
	if wish.Shape != 0 {
		h := p.base.run()
		if !h.done {
			return 0, ErrNotDone
		}
		return math.Log(h.doneS), nil
	}
	last := len(ladder) - 1
	high := p.low * math.Exp((ladderStops-1)*p.step)
	from, to := p.lnTime(0, high), p.lnTime(last, p.low)
	best, goal := math.Inf(1), from
	const tries = 120
	for i := range tries + 1 {
		g := from + (to-from)*float64(i)/tries
		if worst := p.worst(g); worst < best-0.01 {
			best, goal = worst, g
		}
	}
	return goal, nil
}

// worst is the largest miss over the sizes present.
func (p *planner) worst(goal float64) float64 {
	worst := 0.0
	for _, b := range p.bands {
		p.sizes(b, func(mm float64) {
			_, miss := p.nearest(mm, goal)
			worst = max(worst, math.Abs(miss))
		})
	}
	return worst
}

// sizes walks through a band, ends included.
func (p *planner) sizes(b Sizes, visit func(mm float64)) {
	const stops = 40
	for i := range stops + 1 {
		visit(b.LowMM + (b.HighMM-b.LowMM)*float64(i)/stops)
	}
}

func (p *planner) plan(goal float64, classes []SizeClass) (CutPlan, error) {
	cube, middle, low, high, err := p.cubeFor(goal)
	if err != nil {
		return CutPlan{}, err
	}
	full := middle.fullS
	plan := CutPlan{ComeUp: full / 60, PieceMM: cube}
	plan.Minutes, plan.Low, plan.High = p.learned.band(middle.minutes(), low.minutes(), high.minutes())
	for i, b := range p.bands {
		rules := p.rules(b, goal, full)
		plan.Classes = append(plan.Classes, ClassCut{classes[i], rules})
		plan.Rules = append(plan.Rules, rules...)
		p.sizes(b, func(mm float64) {
			_, miss := p.nearest(mm, goal)
			plan.Early = max(plan.Early, (1-math.Exp(miss))*100)
			plan.Late = max(plan.Late, (math.Exp(miss)-1)*100)
		})
	}
	plan.Rules = merged(plan.Rules)
	plan.Close = p.close(goal, full)
	plan.Even = plan.Early <= evenWithin*100 && plan.Late <= evenWithin*100
	plan.Low *= 1 - plan.Early/100
	plan.High *= 1 + plan.Late/100
	if !plan.Even {
		plan.Notes = append(plan.Notes, fmt.Sprintf("whole, halves, quarters and eighths come no nearer than -%.0f to +%.0f %%; for more even pieces dice those in between to %.0f mm", plan.Early, plan.Late, plan.PieceMM))
	}
	return plan, nil
}

// cubeFor finds the edge, in mm, of the cube that takes the goal's time.
func (p *planner) cubeFor(goal float64) (edge float64, middle, low, high heated, err error) {
	s := p.base
	unit := brickBody(1, 1, 1)
	edge = root(smallestMM, largestMM, func(mm float64) float64 {
		s.body = unit.scaled(mm)
		h := s.run()
		if !h.done {
			h.doneS = longestS
		}
		return goal - math.Log(h.doneS)
	})
	s.body = unit.scaled(edge)
	middle, low, high, err = s.band(false)
	return edge, middle, low, high, err
}

// rules parts a band where one cut gives way to the next.
func (p *planner) rules(b Sizes, goal, fullS float64) []CutRule {
	var rules []CutRule
	from := b.LowMM
	rung, _ := p.nearest(from, goal)
	for from < b.HighMM || len(rules) == 0 {
		to, next := b.HighMM, rung
		for i := rung + 1; i < len(ladder); i++ {
			if edge := p.boundary(rung, i, b, goal); edge < to {
				to, next = edge, i
			}
		}
		rules = append(rules, p.rule(rung, from, to, fullS))
		if next == rung {
			break
		}
		from, rung = to, next
	}
	return rules
}

// boundary is the size within a band at which two rungs miss the goal alike.
func (p *planner) boundary(rung, next int, b Sizes, goal float64) float64 {
	both := func(mm float64) float64 { return 2*goal - p.lnTime(rung, mm) - p.lnTime(next, mm) }
	if both(b.HighMM) >= 0 {
		return math.Inf(1)
	}
	return root(b.LowMM, b.HighMM, both)
}

func (p *planner) rule(rung int, from, to, fullS float64) CutRule {
	minutes := func(mm float64) float64 {
		scaled, _, _ := p.learned.band(max(0, math.Exp(p.lnTime(rung, mm))-fullS)/60, 0, 0)
		return scaled
	}
	return CutRule{Cut: Cut{Shape: ladder[rung]}, FromMM: from, ToMM: to, Shortest: minutes(from), Longest: minutes(to)}
}

// close gives, for each rung, the sizes within a tenth of the goal that the
// smallest to the largest tuber span.
func (p *planner) close(goal, fullS float64) []CutRule {
	var rules []CutRule
	high := p.low * math.Exp((ladderStops-1)*p.step)
	for i := range ladder {
		at := func(goal float64) float64 {
			return root(p.low, high, func(mm float64) float64 { return goal - p.lnTime(i, mm) })
		}
		least, most := goal+math.Log(1-evenWithin), goal+math.Log(1+evenWithin)
		if p.lnTime(i, p.low) <= most && p.lnTime(i, high) >= least {
			rules = append(rules, p.rule(i, at(least), at(most), fullS))
		}
	}
	return rules
}

// merged joins the rules of neighbouring classes, smallest first.
func merged(rules []CutRule) []CutRule {
	slices.SortStableFunc(rules, func(a, b CutRule) int {
		switch {
		case a.FromMM < b.FromMM:
			return -1
		case a.FromMM > b.FromMM:
			return 1
		}
		return 0
	})
	var out []CutRule
	for _, r := range rules {
		if n := len(out) - 1; n >= 0 && out[n].Cut.Shape == r.Cut.Shape {
			out[n].ToMM = max(out[n].ToMM, r.ToMM)
			out[n].Shortest, out[n].Longest = min(out[n].Shortest, r.Shortest), max(out[n].Longest, r.Longest)
			continue
		}
		out = append(out, r)
	}
	return out
}
