package heat

import "math"

// Moment is a piece's temperatures at a time from loading.
type Moment struct{ Minutes, CentreC, SurfaceC float64 }

// Curve is how a piece heats, from loading to a little past the time it may
// take at most. FullFlow and the estimate's times place the clock on it.
type Curve struct {
	Estimate Estimate
	FullFlow float64 // minutes from loading
	Moments  []Moment
}

// Trace follows the centre and the surface of a piece at nominal parameters.
func Trace(crop Crop, cut Cut, until Doneness, c Conditions) (Curve, error) {
	e, err := Steam(crop, cut, until, c)
	if err != nil {
		return Curve{}, err
	}
	s, err := newSituation(crop, cut, until, c.filled())
	if err != nil {
		return Curve{}, err
	}
	curve := Curve{Estimate: e, FullFlow: e.ComeUp}
	shift := 0.0
	if c.Heaped { // the last pieces heat only once the flow is full
		s, shift = s.heaped(), e.ComeUp
		curve.Moments = append(curve.Moments, Moment{0, s.start, s.start})
	}
	length := 1.1 * (e.ComeUp + math.Max(e.High, e.Minutes))
	var m mesh
	h := s.heating(&m)
	h.watchS = (length - shift) * 60
	const pace = 240.0 // moments in a curve, about
	next := 0.0
	h.watch = func(seconds, centreC, surfaceC float64) {
		if seconds >= next {
			curve.Moments = append(curve.Moments, Moment{shift + seconds/60, centreC, surfaceC})
			next = seconds + h.watchS/pace
		}
	}
	curve.Moments = append(curve.Moments, Moment{shift, s.start, s.start})
	h.run()
	return curve, nil
}
