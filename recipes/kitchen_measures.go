package recipes

import (
	"fmt"
	"strings"

	"trencher/units"
	"trencher/units/measures"
)

// measuring reads what the kitchen measures with: the finest step of its
// scales and jug, its spoons, and what its pinch or knob is.
func (s settings) measuring() {
	kitchen := &s.kitchen.Measure
	if s.keys.Has("scales") {
		kitchen.ScaleStep = s.step("scales", units.Mass, "the finest step of the scales: 1 g or 5 g")
	}
	if s.keys.Has("jug") {
		kitchen.JugStep = s.step("jug", units.Volume, "the finest step of the jug: 5 ml or 25 ml")
	}
	for _, n := range s.keys.At("spoons").List() {
		spoon := n.Quantity(s.kitchen.Measures, units.Volume)
		if spoon.IsRange() || spoon.IsValid() && spoon.Sign() <= 0 {
			n.Fail("no spoon", "one spoon, such as 1/4 tsp")
		}
		if spoon.IsValid() {
			kitchen.Spoons = append(kitchen.Spoons, spoon)
		}
	}
	s.vague()
}

func (s settings) step(key string, of units.Dimension, accepted string) units.Quantity {
	n := s.keys.At(key)
	step := n.Quantity(s.kitchen.Measures, of)
	if step.IsValid() && (step.IsRange() || step.Sign() <= 0) {
		n.Fail("no step", accepted)
	}
	return step
}

// vague reads sizes of rough measures: {pinch: 1/8 tsp, knob: 15 g}.
func (s settings) vague() {
	words := s.keys.At("vague").AnyMap()
	for _, word := range words.Keys() {
		n := words.At(word)
		unit, err := units.ParseUnit(word, s.kitchen.Measures)
		if err != nil || !unit.IsRough() {
			n.Fail(fmt.Sprintf("%q is not a vague measure", word), "one of "+strings.Join(roughUnits(), ", "))
			continue
		}
		size := n.Quantity(s.kitchen.Measures, units.Mass, units.Volume)
		if !size.IsValid() {
			continue
		}
		if size.IsRough() || size.Sign() <= 0 {
			n.Fail("no exact size", "a weight or a volume, such as 15 g")
			continue
		}
		if s.kitchen.Measure.Vague == nil {
			s.kitchen.Measure.Vague = map[string]units.Quantity{}
		}
		s.kitchen.Measure.Vague[unit.Name()] = size
	}
}

func roughUnits() []string {
	var names []string
	for _, unit := range units.All() {
		if unit.IsRough() {
			names = append(names, unit.Name())
		}
	}
	return names
}

// weights reads the kitchen's own rows of what a spoon or a piece weighs.
func (s settings) weights() {
	var rows []measures.Row
	for _, n := range s.keys.At("weights").List() {
		m := n.Map("item", "state", "measure", "weight")
		item := m.Require("item").Text()
		state := ""
		if m.Has("state") {
			state = m.At("state").Text()
		}
		measure := m.Require("measure").Quantity(s.kitchen.Measures, units.Volume, units.Count)
		weight := m.Require("weight").Quantity(s.kitchen.Measures, units.Mass)
		if item == "" || !measure.IsValid() || !weight.IsValid() {
			continue
		}
		row, err := measures.NewRow(item, state, measure, weight)
		if err != nil {
			n.Fail(err.Error(), "item, measure and weight: {item: capers, measure: 1 tbsp, weight: 9 g}")
			continue
		}
		rows = append(rows, row)
	}
	if len(rows) > 0 {
		s.kitchen.Table = s.kitchen.Table.With(rows...)
	}
}
