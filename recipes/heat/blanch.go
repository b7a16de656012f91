package heat

import (
	"fmt"
	"math"

	"trencher/units"
)

// Blanched says how a crop is blanched for the freezer, in boiling water and then in
// ice water.
type Blanched struct {
	Crop Crop
	Cut  Cut
	// Minutes from when the water boils again: the longer of what is printed and what
	// the middle needs; FromLoading from putting them in.
	Minutes, FromLoading float64
	// PrintedMinutes is the longest that is printed for such a piece, and Printed the
	// row; 0 and zero where none is. Needed is what the middle needs by the model.
	PrintedMinutes float64
	Printed        Printed
	Needed         float64
	BackToBoil     float64
	CentreC        float64 // when they come out
	LogReduction   float64 // of peroxidase at the centre, what goes on in the ice included
	CoolMinutes    float64 // in stirred ice water, to 10 °C in the middle
	IceG           float64
	WaterML        float64
	ToBoil         float64
	Fuel           string
	GasG           float64
	Grams          float64
	// LimitG is the load that this stove brings back to the boil within a minute.
	LimitG        float64
	Rounds        int
	GramsPerRound float64
	Notes         []string
}

// Rules of blanching: US extension services (Illinois, Michigan, Minnesota, Georgia,
// Utah): a gallon of water to the pound; back at the boil within a minute, or the load
// is too big; as long in ice water as in boiling, a pound of ice to the pound; a minute
// more from 1500 m up (known_by: read). Peroxidase: D 2.5 min at 80 °C, z 20 K, within
// the published spread (broccoli 1.6 min and 16.5 K: Goncalves et al. (2009), J. Agric.
// Food Chem. 57, abstract); nine tenths of it gone is enough.
const (
	blanchWaterPerG = 8.3
	backWithinS     = 60.0
	takenByThen     = 0.9 // of its heat, when the water boils again
	highFromM       = 1500.0
	highMinutes     = 1.0
	enzymeD80       = 2.5
	enzymeZ         = 20.0
	enoughLogs      = 1.0
	hotEnoughC      = 90.0
	iceC            = 0.5
	iceFilm         = 500.0
	cooledC         = 10.0
	iceMeltsJkg     = 334000.0
)

// logsPerMinute turns a cook value by enzymeZ into decimal reductions.
var logsPerMinute = math.Pow(10, (100-80)/enzymeZ) / enzymeD80

// Blanch says how a weight of a sized cut is blanched on this equipment, in loads
// that it can bring back to the boil.
func Blanch(crop Crop, cut Cut, grams float64, equipment Equipment, c Conditions) (Blanched, error) {
	stove, f, potML, err := equipment.potFire()
	if err != nil {
		return Blanched{}, err
	}
	if err := within("load", grams, 1, mostFillGrams, "g"); err != nil {
		return Blanched{}, err
	}
	c.NetPowerW = f.powerW
	s, err := newSituation(crop, cut, Tender, c.filled())
	if err != nil {
		return Blanched{}, err
	}
	s.layers = 1
	b := Blanched{Crop: crop, Cut: cut, Grams: grams, Fuel: stove.fuel.Name}
	net := f.powerW - f.lossWK*(s.steam-roomC)
	b.LimitG = net * backWithinS / (takenByThen * s.props.HeatCapacity * (s.steam - s.start)) * 1e3
	inPot := potFilled * potML / (blanchWaterPerG + pieceMLPerG)
	if net <= 0 {
		return Blanched{}, units.WrongField("stove", fmt.Sprintf("%g W", stove.PowerW), "does not keep the pot at the boil", "a stronger stove, or shelter it from the wind")
	}
	b.Rounds = max(1, wholes(grams/min(b.LimitG, inPot)))
	b.GramsPerRound = grams / float64(b.Rounds)
	b.WaterML = blanchWaterPerG * b.GramsPerRound
	if err := b.time(s, f, c); err != nil {
		return Blanched{}, err
	}
	b.IceG = grams / 1e3 * s.props.HeatCapacity * (s.steam - cooledC) / (iceMeltsJkg + waterHeat*cooledC) * 1e3
	b.ToBoil = (b.WaterML/1e3*waterHeat + f.panJK) * (s.steam - DefaultStartC) / (f.powerW - f.lossWK*(s.steam-roomC)/2) / 60
	b.GasG = stove.burns(b.ToBoil + float64(b.Rounds)*b.FromLoading)
	return b, nil
}

