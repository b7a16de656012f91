package ask

import (
	"context"
	"fmt"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
)

// WrittenTest is a knife test as written to the journal.
type WrittenTest struct {
	Entry *harvest.Steamed
	File  string
}

// writeTest writes a knife test to the plot, unless no answer could rest on it.
func (k steamKitchen) writeTest(q SteamQuestion, question heat.Question) (*WrittenTest, error) {
	if k.folder == nil {
		return nil, fmt.Errorf("a knife test belongs to a kitchen: %w here", ErrNoPlot)
	}
	if !k.folder.Writable() {
		return nil, fmt.Errorf("%s: %w", k.folder.Name(), ErrReadOnly)
	}
	entry, err := meal.KnifeEntry(question, q.Found)
	if err != nil {
		return nil, err
	}
	if entry.At, err = q.Clock().MomentOrDay("at", q.At); err != nil {
		return nil, err
	}
	q.author().Sign(entry.Head())
	file, err := k.folder.Write(entry)
	return &WrittenTest{entry, file}, err
}

// learned weighs this kitchen's knife tests of a crop, of every season.
func (k steamKitchen) learned(ctx context.Context, crop heat.Crop) (heat.Learned, []string, error) {
	if k.folder == nil {
		return heat.Learned{}, nil, nil
	}
	entries, skipped, err := k.folder.EverySeason(ctx, journal.Options{System: k.system, Zone: k.where.zone(), SkipDamaged: true})
	if err != nil {
		return heat.Learned{}, nil, err
	}
	warnings := harvest.SaidLeftOut(skipped)
	tests, unread := meal.KnifeTests(entries)
	learned, unweighed := heat.LearnFrom(tests, crop, k.question.Conditions)
	for _, err := range append(unread, unweighed...) {
		warnings = append(warnings, "left out "+err.Error())
	}
	return learned, warnings, nil
}
