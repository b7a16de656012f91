package meal

import (
	"fmt"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes/heat"
	"trencher/units"
)

// KnifeEntry is a knife test of the piece a question is about, as the journal
// keeps it; found is what the knife said. Its error is of a field, or says that
// no answer could rest on the test.
func KnifeEntry(q heat.Question, found string) (*harvest.Steamed, error) {
	if !q.Cut.Sized() {
		return nil, units.WrongField("found", found, "a knife test is of one size of piece", "a cut with its size, such as cube 25 mm")
	}
	said, err := heat.ParseFound(found)
	if err != nil {
		return nil, err
	}
	entry := &harvest.Steamed{Until: said.Until.String(), Minutes: said.Minutes, Crop: harvest.CropName(q.Crop.Name), Cut: q.Cut.String(), Tier: q.Tier}
	if said.Said != heat.JustRight {
		entry.Said = said.Said.String()
	}
	if q.Crop.Kind == "waxy" || q.Crop.Kind == "floury" {
		entry.Texture = q.Crop.Kind
	}
	if err := noteLoad(entry, q); err != nil {
		return nil, err
	}
	noteMade(entry, q.Conditions)
	test, err := knifeTest(entry)
	if err == nil {
		_, err = test.Expected(q.Conditions)
	}
	return entry, err
}

// noteLoad keeps with a knife test what was in the steamer at once.
func noteLoad(entry *harvest.Steamed, q heat.Question) error {
	if q.Grams == nil {
		return nil
	}
	load, err := heat.LoadPlan(q.Crop, q.Cut, q.Until, *q.Grams, q.Equipment, q.Conditions)
	if err != nil {
		return err
	}
	entry.Load = units.New(decimal.NewFromFloat(load.GramsPerRound).Round(0), units.Gram)
	return nil
}

// noteMade keeps with a knife test what it was made under, to the figure that a
// kitchen knows.
func noteMade(entry *harvest.Steamed, c heat.Conditions) {
	start, powerW := heat.DefaultStartC, heat.DefaultNetPowerW
	if c.StartC != nil {
		start = *c.StartC
	}
	if c.NetPowerW > 0 {
		powerW = c.NetPowerW
	}
	entry.Start = units.New(decimal.NewFromFloat(start).Round(1), units.Celsius)
	entry.Altitude = units.New(decimal.NewFromFloat(c.AltitudeM).Round(0), units.Metre)
	entry.Power = units.New(decimal.NewFromFloat(powerW).Round(0), units.Watt)
}

// KnifeTests are the knife tests among a plot's entries that stand. One that
// cannot be read is an error that names its file, and is left out.
func KnifeTests(entries []harvest.Entry) ([]heat.KnifeTest, []error) {
	standing, _, err := harvest.Correct(entries)
	if err != nil {
		standing = entries
	}
	var tests []heat.KnifeTest
	var unread []error
	for _, entry := range standing {
		steamed, ok := entry.(*harvest.Steamed)
		if !ok {
			continue
		}
		test, err := knifeTest(steamed)
		if err != nil {
			unread = append(unread, fmt.Errorf("the knife test %s: %w", test.Place, err))
			continue
		}
		tests = append(tests, test)
	}
	return tests, unread
}

// knifeTest reads the words of one journal entry.
func knifeTest(e *harvest.Steamed) (test heat.KnifeTest, err error) {
	test = heat.KnifeTest{Crop: e.Crop, Texture: e.Texture, Minutes: e.Minutes, Place: e.Head().File}
	if test.Cut, err = heat.ParseCut(e.Cut); err != nil {
		return test, err
	}
	if test.Until, err = heat.ParseDoneness(e.Until); err != nil {
		return test, err
	}
	if test.Said, err = heat.ParseFinding(e.Said); err != nil {
		return test, err
	}
	test.Made.Tier = e.Tier
	for _, one := range []struct {
		from units.Quantity
		unit units.Unit
		take func(float64)
	}{
		{e.Load, units.Gram, func(x float64) { test.LoadG = x }},
		{e.Start, units.Celsius, func(x float64) { test.Made.StartC = &x }},
		{e.Altitude, units.Metre, func(x float64) { test.Made.AltitudeM = &x }},
		{e.Power, units.Watt, func(x float64) { test.Made.NetPowerW = x }},
	} {
		if !one.from.IsValid() {
			continue
		}
		x, err := one.from.Float64(one.unit)
		if err != nil {
			return test, err
		}
		one.take(x)
	}
	return test, nil
}
