package heat

import (
	"fmt"

	"trencher/units"
)

// ColdBox is an insulated box with ice in it.
type ColdBox struct {
	IceG   float64 // when it is packed
	HoldsC float64 // how cold it stays while there is ice
}

// Lasts is how many minutes the ice holds a box in air of so many °C, after it
// has brought food of a weight and a temperature down to what the box holds;
// +Inf where the air is no warmer than that.
func (b ColdBox) Lasts(grams, foodC, airC float64) float64 {
	melts := b.IceG / 1e3 * (iceMeltsJkg + waterHeat*max(0, b.HoldsC))
	left := melts - grams/1e3*bedHeat*max(0, foodC-b.HoldsC)
	switch {
	case left <= 0:
		return 0
	case airC <= b.HoldsC:
		return never
	}
	return left / (boxLeakWK * (airC - b.HoldsC)) / 60
}

// Reason says what that rests on.
func (b ColdBox) Reason(minutes, airC float64) units.Reason {
	value := fmt.Sprintf("%.0f g of ice hold it at %g °C in air of %g °C for %s", b.IceG, b.HoldsC, airC, hours(minutes))
	return units.Why("cold box", value, fmt.Sprintf("heat balance: ice melts at %g kJ/kg, a box of 25 to 30 l lets %g W/K through; %s", iceMeltsJkg/1e3, boxLeakWK, units.NoSource), "computed; practice")
}
