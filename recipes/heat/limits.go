package heat

import "fmt"

// The range in which the model has been checked.
const (
	rangeSmallMM, rangeLargeMM = 8.0, 90.0
	rangeWarmC                 = 40.0
	rangeHighM                 = 3000.0
	rangeLong                  = 2.5
	rangeLightG, rangeHeavyG   = 50.0, 3000.0
	rangeWeakW, rangeStrongW   = 150.0, 3000.0
	rangeComeUp                = 20.0
)

// characteristicMM is the one number of a cut: an edge, a thickness, a tuber's
// diameter.
func characteristicMM(cut Cut) float64 {
	if cut.Sides[0] > 0 {
		return min(cut.Sides[0], cut.Sides[1], cut.Sides[2])
	}
	return cut.SizeMM
}

// rangeMM is the size the checked range is about; for a tuber in parts twice
// the radius of a part's body.
func rangeMM(cut Cut, body Body) float64 {
	if cut.Shape.OfTuber() && cut.Shape != Whole {
		return 2e3 * body.RadiusM
	}
	return characteristicMM(cut)
}

// outside says what lies outside the checked range, and by how much.
func (s situation) outside(cut Cut, c Conditions, e Estimate) []string {
	var out []string
	say := func(when bool, format string, values ...any) {
		if when {
			out = append(out, fmt.Sprintf(format, values...))
		}
	}
	size := rangeMM(cut, s.body)
	say(size < rangeSmallMM, "%.1f mm is %.1f mm under the %g mm checked: a matter of minutes only, watch it", size, rangeSmallMM-size, rangeSmallMM)
	say(size > rangeLargeMM, "%.0f mm is %.0f mm over the %g mm checked: cut it, its outside overcooks before the middle is done", size, size-rangeLargeMM, rangeLargeMM)
	say(s.start > rangeWarmC, "a start of %.0f °C is %.0f °C over the %g °C checked", s.start, s.start-rangeWarmC, rangeWarmC)
	say(c.AltitudeM > rangeHighM, "%.0f m is %.0f m over the %g m checked: a pressure steamer is advised", c.AltitudeM, c.AltitudeM-rangeHighM, rangeHighM)
	say(c.LoadGrams < rangeLightG, "a load of %.0f g is under the %g g checked", c.LoadGrams, rangeLightG)
	say(c.LoadGrams > rangeHeavyG, "a load of %.0f g is %.0f g over the %g g checked", c.LoadGrams, c.LoadGrams-rangeHeavyG, rangeHeavyG)
	say(c.NetPowerW < rangeWeakW, "%.0f W of steam is %.0f W under the %g W checked", c.NetPowerW, rangeWeakW-c.NetPowerW, rangeWeakW)
	say(c.NetPowerW > rangeStrongW, "%.0f W of steam is %.0f W over the %g W checked", c.NetPowerW, c.NetPowerW-rangeStrongW, rangeStrongW)
	say(!e.FreeFirst && e.FromLoading > rangeComeUp, "no steam flows freely in the %.0f minutes they take: the stove is too small for this load, split it", e.FromLoading)
	say(e.ComeUp > rangeComeUp, "steam flows freely only after %.0f minutes, %.0f over the %g checked: the stove is too small for this load, split it", e.ComeUp, e.ComeUp-rangeComeUp, rangeComeUp)
	if sides := cut.Sides; sides[0] > 0 && cut.Shape.OfTuber() {
		long := max(sides[0], sides[1], sides[2]) / min(sides[0], sides[1], sides[2])
		say(long > rangeLong, "%.1f times as long as thick is over the %g checked", long, rangeLong)
	}
	return out
}

// notes say what else to mind.
func notes(crop Crop, e Estimate) []string {
	var notes []string
	if !crop.Calibrated {
		notes = append(notes, "the doneness of "+crop.Title()+" is a judgement, not set on any times: trust the knife")
	}
	if crop.Kind == "floury" {
		notes = append(notes, "floury tubers fall apart near tender: stop early, and take waxy ones for a salad")
	}
	if !e.FreeFirst {
		notes = append(notes, "done before steam flows freely: its time counts from when they go in")
	}
	if e.Firming.Slow {
		notes = append(notes, fmt.Sprintf("they warm slowly, %.0f minutes from %g to %g °C, which firms them first: it may take longer than reckoned", e.Firming.Minutes, firmsFromC, firmsToC))
	}
	return notes
}
