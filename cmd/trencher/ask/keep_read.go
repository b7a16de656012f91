package ask

import (
	"strings"
	"time"

	"trencher/recipes/keeping"
	"trencher/units"
)

// keepReader reads typed facts and keeps the first error.
type keepReader struct {
	clock
	err error
}

func (r *keepReader) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}

func (r *keepReader) instant(fact keeping.Fact, text string) time.Time {
	if text == "" || r.err != nil {
		return time.Time{}
	}
	t, err := r.moment(fact.Field(), text)
	if err != nil {
		r.fail(err)
	}
	return t
}

func (r *keepReader) spells(fact keeping.Fact, texts []string) []keeping.Spell {
	var spells []keeping.Spell
	for _, text := range texts {
		from, to, ok := strings.Cut(text, "..")
		from, to = strings.TrimSpace(from), strings.TrimSpace(to)
		if !ok || from == "" {
			r.fail(units.WrongField(fact.Field(), text, "not a spell", "FROM..TO, or FROM.. while it lasts, such as 18:00..19:30"))
			return nil
		}
		s := keeping.Spell{From: r.instant(fact, from)}
		if to != "" && r.err == nil {
			s.To = r.end(fact, to, s.From)
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
			r.fail(units.WrongField(keeping.FactProbe.Field(), text, "not a reading", `a time and a temperature, such as "14:30=25 C"`))
			return nil
		}
		p := keeping.Probe{At: r.instant(keeping.FactProbe, strings.TrimSpace(at)), C: r.temperature(keeping.FactProbe, strings.TrimSpace(c)).C}
		probes = append(probes, p)
	}
	return probes
}

// end reads a spell's end; a bare time of day is of the day it began.
func (r *keepReader) end(fact keeping.Fact, text string, from time.Time) time.Time {
	if isTimeOfDay(text) {
		text = from.In(r.zone).Format(time.DateOnly) + "T" + text
	}
	return r.instant(fact, text)
}

func (r *keepReader) temperature(fact keeping.Fact, text string) keeping.Temperature {
	if text == "" || r.err != nil {
		return keeping.Temperature{}
	}
	t, err := celsiusOf(fact.Field(), text)
	if err != nil {
		r.fail(err)
	}
	return t
}

func celsiusOf(field, text string) (keeping.Temperature, error) {
	const accepted = `one temperature with its unit, such as "4 C" or "40 F"`
	q, err := units.Parse(text, units.Metric)
	if err != nil || q.IsRange() || q.Dimension() != units.Temperature {
		return keeping.Temperature{}, units.WrongField(field, text, "not a temperature", accepted)
	}
	c, err := q.Float64(units.Celsius)
	if err != nil {
		return keeping.Temperature{}, units.WrongField(field, text, "not a temperature", accepted)
	}
	return keeping.Celsius(c), nil
}