// time settles the minutes, and follows a piece into the ice.
func (b *Blanched) time(s situation, f fire, c Conditions) error {
	water := Water{ML: b.WaterML}
	p := s.boiling(b.GramsPerRound, water, f)
	p.cooked(1e-3, s.crop.Z) // until well past the come-up
	for !p.back() && p.seconds < longestS {
		p.advance()
	}
	if !p.back() {
		return units.WrongField("load", fmt.Sprintf("%.0f g", b.GramsPerRound), "never boils again on this stove", "a smaller load")
	}
	b.BackToBoil = p.backS / 60
	needS := min(p.warm(hotEnoughC), p.cooked(enoughLogs/logsPerMinute, enzymeZ).seconds)
	b.Needed = max(0, needS-p.backS) / 60
	b.Printed, b.PrintedMinutes = printedBlanching(b.Crop, b.Cut)
	if c.AltitudeM >= highFromM && b.PrintedMinutes > 0 {
		b.PrintedMinutes += highMinutes
		b.Notes = append(b.Notes, fmt.Sprintf("at %g m and over a minute is added to what is printed", highFromM))
	}
	b.Minutes = max(b.PrintedMinutes, b.Needed)
	b.FromLoading = b.BackToBoil + b.Minutes
	switch {
	case b.PrintedMinutes == 0:
		b.Notes = append(b.Notes, "no table read prints a time for such a piece: the time is what its middle needs by the model")
	case b.Needed > b.PrintedMinutes:
		b.Notes = append(b.Notes, fmt.Sprintf("the middle of such a piece needs longer than the %g min that are printed: cut it smaller if that makes it too soft", b.PrintedMinutes))
	}
	b.intoIce(s, f, water)
	return nil
}

// warm is when the centre first is as warm, in s.
func (h *history) warm(celsius float64) float64 {
	for i := 0; ; i++ {
		for i >= len(h.knots) {
			if h.over() {
				return longestS
			}
			h.course.advance()
		}
		if k := h.knots[i]; k.centre >= celsius && i > 0 {
			before := h.knots[i-1]
			return before.seconds + (k.seconds-before.seconds)*(celsius-before.centre)/(k.centre-before.centre)
		}
	}
}

// intoIce takes the piece from boiling into ice water.
func (b *Blanched) intoIce(s situation, f fire, water Water) {
	p := s.boiling(b.GramsPerRound, water, f)
	out := b.FromLoading * 60
	for p.seconds < out { // stays at the boil, however steady the centre
		p.advance()
	}
	b.CentreC = p.at(out).centre
	cold := newBath(s.body, s.props, iceFilm, s.start, iceC)
	cold.t = p.t
	cold.knots[0] = knot{0, p.centre(), p.outside(0)}
	b.CoolMinutes = cold.until(cooledC, longestS) / 60
	b.LogReduction = logsPerMinute * (p.gathered(0, out, enzymeZ, centreOf) + cold.gathered(0, cold.seconds, enzymeZ, centreOf))
}

// printedBlanching is the row with the longest minutes that is printed for a piece
// about as large, in water; counted from when it boils again, the stricter of the
// clocks in use.
func printedBlanching(crop Crop, cut Cut) (longest Printed, minutes float64) {
	rows := checkedRows(crop, cut, WayBlanchWater)
	mm := characteristicMM(cut)
	for _, near := range []bool{true, false} {
		for _, p := range rows {
			if near && !(mm >= p.SmallMM*0.9 && mm <= p.LargeMM*1.1 && p.Shape == cut.Shape) {
				continue
			}
			if p.High > minutes {
				longest, minutes = p, p.High
			}
		}
		if minutes > 0 {
			break
		}
	}
	return longest, minutes
}

// Reasons says what a blanching time rests on.
func (b Blanched) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("what the middle needs", fmt.Sprintf("%g °C, or %g decimal reduction of peroxidase (%g min at 80 °C, z %g K): %.1f min", hotEnoughC, enoughLogs, enzymeD80, enzymeZ, b.Needed),
			"within the published spread: broccoli 1.6 min and 16.5 K, Goncalves et al. (2009), J. Agric. Food Chem. 57, abstract", "read; judgement"),
		units.Why("water and load", fmt.Sprintf("%.1f l to the kg; %.0f g are back at the boil within a minute on this stove", blanchWaterPerG, b.LimitG),
			"US extension services: a gallon to the pound; over a minute to boil again, and the load is too big", "read"),
		units.Why("ice", fmt.Sprintf("%.0f g, to %g °C in the middle", b.IceG, cooledC), "heat balance; extension services: a kilogram to the kilogram", "computed; read"),
	}
	if b.PrintedMinutes > 0 {
		list = append(list, units.Reason{Figure: "printed", Value: fmt.Sprintf("%s, %s: %g min", b.Printed.Crop, b.Printed.Piece, b.Printed.High), Provenance: b.Printed.Provenance})
	}
	return list
}
