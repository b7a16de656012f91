package work

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/units"
	"trencher/units/strict"
)

// KeepQuestion asks how a food or a batch keeps, as it was typed. Times are as
// instant reads them, temperatures as "4 C", spells as "FROM..TO".
type KeepQuestion struct {
	Where
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
	v, err := keeping.Judge(batch, keeping.Authority(q.authority()), q.moment)
	return v, asFlag(err)
}

// KeepGuide is the general guidance on a food.
func KeepGuide(food string) (keeping.Guidance, error) {
	g, err := keeping.Guide(food)
	return g, asFlag(err)
}

// settle reads the moment asked about and what the kitchen says of its fridge
// and whose rules it keeps. A folder that is no plot has no kitchen.
func (q *KeepQuestion) settle() error {
	var err error
	if q.moment, err = instant("now", q.At, q.Now, q.zone()); err != nil {
		return err
	}
	folder, err := openFolder(q.Where)
	if errors.Is(err, journal.ErrNoPlot) && q.Dir == "" {
		return nil
	}
	if err != nil {
		return err
	}
	kitchen, err := kitchenOf(folder)
	if err != nil {
		return err
	}
	q.kitchenAuthorityText = kitchen.Authority
	q.kitchenFridge = fridgeOf(kitchen)
	return nil
}

func kitchenOf(folder *journal.Folder) (recipes.Kitchen, error) {
	source, err := folder.Kitchen()
	if err != nil {
		return recipes.Kitchen{}, err
	}
	return recipes.LoadKitchen(source.File, source.Data)
}

// fridgeOf is the fridge's temperature where the kitchen tells it, not where
// a default stands in.
func fridgeOf(k recipes.Kitchen) keeping.Temperature {
	assumed := slices.ContainsFunc(k.Assumed, func(text string) bool { return strings.HasPrefix(text, "fridge") })
	if assumed {
		return keeping.Temperature{}
	}
	return keeping.Celsius(k.FridgeC)
}

func (q *KeepQuestion) authority() string {
	if q.Authority != "" {
		return q.Authority
	}
	return q.kitchenAuthorityText
}

// batch reads the flags into a batch's history; the first that cannot be read
// is the error.
func (q *KeepQuestion) batch() (keeping.Batch, error) {
	r := keepReader{now: q.moment, zone: q.zone()}
	b := keeping.Batch{
		Food:      q.Food,
		CookedAt:  r.instant("cooked-at", q.CookedAt),
		HotAt:     r.temperature("hot-at", q.HotAt),
		HotUntil:  r.instant("hot-until", q.HotUntil),
		ChilledAt: r.instant("chilled-at", q.ChilledAt),
		FrozenAt:  r.instant("frozen-at", q.FrozenAt),
		ThawedAt:  r.instant("thawed-at", q.ThawedAt),
		Air:       r.temperature("air", q.Air),
		Fridge:    r.temperature("fridge", q.Fridge),
		Out:       r.spells("out", q.Out),
		PowerOff:  r.spells("power-off", q.PowerOff),
		Reheated:  q.Reheated,
		Probes:    r.probes(q.Probes),
		Tubers:    keeping.Tubers(q.Tubers),
	}
	if !b.Fridge.Known {
		b.Fridge = q.kitchenFridge
	}
	switch q.Eater {
	case "":
	case "vulnerable":
		b.Vulnerable = true
	default:
		r.fail(strict.Flag("--eater", q.Eater, "no eater known here", "vulnerable (pregnant, under 5, over 65, low immunity), or leave it out"))
	}
	return b, r.err
}

// keepReader reads typed facts and keeps the first error.
type keepReader struct {
	now  time.Time
	zone *time.Location
	err  error
}

func (r *keepReader) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}

func (r *keepReader) instant(flag, text string) time.Time {
	if text == "" || r.err != nil {
		return time.Time{}
	}
	t, err := instant(flag, text, r.now, r.zone)
	if err != nil {
		r.fail(err)
	}
	return t
}

func (r *keepReader) spells(flag string, texts []string) []keeping.Spell {
	var spells []keeping.Spell
	for _, text := range texts {
		from, to, ok := strings.Cut(text, "..")
		from, to = strings.TrimSpace(from), strings.TrimSpace(to)
		if !ok || from == "" {
			r.fail(strict.Flag("--"+flag, text, "not a spell", "FROM..TO, or FROM.. while it lasts, such as 18:00..19:30"))
			return nil
		}
		s := keeping.Spell{From: r.instant(flag, from)}
		if to != "" && r.err == nil {
			s.To = r.end(flag, to, s.From)
		}
		spells = append(spells, s)
	}
	return spells
}

func (r *keepReader) probes(texts []string) []keeping.Probe {
	var probes []keeping.Probe
	for _, text := range texts {
		at, c, ok := strings.Cut(text, "=")
		if !ok {
			r.fail(strict.Flag("--probe", text, "not a reading", `a time and a temperature, such as "14:30=25 C"`))
			return nil
		}
		p := keeping.Probe{At: r.instant("probe", strings.TrimSpace(at)), C: r.temperature("probe", strings.TrimSpace(c)).C}
		probes = append(probes, p)
	}
	return probes
}

// end reads a spell's end; a bare time of day is of the day it began.
func (r *keepReader) end(flag, text string, from time.Time) time.Time {
	if isTimeOfDay(text) {
		text = from.In(r.zone).Format(time.DateOnly) + "T" + text
	}
	return r.instant(flag, text)
}

func (r *keepReader) temperature(flag, text string) keeping.Temperature {
	if text == "" || r.err != nil {
		return keeping.Temperature{}
	}
	t, err := celsiusOf(flag, text)
	if err != nil {
		r.fail(err)
	}
	return t
}

func celsiusOf(flag, text string) (keeping.Temperature, error) {
	const accepted = `one temperature with its unit, such as "4 C" or "40 F"`
	q, err := units.Parse(text, units.Metric)
	if err != nil || q.IsRange() || q.Dimension() != units.Temperature {
		return keeping.Temperature{}, strict.Flag("--"+flag, text, "not a temperature", accepted)
	}
	c, err := q.Float64(units.Celsius)
	if err != nil {
		return keeping.Temperature{}, strict.Flag("--"+flag, text, "not a temperature", accepted)
	}
	return keeping.Celsius(c), nil
}

// asFlag names a fact that cannot be by its flag.
func asFlag(err error) error {
	var wrong *keeping.InputError
	if !errors.As(err, &wrong) {
		return err
	}
	return strict.Flag("--"+strings.ReplaceAll(string(wrong.Fact), "_", "-"), wrong.Value, wrong.Problem, wrong.Accepted)
}
