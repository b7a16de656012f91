package keeping

import (
	"slices"
	"time"
)

// AsOf is the history as it stood at a moment: what came after it has not
// happened yet, and what ended after it still goes on. What bears no time (how
// often it was heated up, the tubers, the eaters) stands as it is.
func (b Batch) AsOf(t time.Time) Batch {
	for _, at := range []*time.Time{&b.CookedAt, &b.HotUntil, &b.ChilledAt, &b.FrozenAt, &b.ThawedAt} {
		*at = upTo(t, *at)
	}
	b.Out, b.PowerOff = spellsAsOf(t, b.Out), spellsAsOf(t, b.PowerOff)
	b.Probes = slices.DeleteFunc(slices.Clone(b.Probes), func(p Probe) bool { return p.At.After(t) })
	return b
}

func upTo(t, at time.Time) time.Time {
	if at.After(t) {
		return time.Time{}
	}
	return at
}

func spellsAsOf(t time.Time, spells []Spell) []Spell {
	var begun []Spell
	for _, s := range spells {
		if !s.From.After(t) {
			s.To = upTo(t, s.To)
			begun = append(begun, s)
		}
	}
	return begun
}

// events are the moments from its cooking on at which something happened to
// the batch, in order.
func (b Batch) events() []time.Time {
	all := []time.Time{b.CookedAt, b.HotUntil, b.ChilledAt, b.FrozenAt, b.ThawedAt}
	for _, s := range slices.Concat(b.Out, b.PowerOff) {
		all = append(all, s.From, s.To)
	}
	for _, p := range b.Probes {
		all = append(all, p.At)
	}
	all = slices.DeleteFunc(all, func(t time.Time) bool { return t.IsZero() || t.Before(b.CookedAt) })
	slices.SortFunc(all, time.Time.Compare)
	return slices.CompactFunc(all, time.Time.Equal)
}
