package ask

import (
	"context"
	"time"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/units"
)

// KeepQuestion asks how a food or a batch keeps, as it was typed. Times are as
// a clock reads them, temperatures as "4 C", spells as "FROM..TO".
type KeepQuestion struct {
	PlotRef
	Food                 string
	CookedAt, ChilledAt  string
	HotAt, HotUntil      string
	FrozenAt, ThawedAt   string
	Air, Fridge          string
	Out, PowerOff        []string
	Probes               []string // "TIME=TEMPERATURE"
	Reheated             int
	Tubers, Eater        string
	Authority            string
	At                   string // the moment to judge at; "" = now
	moment               time.Time
	kitchenFridge        keeping.Temperature
	kitchenAuthorityText string
}

// KeepVerdict is the verdict on the batch the question describes.
func KeepVerdict(_ context.Context, q KeepQuestion) (keeping.Verdict, error) {
	if err := q.settle(); err != nil {
		return keeping.Verdict{}, err
	}
	batch, err := q.batch()
	if err != nil {
		return keeping.Verdict{}, err
	}
	return keeping.Judge(batch, keeping.Authority(q.authority()), q.moment)
}

// KeepGuide is the general guidance on a food, by the strictest rules; where
// one authority is asked for, its own limits are told beside them.
func KeepGuide(_ context.Context, q KeepQuestion) (keeping.Guidance, error) {
	g, err := keeping.Guide(q.Food)
	if err != nil {
		return g, err
	}
	if err := q.settle(); err != nil {
		return g, err
	}
	authority, err := keeping.ParseAuthority(q.authority())
	if err != nil {
		return g, err
	}
	r := keepReader{clock: clock{q.moment, q.zone()}}
	q.household(&r, &keeping.Batch{})
	return g.With(authority), r.err
}

// settle reads the moment asked about and what the kitchen says of its fridge
// and whose rules it keeps. A folder that is no plot has no kitchen.
func (q *KeepQuestion) settle() error {
	var err error
	if q.moment, err = q.clock().moment(keeping.FactNow.Field(), q.At); err != nil {
		return err
	}
	folder, kitchen, err := openKitchen(q.PlotRef)
	if err != nil || folder == nil {
		return err
	}
	q.kitchenAuthorityText = kitchen.Authority
	q.kitchenFridge = fridgeOf(kitchen)
	return nil
}

// fridgeOf is the fridge's temperature where the kitchen tells it, not where
// a default stands in.
func fridgeOf(k recipes.Kitchen) keeping.Temperature {
	return keeping.Temperature{C: k.FridgeC, Known: k.FridgeGiven}
}

func (q *KeepQuestion) authority() string {
	if q.Authority != "" {
		return q.Authority
	}
	return q.kitchenAuthorityText
}

// batch reads what was typed into a batch's history; the first that cannot be read
// is the error.
func (q *KeepQuestion) batch() (keeping.Batch, error) {
	r := keepReader{clock: clock{q.moment, q.zone()}}
	b := keeping.Batch{
		Food:      q.Food,
		CookedAt:  r.instant(keeping.FactCooked, q.CookedAt),
		HotAt:     r.temperature(keeping.FactHotAt, q.HotAt),
		HotUntil:  r.instant(keeping.FactHotUntil, q.HotUntil),
		ChilledAt: r.instant(keeping.FactChilled, q.ChilledAt),
		FrozenAt:  r.instant(keeping.FactFrozen, q.FrozenAt),
		ThawedAt:  r.instant(keeping.FactThawed, q.ThawedAt),
		Air:       r.temperature(keeping.FactAir, q.Air),
		Out:       r.spells(keeping.FactOut, q.Out),
		PowerOff:  r.spells(keeping.FactPower, q.PowerOff),
		Reheated:  q.Reheated,
		Probes:    r.probes(q.Probes),
		Tubers:    keeping.Tubers(q.Tubers),
	}
	q.household(&r, &b)
	return b, r.err
}

// household fills in what holds for every batch: the fridge, as typed or as
// the kitchen has it, and who eats.
func (q *KeepQuestion) household(r *keepReader, b *keeping.Batch) {
	b.Fridge = q.kitchenFridge
	if q.Fridge != "" {
		b.Fridge = r.temperature(keeping.FactFridge, q.Fridge)
	}
	switch q.Eater {
	case "":
	case "vulnerable":
		b.Vulnerable = true
	default:
		r.fail(units.WrongField("eater", q.Eater, "no eater known here", "vulnerable (pregnant, under 5, over 65, low immunity), or leave it out"))
	}
}
