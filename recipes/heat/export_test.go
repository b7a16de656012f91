package heat

import "math"

// After is how warm the centre is after some minutes, in °C, that was that warm all
// through when it came.
func (c Chilling) After(fromC, minutes float64) float64 {
	around := c.around(fromC)
	var celsius float64
	if c.heap != nil {
		celsius = around + (fromC-around)*min(1, c.heap.centre(c.heapFilm())(minutes*60))
	} else {
		b := c.bath(fromC, around)
		celsius = b.after(minutes * 60)
	}
	return max(celsius, c.iceLeavesC(fromC, minutes))
}

// after is how warm the centre is after so many seconds, by the same exponential.
func (b *bath) after(seconds float64) float64 {
	before, now := b.last(), b.last()
	for now.seconds < seconds {
		b.advance()
		before, now = now, b.last()
	}
	if now.seconds == before.seconds || before.centre == b.aroundC {
		return now.centre
	}
	share := (seconds - before.seconds) / (now.seconds - before.seconds)
	return b.aroundC + (before.centre-b.aroundC)*math.Pow((now.centre-b.aroundC)/(before.centre-b.aroundC), share)
}

// PrintedTimes lists every row of the printed tables.
func PrintedTimes() []Printed { return append([]Printed(nil), printedTimes...) }

// modelled says whether the model can speak about a row: fresh, boiled or steamed,
// one body's shape, and no textbook of a hundred years ago.
func (p Printed) modelled() bool {
	return (p.Way == WayBoil || p.Way == WaySteam) && p.Shape != 0 && !p.old
}
