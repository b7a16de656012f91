package ask

import (
	"cmp"
	"context"

	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// KeepQuestion asks how a food or a batch keeps, as it was typed. Times are as
// a clock reads them, temperatures as "4 C", spells as "FROM..TO".
type KeepQuestion struct {
	PlotRef
	keeping.Words
	Authority string
	At        string // the moment to judge at; "" = now
}

// KeepVerdict is the verdict on the batch the question describes.
func KeepVerdict(_ context.Context, q KeepQuestion) (keeping.Verdict, error) {
	asked, err := q.read()
	if err != nil {
		return keeping.Verdict{}, err
	}
	batch, err := q.Batch(asked.clock, asked.fridge)
	if err != nil {
		return keeping.Verdict{}, err
	}
	return keeping.Judge(batch, keeping.Authority(asked.authority), asked.clock.Now)
}

// KeepGuide is the general guidance on a food, by the strictest rules; where
// one authority is asked for, its own limits are told beside them.
func KeepGuide(_ context.Context, q KeepQuestion) (keeping.Guidance, error) {
	g, err := keeping.Guide(q.Food)
	if err != nil {
		return g, err
	}
	asked, err := q.read()
	if err != nil {
		return g, err
	}
	authority, err := keeping.ParseAuthority(asked.authority)
	if err != nil {
		return g, err
	}
	_, err = q.Household(asked.fridge)
	return g.With(authority), err
}

// askedOf is the moment asked about, and what the kitchen says of its fridge and
// whose rules it keeps.
type askedOf struct {
	clock     units.Clock // now is the moment asked about
	fridge    keeping.Temperature
	authority string
}

// read reads the moment and the kitchen. A folder that is no plot has none.
func (q KeepQuestion) read() (asked askedOf, err error) {
	asked.clock, asked.authority = q.Clock(), q.Authority
	if asked.clock.Now, err = asked.clock.Moment(keeping.FactNow.Field(), q.At); err != nil {
		return asked, err
	}
	folder, kitchen, err := openKitchen(q.PlotRef)
	if err != nil || folder == nil {
		return asked, err
	}
	asked.fridge = keeping.Temperature{C: kitchen.FridgeC, Known: kitchen.FridgeGiven}
	asked.authority = cmp.Or(q.Authority, kitchen.Authority)
	return asked, nil
}

// judge is how the batches of the journal are judged.
func (q KeepQuestion) judge() (meal.Judge, error) {
	asked, err := q.read()
	if err != nil {
		return meal.Judge{}, err
	}
	authority, err := keeping.ParseAuthority(asked.authority)
	if err != nil {
		return meal.Judge{}, err
	}
	household, err := q.Household(asked.fridge)
	return meal.Judge{Authority: authority, Moment: asked.clock.Now, Household: household}, err
}
