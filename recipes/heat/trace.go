package heat

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
	h := s.run(shells).last()
	const moments = 240
	length := 1.1 * 60 * e.FromLoadingHigh
	for i := range moments + 1 {
		k := h.at(length * float64(i) / moments)
		curve.Moments = append(curve.Moments, Moment{k.seconds / 60, k.centre, k.surface})
	}
	return curve, nil
}
