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

// KnifeTest is a knife test as written to the journal.
type KnifeTest struct {
	Entry *harvest.Steamed
	File  string
}

const foundForms = "the minutes and what the knife said: \"9 min just-tender\", tender or soft"

// found writes a knife test to the plot.
func (s *steamingPlace) found(q SteamQuestion) (*KnifeTest, error) {
	if s.folder == nil {
		return nil, fmt.Errorf("a knife test belongs to a kitchen: %w here", ErrNoPlot)
	}
	if !s.folder.Writable() {
		return nil, fmt.Errorf("%s: %w", s.folder.Name(), ErrReadOnly)
	}
	if !s.cut.Sized() {
		return nil, units.WrongField("found", q.Found, "a knife test is of one size of piece", "a cut with its size, such as cube 25 mm")
	}
	entry, err := readFound(q)
	if err != nil {
		return nil, err
	}
	entry.Crop, entry.Cut = harvest.CropName(s.crop.Name), s.cut.String()
	if s.crop.Kind == "waxy" || s.crop.Kind == "floury" {
		entry.Texture = s.crop.Kind
	}
	if err := s.noteLoad(entry); err != nil {
		return nil, err
	}
	if entry.At, err = q.clock().momentOrDay("at", q.At); err != nil {
		return nil, err
	}
	if _, err := s.expected(entry); err != nil {
		return nil, err
	}
	file, err := s.folder.Write(entry)
	return &KnifeTest{entry, file}, err
}

// noteLoad keeps with a knife test what was in the steamer at once: much of a
// large load is cooked by the time steam runs freely.
func (s *steamingPlace) noteLoad(entry *harvest.Steamed) error {
	if s.loadGrams == 0 {
		return nil
	}
	load, err := heat.LoadPlan(s.crop, s.cut, s.until, s.loadGrams, s.equipment, s.conditions)
	if err != nil {
		return err
	}
	entry.Load = units.New(decimal.NewFromFloat(load.GramsPerRound).Round(0), units.Gram)
	return nil
}

// readFound reads "9 min just-tender".
func readFound(q SteamQuestion) (*harvest.Steamed, error) {
	text := strings.TrimSpace(q.Found)
	at := strings.LastIndexByte(text, ' ')
	if at < 0 {
		return nil, units.WrongField("found", q.Found, "not a time and a doneness", foundForms)
	}
	if rest, found := strings.CutSuffix(text, " just tender"); found {
		text, at = rest+" just-tender", len(rest)
	}
	until, err := heat.ParseDoneness(text[at+1:])
	if err != nil {
		return nil, units.WrongField("found", q.Found, "not a doneness the knife can tell", foundForms)
	}
	minutes, err := physicalFlag("found", text[:at], units.Metric, units.Minute)
	if err != nil {
		return nil, err
	}
	if !(minutes >= 0.5 && minutes <= 180) {
		return nil, units.WrongField("found", q.Found, "not a steaming time", "minutes from steam at full flow, 0.5 to 180")
	}
	return &harvest.Steamed{Until: until.String(), Minutes: minutes}, nil
}

// expected is what the model alone would have said of a knife test, in minutes.
func (s *steamingPlace) expected(e *harvest.Steamed) (float64, error) {
	return expectedMinutes(e, s.conditions)
}

func expectedMinutes(e *harvest.Steamed, c heat.Conditions) (float64, error) {
	crop, err := heat.LookupCrop(e.Crop, e.Texture)
	if err != nil {
		return 0, err
	}
	cut, err := heat.ParseCut(e.Cut)
	if err != nil {
		return 0, err
	}
	until, err := heat.ParseDoneness(e.Until)
	if err != nil {
		return 0, err
	}
	if e.Load.IsValid() {
		if c.LoadGrams, err = e.Load.Float64(units.Gram); err != nil {
			return 0, err
		}
	}
	return heat.Expect(crop, cut, until, c)
}

// learned weighs this kitchen's knife tests of the crop, of every season.
func (s *steamingPlace) learned(ctx context.Context) (heat.Learned, []string, error) {
	if s.folder == nil {
		return heat.Learned{}, nil, nil
	}
	seasons, err := s.folder.Seasons()
	if err != nil {
		return heat.Learned{}, nil, err
	}
	var entries []harvest.Entry
	var warnings []string
	for _, year := range seasons {
		season, skipped, err := s.folder.Season(ctx, year, journal.Options{System: s.system, Zone: s.where.zone(), SkipDamaged: true})
		if err != nil {
			return heat.Learned{}, nil, err
		}
		for _, one := range skipped {
			warnings = append(warnings, fmt.Sprintf("left out %s: %v", one.File, one.Err))
		}
		entries = append(entries, season...)
	}
	learned, more := learnFrom(entries, s.crop, s.conditions)
	return learned, append(warnings, more...), nil
}

// learnFrom weighs the knife tests of a crop among a plot's entries, against
// what the model says under the kitchen's conditions. A test that cannot be
// read is named and left out.
func learnFrom(entries []harvest.Entry, crop heat.Crop, c heat.Conditions) (heat.Learned, []string) {
	standing, _, err := harvest.Correct(entries)
	if err != nil {
		standing = entries
	}
	var tests []heat.Test
	var warnings []string
	for _, entry := range standing {
		e, ok := entry.(*harvest.Steamed)
		if !ok || !sameCrop(e.Crop, crop) {
			continue
		}
		minutes, err := expectedMinutes(e, c)
		if err != nil {
			warnings = append(warnings, fmt.Sprintf("left out the knife test %s: %v", e.Head().File, err))
			continue
		}
		tests = append(tests, heat.Test{Expected: minutes, Found: e.Minutes})
	}
	return heat.Learn(tests), warnings
}

func sameCrop(name string, crop heat.Crop) bool {
	other, err := heat.LookupCrop(name, "")
	return err == nil && other.Name == crop.Name
}

// learnedOf is what the plot's knife tests show of a crop; a test that cannot be
// read is left out, and `trencher steam` names it.
func (p *Plot) learnedOf(crop heat.Crop) heat.Learned {
	if known, ok := p.learned[crop.Name]; ok {
		return known
	}
	net, err := p.equipment().NetPowerW()
	if err != nil {
		return heat.Learned{}
	}
	learned, _ := learnFrom(p.entries, crop, heat.Conditions{AltitudeM: p.Kitchen.AltitudeM, NetPowerW: net})
	if p.learned == nil {
		p.learned = map[string]heat.Learned{}
	}
	p.learned[crop.Name] = learned
	return learned
}
