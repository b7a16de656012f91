package keeping

import (
	"strings"
	"time"

	"trencher/units"
)

// Words is a batch's history as a person writes it. Times are as [units.Clock]
// reads them, temperatures as "4 C", spells as "FROM..TO"; "" is not given.
type Words struct {
	Food                string
	CookedAt, ChilledAt string
	HotAt, HotUntil     string
	FrozenAt, ThawedAt  string
	Air, Fridge         string
	Out, PowerOff       []string
	Probes              []string // "TIME=TEMPERATURE"
	Reheated            int
	Tubers, Eater       string // green or bitter; pregnant, child, old, low-immunity, vulnerable
	Freezer, Eggs, Box  string
	Ice, Bitter         string // yes or no
}

// Batch reads the words into a history, at the moment of the clock, in a kitchen
// whose fridge is as given unless the words tell another. The first that cannot
// be read is the error, a [units.FieldError].
func (q Words) Batch(clock units.Clock, fridge Temperature) (Batch, error) {
	r := wordReader{Clock: clock}
	b := Batch{
		Food:      q.Food,
		CookedAt:  r.instant(FactCooked, q.CookedAt),
		HotAt:     r.temperature(FactHotAt, q.HotAt),
		HotUntil:  r.instant(FactHotUntil, q.HotUntil),
		ChilledAt: r.instant(FactChilled, q.ChilledAt),
		FrozenAt:  r.instant(FactFrozen, q.FrozenAt),
		ThawedAt:  r.instant(FactThawed, q.ThawedAt),
		Air:       r.temperature(FactAir, q.Air),
		Out:       r.spells(FactOut, q.Out),
		PowerOff:  r.spells(FactPower, q.PowerOff),
		Reheated:  q.Reheated,
		Probes:    r.probes(q.Probes),
		Tubers:    Tubers(q.Tubers),
		Freezer:   Fill(q.Freezer),
		Eggs:      Eggs(q.Eggs),
		Box:       Packs(q.Box),
		Ice:       r.yes(FactIce, q.Ice),
		Bitter:    r.yes(FactBitter, q.Bitter),
	}
	if q.Food != "" && r.err == nil {
		called, err := NameBatch(q.Food)
		r.fail(err)
		b.Food, b.Also, b.Called = called.Food, called.Also, called.Called
	}
	q.household(&r, &b, fridge)
	return b, r.err
}

// Household is what holds for every batch: the fridge, as written or else as
// given, and who eats; the rest of the history stays empty.
func (q Words) Household(fridge Temperature) (b Batch, err error) {
	var r wordReader
	q.household(&r, &b, fridge)
	return b, r.err
}

func (q Words) household(r *wordReader, b *Batch, fridge Temperature) {
	b.Fridge = fridge
	if q.Fridge != "" {
		b.Fridge = r.temperature(FactFridge, q.Fridge)
	}
	switch q.Eater {
	case "":
	case "vulnerable", "pregnant", "child", "old":
		b.Vulnerable = true
	case "low-immunity":
		b.Vulnerable, b.LowImmunity = true, true
	default:
		r.fail(FactEater.wrong(q.Eater, "no eater known here", "pregnant, child (under 5), old (over 65), low-immunity, vulnerable for any of them, or leave it out"))
	}
}

// wordReader reads typed facts and keeps the first error.
type wordReader struct {
	units.Clock
	err error
}

func (r *wordReader) fail(err error) {
	if r.err == nil && err != nil {
		r.err = err
	}
}

func (r *wordReader) instant(fact Fact, text string) time.Time {
	if text == "" || r.err != nil {
		return time.Time{}
	}
	t, err := r.Moment(fact.Field(), text)
	if err != nil {
		r.fail(err)
	}
	return t
}

func (r *wordReader) spells(fact Fact, texts []string) []Spell {
	var spells []Spell
	for _, text := range texts {
		from, to, ok := strings.Cut(text, "..")
		from, to = strings.TrimSpace(from), strings.TrimSpace(to)
		if !ok || from == "" {
			r.fail(units.WrongField(fact.Field(), text, "not a spell", "FROM..TO, or FROM.. while it lasts, such as 18:00..19:30"))
			return nil
		}
		s := Spell{From: r.instant(fact, from)}
		if to != "" && r.err == nil {
			s.To = r.end(fact, to, s.From)
		}
		spells = append(spells, s)
	}
	return spells
}

func (r *wordReader) probes(texts []string) []Probe {
	var probes []Probe
	for _, text := range texts {
		at, c, _ := strings.Cut(text, "=")
		at, c = strings.TrimSpace(at), strings.TrimSpace(c)
		if at == "" || c == "" {
			r.fail(units.WrongField(FactProbe.Field(), text, "not a reading", `a time and a temperature, such as "14:30=25 C"`))
			return nil
		}
		p := Probe{At: r.instant(FactProbe, at), C: r.temperature(FactProbe, c).C}
		probes = append(probes, p)
	}
	return probes
}

// yes reads a fact that is so or is not.
func (r *wordReader) yes(fact Fact, text string) bool {
	switch text {
	case "yes":
		return true
	case "", "no":
		return false
	}
	r.fail(fact.wrong(text, "neither yes nor no", "yes, or leave it out"))
	return false
}

// end reads a spell's end; a bare time of day is of the day it began.
func (r *wordReader) end(fact Fact, text string, from time.Time) time.Time {
	if units.IsTimeOfDay(text) {
		text = from.In(r.Zone).Format(time.DateOnly) + "T" + text
	}
	return r.instant(fact, text)
}

func (r *wordReader) temperature(fact Fact, text string) Temperature {
	if text == "" || r.err != nil {
		return Temperature{}
	}
	t, err := ParseTemperature(fact.Field(), text)
	if err != nil {
		r.fail(err)
	}
	return t
}

// ParseTemperature reads "4 C" or "40 F". Its error is of the field.
func ParseTemperature(field, text string) (Temperature, error) {
	const accepted = `one temperature with its unit, such as "4 C" or "40 F"`
	q, err := units.Parse(text, units.Metric)
	if err != nil || q.IsRange() || q.Dimension() != units.Temperature {
		return Temperature{}, units.WrongField(field, text, "not a temperature", accepted)
	}
	c, err := q.Float64(units.Celsius)
	if err != nil {
		return Temperature{}, units.WrongField(field, text, "not a temperature", accepted)
	}
	return Celsius(c), nil
}
