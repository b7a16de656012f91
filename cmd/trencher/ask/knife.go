package ask

import (
	"context"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/recipes/heat"
	"trencher/units"
)

// WrittenTest is a knife test as written to the journal.
type WrittenTest struct {
	Entry *harvest.Steamed
	File  string
}

const foundForms = "the minutes and what the knife said: \"9 min just-tender\", tender or soft"

// writeTest writes a knife test to the plot, unless no answer could rest on it.
func (k steamKitchen) writeTest(q SteamQuestion, question heat.Question) (*WrittenTest, error) {
	if k.folder == nil {
		return nil, fmt.Errorf("a knife test belongs to a kitchen: %w here", ErrNoPlot)
	}
	if !k.folder.Writable() {
		return nil, fmt.Errorf("%s: %w", k.folder.Name(), ErrReadOnly)
	}
	if !question.Cut.Sized() {
		return nil, units.WrongField("found", q.Found, "a knife test is of one size of piece", "a cut with its size, such as cube 25 mm")
	}
	entry, err := readFound(q.Found)
	if err != nil {
		return nil, err
	}
	entry.Crop, entry.Cut = harvest.CropName(question.Crop.Name), question.Cut.String()
	if question.Crop.Kind == "waxy" || question.Crop.Kind == "floury" {
		entry.Texture = question.Crop.Kind
	}
	if err := noteLoad(entry, question); err != nil {
		return nil, err
	}
	if entry.At, err = q.clock().momentOrDay("at", q.At); err != nil {
		return nil, err
	}
	test, err := knifeTest(entry)
	if err != nil {
		return nil, err
	}
	if _, err := test.Expected(k.conditions); err != nil {
		return nil, err
	}
	file, err := k.folder.Write(entry)
	return &WrittenTest{entry, file}, err
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

// readFound reads "9 min just-tender".
func readFound(found string) (*harvest.Steamed, error) {
	text := strings.TrimSpace(found)
	at := strings.LastIndexByte(text, ' ')
	if at < 0 {
		return nil, units.WrongField("found", found, "not a time and a doneness", foundForms)
	}
	if rest, two := strings.CutSuffix(text, " just tender"); two {
		text, at = rest+" just-tender", len(rest)
	}
	until, err := heat.ParseDoneness(text[at+1:])
	if err != nil {
		return nil, units.WrongField("found", found, "not a doneness the knife can tell", foundForms)
	}
	minutes, err := physicalFlag("found", text[:at], units.Metric, units.Minute)
	if err != nil {
		return nil, err
	}
	if !(minutes >= 0.5 && minutes <= 180) {
		return nil, units.WrongField("found", found, "not a steaming time", "minutes from steam at full flow, 0.5 to 180")
	}
	return &harvest.Steamed{Until: until.String(), Minutes: minutes}, nil
}

// learned weighs this kitchen's knife tests of a crop, of every season.
func (k steamKitchen) learned(ctx context.Context, crop heat.Crop) (heat.Learned, []string, error) {
	if k.folder == nil {
		return heat.Learned{}, nil, nil
	}
	seasons, err := k.folder.Seasons()
	if err != nil {
		return heat.Learned{}, nil, err
	}
	var entries []harvest.Entry
	var warnings []string
	for _, year := range seasons {
		season, skipped, err := k.folder.Season(ctx, year, journal.Options{System: k.system, Zone: k.where.zone(), SkipDamaged: true})
		if err != nil {
			return heat.Learned{}, nil, err
		}
		for _, one := range skipped {
			warnings = append(warnings, fmt.Sprintf("left out %s: %v", one.File, one.Err))
		}
		entries = append(entries, season...)
	}
	tests, unread := knifeTests(entries)
	learned, unweighed := heat.LearnFrom(tests, crop, k.conditions)
	for _, err := range append(unread, unweighed...) {
		warnings = append(warnings, "left out "+err.Error())
	}
	return learned, warnings, nil
}

// knifeTests are the knife tests among a plot's entries that stand. One that
// cannot be read is an error that names its file, and is left out.
func knifeTests(entries []harvest.Entry) ([]heat.KnifeTest, []error) {
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
	if e.Load.IsValid() {
		test.LoadG, err = e.Load.Float64(units.Gram)
	}
	return test, err
}
