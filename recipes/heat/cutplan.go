package heat

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"trencher/units"
)

// SizeClass is a part of a crop by size: a riddle band, or a count and a weight
// (their mean tuber then stands for it, a tenth either way), or both.
type SizeClass struct {
	LowMM, HighMM float64
	Grams         float64
	Count         int
}

// Wish is what a cutting plan is to reach: pieces that end with this cut, or
// with no cut given whatever time suits the sizes best. A cut of the tuber
// without a size, such as halves, is the largest tuber's.
type Wish struct {
	Cut   Cut
	Until Doneness
	// Sparing leaves CutPlan.Quick out, for an answer four times as soon.
	Sparing bool
}

// CutRule says what to do with tubers from FromMM up to ToMM across. Shortest
// and Longest are the minutes of their pieces, from steam at full flow.
type CutRule struct {
	Cut               Cut
	FromMM, ToMM      float64
	Shortest, Longest float64
}

// Evenness is how far, in per cent of the time from loading, the first and the
// last pieces miss the common time. Even: both within ten.
type Evenness struct {
	Early, Late float64
	Even        bool
}

// CutPlan brings the pieces of mixed sizes to one time.
type CutPlan struct {
	// Minutes, Low and High count from steam at full flow: one clock for all. Where
	// steam does not flow freely first (FreeFirst is false) they count from loading,
	// and ComeUp is 0.
	Minutes, Low, High float64
	ComeUp             float64
	FreeFirst          bool
	PieceMM            float64   // edge of the cube that takes that long
	Rules              []CutRule // over all sizes present, smallest first
	Evenness
	// Quick is the plan by halving alone, for a wish of cubes that is not
	// Sparing: less work, less even. QuickEven is how even.
	Quick     []CutRule
	QuickEven Evenness
	// EarlyMinutes and LateMinutes are how long before the common time the
	// smallest are done, and how long after it the largest; 0 where under a
	// minute.
	EarlyMinutes, LateMinutes float64
	// DiceMM is the cube, in whole mm, to dice to instead so that all would end
	// together; 0 where the plan is even, for a wish of pieces, and where no
	// kitchen would dice so small or so large.
	DiceMM float64
	// Close are the sizes at which whole, halves, quarters and eighths each end
	// within a tenth of Minutes: sort by them to have it even. nil for a wish of
	// pieces.
	Close []CutRule
	Notes []string
}

// What counts as together, and what a kitchen dices to (judgement).
const (
	evenWithin      = 0.10 // of the time from loading, either way
	leastMiss       = 1.0  // minutes early or late that are worth telling
	smallestDiceMM  = 15.0
	largestDiceMM   = 35.0
	meanTuberSpread = 0.1 // of a lot known by count and weight, either way
)

// PlanCuts says how to cut each size so that all pieces end together, within a
// tenth or as near as the cuts come. With a wish of cubes, slices, batons or
// boxes small tubers stay whole and the others get that cut; with any other,
// they are left whole, halved, quartered or cut in eighths, and those too large
// even for eighths are diced to the cube that takes the common time.
func PlanCuts(crop Crop, classes []SizeClass, wish Wish, c Conditions) (CutPlan, error) {
	bands, err := Bands(crop, classes)
	if err != nil {
		return CutPlan{}, err
	}
	p := cutPlanner{crop: crop, wish: wish, bands: bands, around: c.filled()}
	if err := p.reckon(p.around); err != nil {
		return CutPlan{}, err
	}
	if err := p.setGoal(); err != nil {
		return CutPlan{}, err
	}
	return p.plan()
}

// Bands gives each class its [SizeClass.Sizes].
func Bands(crop Crop, classes []SizeClass) ([]Sizes, error) {
	if len(classes) == 0 {
		return nil, units.WrongField("lot", "", "none given", "at least one size class, as 20-45 mm")
	}
	bands := make([]Sizes, len(classes))
	for i, class := range classes {
		var err error
		if bands[i], err = class.Sizes(crop); err != nil {
			return nil, err
		}
	}
	return bands, nil
}

// Sizes are the class's sizes across: its band, or those of the mean tuber of
// its count and weight, a tenth either way.
func (s SizeClass) Sizes(crop Crop) (Sizes, error) {
	band := Sizes{s.LowMM, s.HighMM}
	if band != (Sizes{}) {
		return band, band.check()
	}
	if s.Count <= 0 || !(s.Grams > 0) {
		return Sizes{}, units.WrongField("lot", "", "neither sizes nor a weight and a count", lotForms)
	}
	mean := meanDiameterMM(crop, s.Grams/float64(s.Count))
	band = Sizes{mean * (1 - meanTuberSpread), mean * (1 + meanTuberSpread)}
	return band, band.check()
}

// rawDensity is a raw tuber's, in g/mm³ (1080 kg/m³, memory).
const rawDensity = 1080e-6

// meanDiameterMM is how thick a tuber of the crop's usual length is that weighs
// so many grams.
func meanDiameterMM(crop Crop, grams float64) float64 {
	volume := grams / rawDensity
	if crop.Stick {
		return math.Cbrt(4 * volume / (math.Pi * crop.Length))
	}
	return 2 * math.Cbrt(3*volume/(4*math.Pi*crop.Length*or(crop.Thickness, 1)))
}

// ThicknessMM is about how thick a tuber or root is that weighs so many grams,
// to the mm that a cook would measure.
func ThicknessMM(crop Crop, grams float64) float64 { return math.Round(meanDiameterMM(crop, grams)) }

