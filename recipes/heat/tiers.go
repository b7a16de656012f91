package heat

import (
	"fmt"
	"math"
	"slices"

	"trencher/units"
)

// TierLoad is what lies on one tier of the steamer.
type TierLoad struct {
	Crop  Crop
	Cut   Cut // of one size
	Until Doneness
	Grams float64
	// Learned is what knife tests have shown of the crop; zero = as the conditions
	// have it.
	Learned Learned
}

// Tiers are the tiers of one filling. Steam comes to the lowest first; what that
// leaves goes on.
type Tiers struct {
	// Estimates are each tier's times, the lowest first. Their Minutes count from
	// when steam flows freely out of the uppermost.
	Estimates []Estimate
	// Better is the order in which the tiers would be done sooner, lowest first, by
	// their places now; nil where no other order gains a minute. The longest go
	// below. Only [ArrangeTiers] looks for it.
	Better []int
	// SwapAt is how many minutes after loading the lowest and the uppermost tier are
	// to change places so that both end together; 0 where no swap does that, or none
	// is worth it. Only [ArrangeTiers] looks for it.
	SwapAt float64
}

// passesBy is the share of the steam that passes a tier by, through gaps and along
// its rim, where there are several (judgement; 0 to 0.4).
const passesBy = 0.2

// The least that an advice gains, in minutes: an order decided before loading, and
// hot tiers that change places, which lets steam out and may burn (judgement).
const (
	worthMinutes  = 1.0
	worthSwapping = 2.0
)

// SteamTiers estimates what lies on each tier of a filling, the lowest first, with
// all of it in the steamer at once. The conditions' load is not used. Its errors
// are those of [Steam].
func SteamTiers(tiers []TierLoad, c Conditions) (Tiers, error) {
	f, err := newTiered(tiers, c)
	if err != nil {
		return Tiers{}, err
	}
	_, out, err := f.estimate()
	return out, err
}

// ArrangeTiers is [SteamTiers] with what would make the filling end sooner, or
// together.
func ArrangeTiers(tiers []TierLoad, c Conditions) (Tiers, error) {
	f, err := newTiered(tiers, c)
	if err != nil {
		return Tiers{}, err
	}
	run, out, err := f.estimate()
	if err != nil || len(tiers) < 2 {
		return out, err
	}
	each, last := f.done(run)
	out.Better = f.better(last)
	out.SwapAt = f.swap(each)
	return out, nil
}

// estimate runs the filling as it lies.
func (f tiered) estimate() (*tieredRun, Tiers, error) {
	out := Tiers{Estimates: make([]Estimate, len(f.loads))}
	run := f.run(nil, never)
	for i, tier := range f.loads {
		around := f.conditions
		if tier.Learned.Tests > 0 {
			around.Learned = tier.Learned
		}
		var err error
		if out.Estimates[i], err = f.situations[i].estimate(tier.Cut, tier.Until, run.last(i), &run.freeS, around); err != nil {
			return nil, Tiers{}, err
		}
	}
	return run, out, nil
}

// tiered is a filling of several tiers before it is run.
type tiered struct {
	loads      []TierLoad
	situations []situation
	conditions Conditions
}

func newTiered(tiers []TierLoad, c Conditions) (tiered, error) {
	f := tiered{loads: tiers, conditions: c.filled()}
	if len(tiers) == 0 {
		return f, units.WrongField("load", "", "no tier holds anything", "at least one")
	}
	for _, tier := range tiers {
		alone := f.conditions
		alone.LoadGrams = tier.Grams
		s, err := newSituation(tier.Crop, tier.Cut, tier.Until, alone)
		if err != nil {
			return f, err
		}
		f.situations = append(f.situations, s)
		f.conditions.LoadGrams = max(f.conditions.LoadGrams, tier.Grams)
	}
	return f, nil
}

// tieredRun is a filling of several tiers on its way.
type tieredRun struct {
	steamer
	lasts []*history // of each load, by its place in the question
}

func (r *tieredRun) last(load int) *history { return r.lasts[load] }

// run heats the filling, its loads in an order from the lowest tier up, nil for
// that of the question; the lowest and the uppermost change places after swapS.
func (f tiered) run(order []int, swapS float64) *tieredRun {
	return f.start(order, swapS, f.bypass())
}

