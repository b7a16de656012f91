package heat

import (
	"fmt"
	"trencher/units"
)

// Conditions are what surrounds the pieces. The zero value stands for the
// defaults: 500 g in one layer, 700 W net, 15 °C, sea level.
type Conditions struct {
	StartC    *float64 // °C before steaming; nil = 15
	AltitudeM float64
	LoadGrams float64 // in the steamer at once; 0 = 500
	NetPowerW float64 // heat that becomes steam, losses off; 0 = 700
	BasketMM  float64 // diameter of the basket they lie in; 0 = 240
	Tiers     int     // that a load with more than a layer may be spread over; 0 = 1
	Heaped    bool    // more than a layer and a half in a tier
	Learned   Learned // what knife tests in this kitchen have shown; zero = none
	Planning  bool    // for a plan, which does not ask how a time goes with the size: no [Estimate.PerMM]
}

// Defaults of Conditions.
const (
	DefaultStartC    = 15.0
	DefaultLoadGrams = 500.0
	DefaultNetPowerW = 700.0
)

func (c Conditions) startC() float64 {
	if c.StartC == nil {
		return DefaultStartC
	}
	return *c.StartC
}

func (c Conditions) filled() Conditions {
	c.LoadGrams = or(c.LoadGrams, DefaultLoadGrams)
	c.NetPowerW = or(c.NetPowerW, DefaultNetPowerW)
	return c
}

// Heights above the sea, in metres, that are reckoned with: from the deepest shore to
// above the highest town.
const (
	LowestM  = -430
	HighestM = 5500
)

// check refuses what cannot be; what can be but lies outside the model's range
// is told by Estimate.Outside instead.
func (c Conditions) check() error {
	if start := c.startC(); start < 0 {
		return &units.FieldError{Field: "start", Value: fmt.Sprintf("%g °C", start),
			Problem: "frozen pieces are not reckoned: what melts in them takes heat of its own", Accepted: "0 to 60 °C: thaw them first"}
	}
	for _, one := range []struct {
		what             string
		value, low, high float64
		unit             string
	}{
		{"start", c.startC(), 0, 60, "°C"},
		{"altitude", c.AltitudeM, LowestM, HighestM, "m"},
		{"load", c.LoadGrams, 1, 20000, "g"},
		{"net power", c.NetPowerW, 50, 10000, "W"},
	} {
		if err := within(one.what, one.value, one.low, one.high, one.unit); err != nil {
			return err
		}
	}
	return nil
}
