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
	PanKg      float64 // steel; 0 = 0.8 kg at 240 mm, as the area goes
}

// fuel is what a stove burns.
type fuel struct {
	name            string
	heat            float64 // lower heating value, J/kg; 0 = nothing is weighed
	efficiency      float64 // share of the input that reaches the pan, sheltered
	source, knownBy string
}

// FuelRow is one row of the fuel table: its lower heating value in MJ/kg (0 for
// what is not weighed) and the share of the heat that reaches the pan.
type FuelRow struct {
	Name                string
	MJPerKg, Efficiency float64
	Source, KnownBy     string
}

// Natural gas differs from place to place. Small stoves reach 30 to 65 %.
var fuels = []fuel{
	{"butane", 45.7e6, 0.45, smallStove, "memory; practice"},
	{"propane", 46.3e6, 0.45, smallStove, "memory; practice"},
	{"natural gas", 47.1e6, 0.52, "lower heating value by engineering tables; EN 30-2-1, the least efficiency of a household gas hob", "memory"},
	{"electric", 0, 0.70, "common practice, no source", "practice"},
}

const smallStove = "lower heating value by engineering tables; a small stove's efficiency is common practice, no source"

// FuelRows lists the fuel table.
func FuelRows() []FuelRow {
	rows := make([]FuelRow, len(fuels))
	for i, f := range fuels {
		rows[i] = FuelRow{f.name, f.heat / 1e6, f.efficiency, f.source, f.knownBy}
	}
	return rows
}

// Fuels lists the fuels known.
func Fuels() []string {
	names := make([]string, len(fuels))
	for i, f := range fuels {
		names[i] = f.name
	}
	return names
}

func (e Equipment) fuel() (fuel, error) {
	name := strings.ToLower(strings.TrimSpace(e.Fuel))
	i := slices.IndexFunc(fuels, func(f fuel) bool { return f.name == name })
	switch {
	case name == "":
		return fuels[0], nil
	case i < 0:
		return fuel{}, &units.FieldError{Field: "fuel", Value: e.Fuel, Problem: "not known", Accepted: "" + strings.Join(Fuels(), ", ")}
	}
	return fuels[i], nil
}

// stove is equipment with its defaults filled in and its losses worked out.
type stove struct {
	Equipment
	fuel       fuel
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
	e.DiameterMM = or(e.DiameterMM, 240)
	if e.Tiers == 0 {
		e.Tiers = 2
	}
	d := e.DiameterMM / 1e3
	e.PanKg = or(e.PanKg, 0.8*d*d/(0.24*0.24))
	s := stove{Equipment: e, fuel: f, efficiency: f.efficiency,
		lossW: lossPerArea * (math.Pi/4*d*d + math.Pi*d*tierHeightM*float64(e.Tiers))}
	if e.Windy {
		s.lossW *= 2
		if f.heat > 0 {
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
		within("steamer", float64(s.Tiers), 1, 6, "tiers"),
		within("stove", s.PowerW, 200, 15000, "W"),
		within("pan", s.PanKg, 0.1, 20, "kg"),
		within("stove efficiency", s.efficiency, 0.05, 1, ""),
	} {
		if err != nil {
			return err
		}
	}
	if s.netW() < 50 {
		return &units.FieldError{Field: "stove", Value: fmt.Sprintf("%g W", s.PowerW),
			Problem:  fmt.Sprintf("makes no steam to speak of: %.0f W reach the pan, lid and walls lose %.0f W", s.efficiency*s.PowerW, s.lossW),
			Accepted: "a stronger stove or a smaller steamer, or shelter it from the wind"}
	}
	return nil
}

// NetPowerW is the heat, in W, that becomes steam: what reaches the pan less
// what lid and walls lose. It is Conditions.NetPowerW for this equipment.
func (e Equipment) NetPowerW() (float64, error) {
	s, err := e.stove()
	return s.netW(), err
}