// bypass is the share of the steam that passes by a tier's side.
func (f tiered) bypass() float64 {
	if len(f.loads) == 1 {
		return 0
	}
	return passesBy
}

// start is run with a bypass of its own.
func (f tiered) start(order []int, swapS, bypass float64) *tieredRun {
	r := new(tieredRun)
	f.begin(r, order, swapS, bypass)
	return r
}

// begin is start in the room of a run that nobody uses any more.
func (f tiered) begin(r *tieredRun, order []int, swapS, bypass float64) {
	var spare []*layer
	for _, t := range r.tiers {
		spare = append(spare, t.layers...)
	}
	*r = tieredRun{lasts: make([]*history, len(f.loads))}
	r.swapS, r.powerW = swapS, f.conditions.NetPowerW
	for place := range f.loads {
		load := place
		if order != nil {
			load = order[place]
		}
		s := f.situations[load]
		t := tier{bypass: bypass}
		area := f.loads[load].Grams / 1e3 / s.props.Density * s.body.AreaM2 / s.body.VolumeM3 / float64(s.layers)
		for range s.layers {
			l := new(layer)
			if len(spare) > 0 {
				l, spare = spare[0], spare[1:]
				*l = layer{history: history{knots: l.knots}}
			}
			l.begin(s.body, s.props, shells, s.film, area/s.body.AreaMore, s.start)
			t.layers = append(t.layers, l)
		}
		r.tiers = append(r.tiers, t)
		r.lasts[load] = &t.layers[s.layers-1].history
		r.steamC = s.steam
	}
	r.start()
}

// seconds are when each load is done, and when the last is.
func (f tiered) seconds(order []int, swapS float64) (each []float64, last float64) {
	return f.done(f.run(order, swapS))
}

// done is seconds of a run.
func (f tiered) done(r *tieredRun) (each []float64, last float64) {
	for i, s := range f.situations {
		done := r.last(i).cooked(s.target, s.crop.Z).seconds
		each = append(each, done)
		last = max(last, done)
	}
	return each, last
}

// better is the order with the longest below, where it gains something on one that is
// done after so many seconds.
func (f tiered) better(now float64) []int {
	alone := make([]float64, len(f.loads))
	order := make([]int, len(f.loads))
	for i, s := range f.situations {
		order[i] = i
		s.areaW = never
		alone[i] = s.time().seconds
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case alone[a] > alone[b]:
			return -1
		case alone[a] < alone[b]:
			return 1
		}
		return 0
	})
	if slices.IsSorted(order) {
		return nil
	}
	if _, then := f.seconds(order, never); now-then >= worthMinutes*60 {
		return order
	}
	return nil
}

// swap finds when the lowest and the uppermost tier are to change places for both to
// end together, instead of each after so many seconds.
func (f tiered) swap(each []float64) float64 {
	top := len(f.loads) - 1
	if each[top]-each[0] < worthSwapping*60 {
		return 0
	}
	r := new(tieredRun)
	late := func(swapS float64) float64 { // by how much the uppermost is later
		f.begin(r, nil, swapS, f.bypass())
		each, _ := f.done(r)
		return each[top] - each[0]
	}
	const soonest, alike = 1.0, 1.0 // s
	low, high := soonest, each[0]
	below, above := late(low), each[top]-each[0] // the sooner it comes down, the sooner it ends
	if below > 0 {
		return 0
	}
	// False position; the end that stays weighs half as much each time (the Illinois rule).
	at, stayed := low, 0
	for high-low > alike {
		at = low + (high-low)*below/(below-above)
		miss := late(at)
		switch {
		case math.Abs(miss) < alike:
			return at / 60
		case miss > 0:
			if high, above = at, miss; stayed > 0 {
				below /= 2
			}
			stayed = 1
		default:
			if low, below = at, miss; stayed < 0 {
				above /= 2
			}
			stayed = -1
		}
	}
	return at / 60
}

// String names a load: "500 g potato (waxy), cube 25 mm".
func (t TierLoad) String() string {
	return fmt.Sprintf("%.0f g %s, %s", t.Grams, t.Crop.Title(), t.Cut)
}
