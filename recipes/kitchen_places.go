package recipes

import (
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

// noneWord says in kitchen.yaml that there is no such thing.
const noneWord = "none"

// isNone tells that a key says there is none.
func isNone(n strict.Node) bool {
	return !n.IsMap() && !n.IsList() && strings.EqualFold(strings.TrimSpace(n.Text()), noneWord)
}

// coldPlaces reads the fridge and the cold box.
func (s settings) coldPlaces() {
	k := s.kitchen
	k.FridgeGiven = s.keys.Has("fridge")
	if k.FridgeGiven && isNone(s.keys.At("fridge")) {
		k.NoFridge = true
	} else {
		k.FridgeC = s.number("fridge", "5 C", units.Celsius, k.FridgeC, -5, 12)
	}
	if !s.keys.Has("cold-box") || isNone(s.keys.At("cold-box")) {
		return
	}
	m := s.keys.At("cold-box").Map("ice", "holds")
	k.ColdBox = ColdBox{There: true, HoldsC: defaultFridgeC}
	if m.Has("ice") {
		k.ColdBox.IceG = physical(m.At("ice"), units.Gram, 0, 50000)
	}
	if m.Has("holds") {
		k.ColdBox.HoldsC = physical(m.At("holds"), units.Celsius, -5, 20)
	}
}

// supplies reads who helps, the pot and where the water comes from.
func (s settings) supplies() {
	if s.keys.Has("hands") {
		s.kitchen.Hands = s.keys.At("hands").Whole(1, 8)
	}
	if s.keys.Has("pot") {
		s.kitchen.PotML = physical(s.keys.At("pot").Map("volume").Require("volume"), units.Millilitre, 200, 50000)
	}
	if !s.keys.Has("water") {
		return
	}
	n := s.keys.At("water")
	water, ok := ParseWater(n.Text(), s.kitchen.Measures)
	if !ok {
		n.Fail("not where water comes from", waterAccepted)
	}
	s.kitchen.Water = water
}

const waterAccepted = "tap, or carried with how much: carried 4 l"

// ParseWater reads where drinking water comes from: "tap", "carried 4 l", or
// the amount alone, which is carried.
func ParseWater(text string, system units.System) (Water, bool) {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 1 && words[0] == "tap" {
		return Water{}, true
	}
	if len(words) > 0 && words[0] == "carried" {
		words = words[1:]
	}
	amount, err := units.Parse(strings.Join(words, " "), system)
	if err != nil || amount.IsRange() {
		return Water{}, false
	}
	ml, err := amount.Float64(units.Millilitre)
	if err != nil || !(ml > 0) || ml > 1e6 {
		return Water{}, false
	}
	return Water{Carried: true, CarriedML: ml}, true
}
