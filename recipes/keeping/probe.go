package keeping

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// Probe is a thermometer reading in the middle of the food, in °C.
type Probe struct {
	At time.Time
	C  float64
}

// Stages are a two-stage cooling rule: from From to FirstTo within First, and
// on to ThenTo within All of the start or Further of having reached FirstTo.
// The zero Stages is no rule.
type Stages struct {
	From, FirstTo, ThenTo float64 // °C
	First, All, Further   time.Duration
	Rule                  string
}

// probedTooWarm judges the cooling of what is in the fridge by its probe
// readings. They can only condemn: a good reading gives no more time than the
// clock does.
func (j *judging) probedTooWarm() {
	readings := j.coolingReadings()
	for _, s := range j.limits.Stages {
		if late, ok := s.broken(j.start, readings); ok {
			j.condemn(late.deadline, fmt.Sprintf("By the probe it was still at %s at %s; %s was to be reached by %s.",
				degrees(late.C), j.at(late.At), degrees(late.target), j.at(late.deadline)), []string{s.Rule, "haz-perfringens"})
		}
	}
}

// coolingReadings are the readings of the first cooling, in order: before it
// was frozen and before it came out of the fridge again.
func (j *judging) coolingReadings() []Probe {
	var readings []Probe
	for _, p := range j.Probes {
		later := !j.FrozenAt.IsZero() && p.At.After(j.FrozenAt)
		for _, s := range j.Out {
			later = later || p.At.After(s.From)
		}
		for _, cut := range merged(j.PowerOff) { // such a reading is the cut's
			later = later || !j.chilled.IsZero() && !cut.From.Before(j.chilled) && p.At.After(cut.From) &&
				(cut.To.IsZero() || !p.At.After(cut.To.Add(j.limits.PowerReading.Most)))
		}
		if !later && !p.At.Before(j.start) {
			readings = append(readings, p)
		}
	}
	slices.SortStableFunc(readings, func(a, b Probe) int { return a.At.Compare(b.At) })
	return readings
}

// overdue is a reading that shows a stage not reached in time.
type overdue struct {
	Probe
	target   float64
	deadline time.Time
}

// broken finds the first reading that shows the rule broken. The stages start
// with the last reading still at From or above, else with the cooling.
func (s Stages) broken(start time.Time, readings []Probe) (overdue, bool) {
	start = s.starts(start, readings)
	var reached time.Time
	for _, p := range readings {
		if p.C > s.FirstTo {
			if by := start.Add(s.First); !p.At.Before(by) {
				return overdue{p, s.FirstTo, by}, true
			}
			continue
		}
		if reached.IsZero() {
			reached = p.At
		}
		if by := s.coldBy(start, reached); p.C > s.ThenTo && !p.At.Before(by) {
			return overdue{p, s.ThenTo, by}, true
		}
	}
	return overdue{}, false
}

func (s Stages) starts(start time.Time, readings []Probe) time.Time {
	for _, p := range readings {
		if p.C >= s.From {
			start = p.At
		}
	}
	return start
}

// coldBy is the end of the second stage. Where it is counted from the first,
// the earlier of that and of both stages at full length holds.
func (s Stages) coldBy(start, reached time.Time) time.Time {
	by := start.Add(s.All)
	if s.Further > 0 && reached.Add(s.Further).Before(by) {
		by = reached.Add(s.Further)
	}
	return by
}

// foresee reckons from the last two readings whether the first stage will be
// reached in time: most cooling curves are straight on a logarithmic scale
// (cool-two-point).
func (j *judging) foresee() {
	readings := j.coolingReadings()
	if len(readings) < 2 {
		return
	}
	a, b := readings[len(readings)-2], readings[len(readings)-1]
	around, known := j.around(a, b)
	if !known {
		return
	}
	for _, s := range j.limits.Stages {
		at, ok := coolTo(s.FirstTo, a, b, around)
		by := s.starts(j.start, readings).Add(s.First)
		if b.C > s.FirstTo && (!ok || at.After(by)) {
			j.warn(fmt.Sprintf("At this rate it is not at %s by %s; spread it out, or stand the dish in cold water.",
				degrees(s.FirstTo), j.at(by)), "cool-two-point", s.Rule, "cool-ice-bath")
			return
		}
	}
}

// coolTo is the moment at which food with these two readings comes to a
// target; ok is false when it never does.
func coolTo(target float64, a, b Probe, around float64) (at time.Time, ok bool) {
	rate := coolingRate(a, b, around)
	if rate <= 0 || target <= around {
		return time.Time{}, false
	}
	const longest = 1000 // hours
	hours := math.Log10((b.C-around)/(target-around)) / rate
	return b.At.Add(time.Duration(min(hours, longest) * float64(time.Hour))), true
}

// around is the temperature round the food at both readings: the fridge's, or
// the air's before that.
func (j *judging) around(a, b Probe) (c float64, known bool) {
	switch {
	case !j.chilled.IsZero() && !a.At.Before(j.chilled):
		return j.Fridge.C, j.Fridge.Known
	case j.chilled.IsZero() || !b.At.After(j.chilled):
		return j.Air.C, j.Air.Known
	}
	return 0, false
}

// coolingRate is k = (log10(T1-Ta) - log10(T2-Ta)) / hours of the rule
// cool-two-point, per hour; 0 where the readings show no cooling towards Ta.
func coolingRate(a, b Probe, around float64) float64 {
	hours := b.At.Sub(a.At).Hours()
	if hours <= 0 || b.C <= around || a.C <= b.C {
		return 0
	}
	return math.Log10((a.C-around)/(b.C-around)) / hours
}