// plan settles the common time and the rules of every band, in that order.
func (p *cutPlanner) plan() (CutPlan, error) {
	edge, s := p.cube()
	f, t := p.baseRun, p.baseTime
	if s.body != p.base.body {
		f = s.run(shells)
		t = timing{f.last().cooked(s.target, s.crop.Z), f.freeS}
	}
	h := f.last()
	if !t.done {
		return CutPlan{}, ErrNotDone
	}
	if t.freeFirst() {
		p.fullS = t.freeS
	}
	plan := CutPlan{ComeUp: p.fullS / 60, FreeFirst: t.freeFirst(), PieceMM: edge}
	p.sensitivity = s.sensitivity(h, t)
	plan.Minutes, plan.Low, plan.High = s.outlook(h, t, firmingOf(h), p.around)
	var err error
	if plan.Rules, plan.Quick, err = p.rules(); err != nil {
		return CutPlan{}, err
	}
	if !p.wish.pieces() {
		plan.dice()
		plan.Close = p.close()
	}
	plan.Evenness, plan.QuickEven = p.evenness(plan.Rules), p.evenness(plan.Quick)
	plan.Low *= 1 - plan.Early/100
	plan.High *= 1 + plan.Late/100
	plan.tellMisses(p.wish)
	plan.note(p.wish)
	return plan, nil
}

// rules are those of every band, joined; quick are the same by halving alone,
// where the wish compares with it.
func (p *cutPlanner) rules() (rules, quick []CutRule, err error) {
	for _, band := range p.bands {
		var halved []CutRule
		if !p.wish.wholeOnly() {
			halved = p.halving(band)
		}
		if p.wish.Cut.Shape == Cube && !p.wish.Sparing {
			quick = append(quick, halved...)
		}
		if p.wish.pieces() {
			if halved, err = p.cutting(band); err != nil {
				return nil, nil, err
			}
		}
		rules = append(rules, halved...)
	}
	return merged(rules), merged(quick), nil
}

// dice gives tubers whose eighths would still be late by more than a tenth the
// cube that takes the common time, to the whole mm that a knife can keep to.
func (p *CutPlan) dice() {
	for i, rule := range p.Rules {
		if rule.Cut.Shape == Eighths && rule.Longest-p.Minutes > evenWithin*(p.ComeUp+p.Minutes) {
			p.Rules[i].Cut = Cut{Shape: Cube, SizeMM: math.Round(p.PieceMM)}
			p.Rules[i].Shortest, p.Rules[i].Longest = p.Minutes, p.Minutes
		}
	}
}

// tellMisses turns the evenness into minutes, and into the cube that would mend
// it.
func (p *CutPlan) tellMisses(wish Wish) {
	miss := func(percent float64) float64 {
		if minutes := (p.ComeUp + p.Minutes) * percent / 100; minutes >= leastMiss {
			return minutes
		}
		return 0
	}
	p.EarlyMinutes, p.LateMinutes = miss(p.Early), miss(p.Late)
	if !p.Even && !wish.pieces() && p.PieceMM >= smallestDiceMM && p.PieceMM <= largestDiceMM {
		p.DiceMM = math.Round(p.PieceMM)
	}
}

// evenness compares the ends of rules with the goal.
func (p *cutPlanner) evenness(rules []CutRule) Evenness {
	goal := p.minutes(p.goal) + p.fullS/60
	var e Evenness
	for _, r := range rules {
		e.Early = max(e.Early, (1-(r.Shortest+p.fullS/60)/goal)*100)
		e.Late = max(e.Late, ((r.Longest+p.fullS/60)/goal-1)*100)
	}
	e.Even = e.Early <= evenWithin*100+0.01 && e.Late <= evenWithin*100+0.01
	return e
}

func (p *CutPlan) note(wish Wish) {
	switch {
	case p.Even:
	case !wish.pieces() && len(p.Rules) == 1:
		p.Notes = append(p.Notes, fmt.Sprintf("the sizes alone spread the times from -%.0f to +%.0f %%: take the small ones out first", p.Early, p.Late))
	case !wish.pieces():
		p.Notes = append(p.Notes, fmt.Sprintf("these cuts come no nearer than -%.0f to +%.0f %%; for more even pieces cut those in between to %.0f mm", p.Early, p.Late, p.PieceMM))
	case p.Late > p.Early:
		p.Notes = append(p.Notes, fmt.Sprintf("the last end %.0f %% late: test those", p.Late))
	default:
		p.Notes = append(p.Notes, fmt.Sprintf("the smallest are done %.0f %% early: they are softer than the rest", p.Early))
	}
}

// merged joins the rules of neighbouring classes, smallest first.
func merged(rules []CutRule) []CutRule {
	slices.SortStableFunc(rules, func(a, b CutRule) int {
		return cmp.Or(cmp.Compare(a.FromMM, b.FromMM), cmp.Compare(a.ToMM, b.ToMM))
	})
	var out []CutRule
	for _, r := range rules {
		if n := len(out) - 1; n >= 0 && out[n].Cut == r.Cut {
			out[n].ToMM = max(out[n].ToMM, r.ToMM)
			out[n].Shortest, out[n].Longest = min(out[n].Shortest, r.Shortest), max(out[n].Longest, r.Longest)
			continue
		}
		out = append(out, r)
	}
	return out
}
