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

// FuelRows lists the fuel table.
func FuelRows() []FuelRow {
	rows := make([]FuelRow, len(fuels))
	for i, f := range fuels {
		rows[i] = FuelRow{f.name, f.heat / 1e6, f.efficiency, f.source, f.knownBy}
	}
	return rows
}

// Natural gas differs from place to place. Small stoves reach 30 to 65 %.
var fuels = []fuel{
	{"butane", 45.7e6, 0.45, smallStove, "memory; practice"},
	{"propane", 46.3e6, 0.45, smallStove, "memory; practice"},
	{"natural gas", 47.1e6, 0.52, "lower heating value by engineering tables; EN 30-2-1, the least efficiency of a household gas hob", "memory"},
	{"electric", 0, 0.70, "common practice, no source", "practice"},
}

const smallStove = "lower heating value by engineering tables; a small stove's efficiency is common practice, no source"

const (
	windyEfficiency = 0.30
	lossPerArea     = 10 * 80.0 // W/m²: 10 W/m²K over 80 K, still air (practice)
	tierHeightM     = 0.07
	steelHeat       = 500.0  // J/(kg K)
	waterHeat       = 4186.0 // J/(kg K)
	waterMargin     = 1.3
	waterLeftKg     = 0.3
	waterLeastKg    = 0.5
	coverEven       = 0.75 // share of the basket one even layer covers
	coverGaps       = 0.65 // with gaps, for pieces that must stay just tender
)

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

// Load says how a weight of pieces goes through the steamer.
type Load struct {
	Estimate Estimate // for the weight in the steamer at once

	Grams          float64
	GramsPerLayer  float64 // one even layer holds that much
	PiecesPerLayer int
	Layers         int
	Tiers          int
	Rounds         int     // fillings of the steamer, one after the other
	GramsPerRound  float64 // the rounds are filled alike
	GramsOnEach    float64 // on each layer, spread evenly
	Heaped         bool    // more than a layer and a half in a tier

	WaterML      float64 // at the start, for every round, so that the pan does not boil dry
	EvaporatesG  float64 // a minute, at full steam
	NetPowerW    float64 // what becomes steam
	PowerW       float64 // what the stove takes in
	Efficiency   float64 // share of it that reaches the pan
	LossW        float64 // lid and walls
	Cover        float64 // share of the basket that a layer covers
	ToBoil       float64 // minutes
	Fuel         string
	GasG         float64 // to the boil and through every round's expected time
	GasLongestG  float64 // through every round's longest time
	TotalMinutes float64 // to the boil, and every round's come-up and expected time

	Cautions []string
}

// LoadPlan lays a weight of pieces out in even layers, tiers and rounds, and
// says what water and gas it takes. Conditions give start, altitude and Heaped
// (then everything goes in at once, and takes its penalty); their load and net
// power are replaced by the load's and the equipment's own.
func LoadPlan(crop Crop, cut Cut, until Doneness, grams float64, equipment Equipment, c Conditions) (Load, error) {
	s, err := equipment.stove()
	if err != nil {
		return Load{}, err
	}
	if err := within("load", grams, 1, 50000, "g"); err != nil {
		return Load{}, err
	}
	body, err := BodyOf(crop, cut)
	if err != nil {
		return Load{}, err
	}
	load := Load{Grams: grams, Tiers: s.Tiers, Fuel: s.fuel.name}
	load.layOut(crop, body, max(until, JustTender), s, c)
	c.LoadGrams, c.NetPowerW, c.Heaped = load.GramsPerRound, s.netW(), load.Heaped
	if load.Estimate, err = Steam(crop, cut, until, c); err != nil {
		return Load{}, err
	}
	load.fire(s, c)
	load.Cautions = cautions(s.fuel)
	return load, nil
}

// layOut fills layers, tiers and rounds.
func (l *Load) layOut(crop Crop, body Body, until Doneness, s stove, c Conditions) {
	cover := coverEven
	if until == JustTender {
		cover = coverGaps
	}
	density := crop.Composition.At((c.startC() + SteamC(c.AltitudeM)) / 2).Density
	piece := body.VolumeM3 * density * 1e3
	l.Cover = cover
	l.GramsPerLayer = layerGrams(s.DiameterMM/1e3, cover, body, density)
	l.PiecesPerLayer = max(1, int(l.GramsPerLayer/piece))
	l.Layers = int(math.Ceil(l.Grams/l.GramsPerLayer - 1e-9))
	l.Rounds = (l.Layers + s.Tiers - 1) / s.Tiers
	if c.Heaped {
		l.Rounds = 1
		l.Heaped = l.Grams > 1.5*l.GramsPerLayer*float64(s.Tiers)
	}
	l.GramsPerRound = l.Grams / float64(l.Rounds)
	l.GramsOnEach = l.Grams / float64(l.Layers)
}

// layerGrams is what one layer holds: the share of the basket that is covered,
// times the weight that stands on a unit of it.
func layerGrams(diameterM, cover float64, body Body, density float64) float64 {
	return cover * math.Pi / 4 * diameterM * diameterM / body.FootprintM2 * body.VolumeM3 * density * 1e3
}

// fire works out water and fuel.
func (l *Load) fire(s stove, c Conditions) {
	e := l.Estimate
	rounds := float64(l.Rounds)
	l.NetPowerW, l.PowerW, l.Efficiency, l.LossW = s.netW(), s.PowerW, s.efficiency, s.lossW
	l.EvaporatesG = evaporation(s.netW(), e.SteamC)
	kg := max(waterLeastKg, waterMargin*l.EvaporatesG/1e3*rounds*(e.ComeUp+e.High)+waterLeftKg)
	l.WaterML = kg * 1e3
	l.ToBoil = s.toBoil(kg, min(c.startC(), DefaultStartC), e.SteamC) / 60
	l.TotalMinutes = l.ToBoil + rounds*(e.ComeUp+e.Minutes)
	l.GasG = s.burns(l.TotalMinutes)
	l.GasLongestG = s.burns(l.ToBoil + rounds*(e.ComeUp+e.High))
}

// evaporation is in g a minute.
func evaporation(netW, steamC float64) float64 { return netW / latentHeat(steamC) * 60e3 }

// toBoil is in seconds, from water at fromC: half of the full loss on the way.
func (s stove) toBoil(waterKg, fromC, boilC float64) float64 {
	return (waterKg*waterHeat + s.PanKg*steelHeat) * (boilC - fromC) / (s.efficiency*s.PowerW - s.lossW/2)
}

// burns is the fuel in g for that many minutes at full power.
func (s stove) burns(minutes float64) float64 {
	if s.fuel.heat == 0 {
		return 0
	}
	return s.PowerW * minutes * 60 / s.fuel.heat * 1e3
}

// Cautions are what to say beside every steaming time. An unknown fuel gets the
// caution for gas.
func Cautions(e Equipment) []string {
	f, err := e.fuel()
	if err != nil {
		f = fuels[0]
	}
	return cautions(f)
}

func cautions(f fuel) []string {
	list := []string{
		"Steam burns: lift the lid away from you, and let the steam out before you reach in.",
		"Keep the pan from boiling dry: look in with time to spare, and top up with boiling water.",
	}
	if f.heat > 0 {
		list = append(list, "A gas stove belongs outdoors in the open air, never in a shed, tent or greenhouse: carbon monoxide kills. "+
			"Follow the maker's instructions and local rules.")
	}
	return list
}
