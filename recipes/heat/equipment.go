package heat

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"trencher/units"
)

// Equipment is the cook's steamer and stove. The zero value is a 240 mm basket
// in two tiers on a sheltered stove that leaves 700 W for steam.
type Equipment struct {
	DiameterMM float64 // of the basket; 0 = 240
	Tiers      int     // 0 = 2
	PowerW     float64 // what the stove takes in, by its plate; 0 = enough for 700 W of steam
	Fuel       string  // one of Fuels; "" = butane
	Windy      bool    // no shelter: less heat arrives, more is lost
	Efficiency float64 // share of the power that reaches the pan; 0 = as usual for the fuel
	PotML      float64 // what the pot for boiling holds; 0 = 3 l
	PanKg      float64 // steel; 0 = 0.8 kg at 240 mm, as the area goes
}

// Fuel is a row of the fuel table: what a stove burns.
type Fuel struct {
	Name       string
	MJPerKg    float64 // lower heating value; 0 = nothing is weighed
	Efficiency float64 // share of the input that reaches the pan, sheltered
	From       units.Provenance
}

// fuels is the fuel table; the first is what a stove burns when nobody says.
// Natural gas differs from place to place. Small stoves reach 30 to 65 %.
var fuels = []Fuel{
	{"butane", 45.7, 0.45, smallStove},
	{"propane", 46.3, 0.45, smallStove},
	{"natural gas", 47.1, 0.52, units.Provenance{
		Source: "lower heating value by engineering tables; EN 30-2-1, the least efficiency of a household gas hob", KnownBy: "memory",
	}},
	{"electric", 0, 0.70, units.Practice},
}

var smallStove = units.Provenance{
	Source: "lower heating value by engineering tables; a small stove's efficiency is common practice, no source", KnownBy: "memory; practice",
}

// FuelRows lists the fuel table.
func FuelRows() []Fuel { return slices.Clone(fuels) }

// Fuels lists the names of the fuels known.
func Fuels() []string {
	var names []string
	for _, f := range FuelRows() {
		names = append(names, f.Name)
	}
	return names
}

func (e Equipment) fuel() (Fuel, error) {
	name := strings.ToLower(strings.TrimSpace(e.Fuel))
	i := slices.IndexFunc(fuels, func(f Fuel) bool { return f.Name == name })
	switch {
	case name == "":
		return fuels[0], nil
	case i < 0:
		return Fuel{}, &units.FieldError{Field: "fuel", Value: e.Fuel, Problem: "not known", Accepted: strings.Join(Fuels(), ", ")}
	}
	return fuels[i], nil
}

// isGas says whether the fuel burns with a flame and is weighed.
func (f Fuel) isGas() bool { return f.MJPerKg > 0 }

// What a stove and a pan are taken to be. Lid and wall lose through still air;
// a wind doubles that, and lets less of a flame's heat arrive (practice).
const (
	defaultBasketMM = 240.0
	defaultTiers    = 2
	mostTiers       = 6
	defaultPanKg    = 0.8 // at the default basket, as the area goes
	windyEfficiency = 0.30
	windyLoss       = 2.0
	lossFilm        = 10.0 // W/(m² K)
	lossOverK       = 80.0 // of lid and wall over the air
	tierHeightM     = 0.07
	steelHeat       = 500.0  // J/(kg K)
	waterHeat       = 4186.0 // J/(kg K)
	leastNetW       = 50.0
)

// stove is equipment with its defaults filled in and its losses worked out.
type stove struct {
	Equipment
	fuel       Fuel
	efficiency float64
	lossW      float64 // lid and wall, at full steam: 120 W for 240 mm in two tiers, twice that in the wind
}

// netW is what becomes steam.
func (s stove) netW() float64 { return s.efficiency*s.PowerW - s.lossW }

func (e Equipment) stove() (stove, error) {
	f, err := e.fuel()
	if err != nil {
		return stove{}, err
	}
	e.DiameterMM = or(e.DiameterMM, defaultBasketMM)
	if e.Tiers == 0 {
		e.Tiers = defaultTiers
	}
	d := e.DiameterMM / 1e3
	e.PanKg = or(e.PanKg, defaultPanKg*math.Pow(e.DiameterMM/defaultBasketMM, 2))
	s := stove{Equipment: e, fuel: f, efficiency: f.Efficiency,
		lossW: lossFilm * lossOverK * (math.Pi/4*d*d + math.Pi*d*tierHeightM*float64(e.Tiers))}
	if e.Windy {
		s.lossW *= windyLoss
		if f.isGas() {
			s.efficiency = windyEfficiency
		}
	}
	s.efficiency = or(e.Efficiency, s.efficiency)
	if s.PowerW == 0 {
		s.PowerW = (DefaultNetPowerW + s.lossW) / s.efficiency
	}
	return s, s.check()
}

func (s stove) check() error {
	for _, err := range []error{
		within("steamer", s.DiameterMM, 100, 800, "mm"),
		within("steamer", float64(s.Tiers), 1, mostTiers, "tiers"),
		within("stove", s.PowerW, 200, 15000, "W"),
		within("pan", s.PanKg, 0.1, 20, "kg"),
		within("stove efficiency", s.efficiency, 0.05, 1, ""),
	} {
		if err != nil {
			return err
		}
	}
	if s.netW() < leastNetW {
		return &units.FieldError{Field: "stove", Value: fmt.Sprintf("%g W", s.PowerW),
			Problem:  fmt.Sprintf("makes no steam to speak of: %.0f W reach the pan, lid and walls lose %.0f W", s.efficiency*s.PowerW, s.lossW),
			Accepted: "a stronger stove or a smaller steamer, or shelter it from the wind"}
	}
	return nil
}

// In gives conditions what is this equipment's: its net power, basket and tiers. Its
// errors are those of [Equipment.NetPowerW].
func (e Equipment) In(c Conditions) (Conditions, error) {
	s, err := e.stove()
	c.NetPowerW, c.BasketMM, c.Tiers = s.netW(), s.DiameterMM, s.Tiers
	return c, err
}

// NetPowerW is the heat, in W, that becomes steam: what reaches the pan less
// what lid and walls lose. It is Conditions.NetPowerW for this equipment.
func (e Equipment) NetPowerW() (float64, error) {
	s, err := e.stove()
	return s.netW(), err
}
