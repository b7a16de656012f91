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
	Minutes, Low, High float64 // from steam at full flow: one clock for all
	ComeUp             float64
	PieceMM            float64   // edge of the cube that takes that long
	Rules              []CutRule // over all sizes present, smallest first
	Evenness
	// Quick is the plan by halving alone, for a wish of cubes that is not
	// Sparing: less work, less even. QuickEven is how even.
	Quick     []CutRule
	QuickEven Evenness
	// Close are the sizes at which whole, halves, quarters and eighths each end
	// within a tenth of Minutes: sort by them to have it even. nil for a wish of
	// pieces.
	Close []CutRule
	// Classes holds, for each class asked, the rules for its sizes.
	Classes []ClassCut
	Notes   []string
}

// ClassCut is one size class with the rules for its sizes.
type ClassCut struct {
	Class SizeClass
	Rules []CutRule
}

// evenWithin is how near to the common time counts as together.
const evenWithin = 0.10

// PlanCuts says how to cut each size so that all pieces end together, within a
// tenth or as near as the cuts come. With a wish of cubes, slices, batons or
// boxes small tubers stay whole and the others get that cut; with any other,
// they are left whole, halved, quartered or cut in eighths.
func PlanCuts(crop Crop, classes []SizeClass, wish Wish, c Conditions) (CutPlan, error) {
	bands, err := Bands(crop, classes)
	if err != nil {
		return CutPlan{}, err
	}
	p := cutPlanner{crop: crop, wish: wish, bands: bands, learned: c.Learned}
	if err := p.reckon(c.filled()); err != nil {
		return CutPlan{}, err
	}
	if err := p.setGoal(); err != nil {
		return CutPlan{}, err
	}
	return p.plan(classes)
}

// Bands gives each class its sizes; a class known by count and weight those of
// its mean tuber, a tenth either way.
func Bands(crop Crop, classes []SizeClass) ([]Sizes, error) {
	if len(classes) == 0 {
		return nil, &units.FieldError{Field: "sizes", Problem: "none given", Accepted: "at least one size class, as 20-45 mm"}
	}
	bands := make([]Sizes, len(classes))
	for i, class := range classes {
		bands[i] = Sizes{class.LowMM, class.HighMM}
		if bands[i] == (Sizes{}) {
			if class.Count <= 0 || !(class.Grams > 0) {
				return nil, &units.FieldError{Field: "sizes", Value: fmt.Sprintf("class %d", i+1), Problem: "neither sizes nor count and weight", Accepted: "20-45 mm, or a count and a weight"}
			}
			mean := MeanDiameterMM(crop, class.Grams/float64(class.Count))
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

// MeanDiameterMM is how thick a tuber of the crop's usual length is that weighs
// so many grams.
func MeanDiameterMM(crop Crop, grams float64) float64 {
	volume := grams / rawDensity
	if crop.Stick {
		return math.Cbrt(4 * volume / (math.Pi * crop.Length))
	}
	return 2 * math.Cbrt(3*volume/(4*math.Pi*crop.Length*or(crop.Thickness, 1)))
}

func (p *cutPlanner) plan(classes []SizeClass) (CutPlan, error) {
	edge, middle, low, high, err := p.cube()
	if err != nil {
		return CutPlan{}, err
	}
	p.fullS = middle.fullS
	plan := CutPlan{ComeUp: p.fullS / 60, PieceMM: edge}
	plan.Minutes, plan.Low, plan.High = p.learned.band(middle.minutes(), low.minutes(), high.minutes())
	var quick []CutRule
	for i, band := range p.bands {
		var rules []CutRule
		if !p.wish.wholeOnly() {
			rules = p.halving(band)
		}
		if p.wish.Cut.Shape == Cube && !p.wish.Sparing {
			quick = append(quick, rules...)
		}
		if p.wish.pieces() {
			rules, err = p.cutting(band)
		}
		if err != nil {
			return CutPlan{}, err
		}
		plan.Classes = append(plan.Classes, ClassCut{classes[i], rules})
		plan.Rules = append(plan.Rules, rules...)
	}
	plan.Rules, plan.Quick = merged(plan.Rules), merged(quick)
	plan.Evenness, plan.QuickEven = p.evenness(plan.Rules), p.evenness(plan.Quick)
	if !p.wish.pieces() {
		plan.Close = p.close()
	}
	plan.Low *= 1 - plan.Early/100
	plan.High *= 1 + plan.Late/100
	plan.note(p.wish)
	return plan, nil
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
		p.Notes = append(p.Notes, fmt.Sprintf("whole, halves, quarters and eighths come no nearer than -%.0f to +%.0f %%; for more even pieces cut those in between to %.0f mm", p.Early, p.Late, p.PieceMM))
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
