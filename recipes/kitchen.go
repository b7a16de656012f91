package recipes

import (
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"trencher/recipes/heat"
	"trencher/units"
	"trencher/units/measures"
	"trencher/units/strict"
)

// Steamer is the kitchen's steaming pan.
type Steamer struct {
	DiameterMM float64 // inside, of a tier
	Tiers      int
}

// Stove is what the steamer stands on.
type Stove struct {
	PowerW     float64 // gas or current going in, as on the plate
	Gas        string  // one of heat.Fuels
	Efficiency float64 // share that reaches the pan; 0 = as usual for the fuel
	Windy      bool    // no shelter from the wind
	Rings      int
	CanisterG  float64 // gas in a full canister; 0 = not known
}

// ColdBox is a box with ice packs. It keeps cold food cold and cools nothing.
type ColdBox struct {
	IceG, HoldsC float64
	There        bool
}

// Water is where drinking water comes from.
type Water struct {
	Carried   bool
	CarriedML float64 // what there is of it
}

// Kitchen is what the plan may reckon with. The zero value is no kitchen;
// DefaultKitchen fills in every default.
type Kitchen struct {
	File      string
	Measures  units.System
	AltitudeM float64
	Steamer   Steamer
	Stove     Stove
	FridgeC   float64
	NoFridge  bool    // there is none, and FridgeC says nothing
	ColdBox   ColdBox // a box with ice; zero = none
	Water     Water
	Hands     int // who help at once
	// Household is who usually eats; nil: nobody in particular.
	Household  []Guests
	MostDishes int     // the most dishes of one meal, where nobody in particular eats
	PotML      float64 // what the pot holds; 0 = no pot besides the steamer
	// FridgeGiven tells a fridge that kitchen.yaml gives from the default.
	FridgeGiven bool
	RoomC       float64
	// FirstFrost of autumn and LastFrost of spring, where the plot lies; zero:
	// not given.
	FirstFrost, LastFrost units.MonthDay
	Authority             string         // whose food rules: strictest, uk, us, au-nz
	Measure               units.Kitchen  // scales, jug, spoons and vague sizes to round to
	Table                 measures.Table // what a spoon or piece weighs, the kitchen's own rows first
	Yields                []YieldRow     // the kitchen's own yields
	Assumed               []string       // defaults taken, in words: "altitude 0 m"
}

// The defaults of kitchen.yaml: a small gas ring and the warmest fridge that
// food authorities allow.
const (
	defaultDiameterMM = 240
	defaultTiers      = 2
	defaultPowerW     = 1800
	defaultGas        = "butane"
	defaultFridgeC    = 5
	defaultRoomC      = 20
	defaultAuthority  = "strictest"
)

// DefaultKitchen is the kitchen of a file that sets nothing but the measures.
func DefaultKitchen(system units.System) Kitchen {
	return Kitchen{
		Measures: system,
		Steamer:  Steamer{DiameterMM: defaultDiameterMM, Tiers: defaultTiers},
		Stove:    Stove{PowerW: defaultPowerW, Gas: defaultGas, Rings: 1},
		FridgeC:  defaultFridgeC, RoomC: defaultRoomC,
		Hands: 1, MostDishes: defaultMostDishes,
		Authority: defaultAuthority,
		Measure:   units.Kitchen{System: system},
		Table:     measures.Default().For(system),
	}
}

// yieldRows is the yields table as this kitchen sees it.
func (k Kitchen) yieldRows() *yields { return yieldTable().with(k.Yields) }

// LoadKitchen reads kitchen.yaml. Only `measures` must be there; every other
// key has a default, listed in Kitchen.Assumed. All that is wrong with the
// file is returned together, as strict.Errors; beside an error only the kitchen's
// Measures can be relied on, and they are units.NoSystem where they too could
// not be read.
func LoadKitchen(file string, data []byte) (Kitchen, error) {
	r := strict.Parse(file, data)
	defer r.Done()
	k := readKitchen(r.Root())
	k.File = file
	return k, r.Err()
}

func readKitchen(root strict.Node) Kitchen {
	m := root.Map("measures", "altitude", "steamer", "stove", "fridge", "cold-box", "water", "hands", "pot", "room", "authority",
		"scales", "jug", "spoons", "vague", "weights", "yields", "site", "household", "dishes")
	system, _ := units.ParseSystem(m.Require("measures").Choice("metric", "uk", "us", "au"))
	k := DefaultKitchen(system)
	s := settings{keys: m, kitchen: &k}
	k.AltitudeM = s.number("altitude", "0 m", units.Metre, 0, 0, heat.HighestM)
	s.steamer()
	s.stove()
	s.coldPlaces()
	s.supplies()
	s.eaters()
	k.RoomC = s.number("room", "20 C", units.Celsius, k.RoomC, -10, 45)
	if m.Has("authority") {
		k.Authority = m.At("authority").Choice("strictest", "uk", "us", "au-nz")
	} else {
		s.assume("the strictest food rules")
	}
	k.FirstFrost, k.LastFrost = s.site()
	s.measuring()
	s.weights()
	s.yields()
	return k
}

// settings reads the optional keys one by one and keeps what was assumed.
type settings struct {
	keys    strict.Map
	kitchen *Kitchen
}

func (s settings) assume(format string, values ...any) {
	s.kitchen.Assumed = append(s.kitchen.Assumed, fmt.Sprintf(format, values...))
}

// number reads one physical figure in a unit, within limits.
func (s settings) number(key, shown string, unit units.Unit, fallback, low, high float64) float64 {
	if !s.keys.Has(key) {
		s.assume("%s %s", key, shown)
		return fallback
	}
	return physical(s.keys.At(key), unit, low, high)
}

// site reads the usual frosts, month and day.
func (s settings) site() (first, last units.MonthDay) {
	if !s.keys.Has("site") {
		return first, last
	}
	m := s.keys.At("site").Map("first-frost", "last-frost")
	date := func(key string) units.MonthDay {
		if !m.Has(key) {
			return units.MonthDay{}
		}
		day, err := units.ParseMonthDay(m.At(key).Text())
		if err != nil {
			m.At(key).Fail("no date of the year", "month and day, such as 10-20")
		}
		return day
	}
	return date("first-frost"), date("last-frost")
}

func physical(n strict.Node, unit units.Unit, low, high float64) float64 {
	q := n.Quantity(units.Metric, unit.Dimension())
	if !q.IsValid() {
		return 0
	}
	value, err := q.Float64(unit)
	if err != nil || q.IsRange() || value < low || value > high {
		n.Fail("out of range", fmt.Sprintf("one figure from %g to %g %s", low, high, unit.Symbol()))
		return 0
	}
	return value
}

func (s settings) steamer() {
	if !s.keys.Has("steamer") {
		s.assume("a steamer of %d tiers, %d mm wide", defaultTiers, defaultDiameterMM)
		return
	}
	m := s.keys.At("steamer").Map("diameter", "tiers")
	if m.Has("diameter") {
		s.kitchen.Steamer.DiameterMM = physical(m.At("diameter"), units.Millimetre, 80, 600)
	} else {
		s.assume("a steamer %d mm wide", defaultDiameterMM)
	}
	if m.Has("tiers") {
		s.kitchen.Steamer.Tiers = m.At("tiers").Whole(1, 6)
	} else {
		s.assume("a steamer of %d tiers", defaultTiers)
	}
}

func (s settings) stove() {
	stove := &s.kitchen.Stove
	if !s.keys.Has("stove") {
		s.assume("a stove of %d W, %s", defaultPowerW, defaultGas)
		return
	}
	m := s.keys.At("stove").Map("power", "gas", "efficiency", "wind", "rings", "canister")
	if m.Has("power") {
		stove.PowerW = physical(m.At("power"), units.Watt, 200, 15000)
	} else {
		s.assume("a stove of %d W", defaultPowerW)
	}
	if m.Has("gas") {
		stove.Gas = m.At("gas").Choice(heat.Fuels()...)
	} else {
		s.assume("the stove burns %s", defaultGas)
	}
	if m.Has("rings") {
		stove.Rings = m.At("rings").Whole(1, 6)
	}
	if m.Has("canister") {
		stove.CanisterG = physical(m.At("canister"), units.Gram, 50, 20000)
	}
	if m.Has("wind") {
		stove.Windy = m.At("wind").Choice("sheltered", "windy") == "windy"
	}
	if m.Has("efficiency") {
		n := m.At("efficiency")
		share := n.Decimal()
		if share.LessThan(decimal.New(5, -2)) || share.GreaterThan(decimal.NewFromInt(1)) {
			n.Fail("out of range", "the share of the heat that reaches the pan, from 0.05 to 1")
		}
		stove.Efficiency, _ = share.Float64()
	}
}

// yields reads the kitchen's own figures for what preparing leaves.
func (s settings) yields() {
	for _, n := range s.keys.At("yields").List() {
		m := n.Map("crop", "prepared", "factor")
		row := YieldRow{Crop: CropName(m.Require("crop").Text()), From: AsLifted, To: stateName(m.Require("prepared").Text()),
			Factor: new(big.Rat), Provenance: units.Provenance{Source: "this kitchen's own weighing", KnownBy: "practice"}}
		if m.Has("prepared") && row.To == AsLifted {
			m.At("prepared").Fail("as lifted is always 1", "what is done to the crop: scrubbed, peeled, shelled ...")
		}
		factor := m.Require("factor").Decimal()
		if m.Has("factor") && (!factor.IsPositive() || factor.GreaterThan(decimal.New(15, -1))) {
			m.At("factor").Fail("out of range", "grams prepared over grams as lifted, above 0: 0.93")
		}
		row.Factor = factor.Rat()
		if slices.ContainsFunc(s.kitchen.Yields, func(r YieldRow) bool { return r.Crop == row.Crop && r.To == row.To }) {
			n.Fail(fmt.Sprintf("%s %s stands twice", row.Crop, row.To), "one figure for each")
		}
		s.kitchen.Yields = append(s.kitchen.Yields, row)
	}
}
