package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each step that took part in a decision gives its reason, the deciding one
// first, and says which choices are ours. The figures are those of
// TestLimitsOfTime and TestLimitsOfTemperature.
func TestReasons(t *testing.T) {
	at := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	const (
		oursFrom = "ours: The life is counted from the end of cooking of the oldest part; most sources do not say from when."
		oursCool = "ours: The cooling is judged by itself and not added to later time out."
		own      = "Rules for cooked potatoes in particular."
		noGood   = "Neither heating it up nor a good smell makes it good."
		cold     = "In a cold fridge it has 48 h from the end of cooking."
	)
	cases := []struct {
		name   string
		change func(b *Batch)
		now    float64
		want   []string
	}{
		{"in the fridge", func(*Batch) {}, 3,
			[]string{cold, "It took 1 h to get into the fridge; up to 2 h it may.", own, oursFrom, oursCool}},
		{"cooled in hot air, within a hair's breadth", func(b *Batch) { b.Air = Celsius(33) }, 3,
			[]string{cold, "In air above 32.2 °C the two hours are one.", "ours: A minute in such air is counted as two, so that hot and mild spells can be added.",
				"It took 1 h in hot air (counted as 2 h) to get into the fridge; up to 2 h it may.", own, oursFrom, oursCool}},
		{"and out in hot air besides, told once", func(b *Batch) { b.Air, b.Out = Celsius(33), []Spell{{From: at(2), To: at(2.5)}} }, 3,
			[]string{cold, "In air above 32.2 °C the two hours are one.", "ours: A minute in such air is counted as two, so that hot and mild spells can be added.",
				"It took 1 h in hot air (counted as 2 h) to get into the fridge; up to 2 h it may.",
				"It has been out for 1 h in all; under 2 h it may be.", own, oursFrom, oursCool}},
		{"kept hot enough", func(b *Batch) { b.HotAt, b.HotUntil = Celsius(65), at(0.5) }, 3,
			[]string{cold, "Kept hot at 65 °C, at or above 63 °C, no cooling time ran.", "It took 30 min to get into the fridge; up to 2 h it may.", own, oursFrom, oursCool}},
		{"kept not hot enough", func(b *Batch) { b.HotAt, b.HotUntil = Celsius(60), at(0.5) }, 3,
			[]string{cold, "Kept at 60 °C it was not hot enough, 63 °C is the least; so it has been cooling since it was cooked.", "It took 1 h to get into the fridge; up to 2 h it may.", own, oursFrom, oursCool}},
		{"in a fridge too warm", func(b *Batch) { b.Fridge = Celsius(6) }, 1.5,
			[]string{"It has been out for 1 h 30 min in all.", "It took 1 h to get into the fridge; up to 2 h it may.",
				"A fridge at 6 °C is warmer than 5 °C, so the time in it is time out.", "ours: It never ended the cooling, so the time before it counts with it.", own, oursFrom, oursCool}},
		{"through a power cut", func(b *Batch) { b.PowerOff = []Spell{{From: at(2), To: at(5)}} }, 8,
			[]string{cold, "It took 1 h to get into the fridge; up to 2 h it may.",
				"The fridge was without power for 3 h in all; up to 4 h it may be, kept shut.", own, oursFrom, oursCool}},
		{"into a dead fridge", func(b *Batch) { b.PowerOff = []Spell{{From: at(0.5), To: at(1.5)}} }, 3,
			[]string{cold, "ours: A fridge without power does not cool; it counts as in the fridge from the end of the power cut.",
				"It took 1 h 30 min to get into the fridge; up to 2 h it may.", "The fridge was without power for 1 h in all; up to 4 h it may be, kept shut.", own, oursFrom, oursCool}},
		{"on the table", func(b *Batch) { b.Out = []Spell{{From: at(2)}} }, 3,
			[]string{"It has been out for 1 h in all.", "It took 1 h to get into the fridge; up to 2 h it may.", own, oursFrom, oursCool}},
		{"in a cool box, which is no time out", func(b *Batch) { b.Out = []Spell{{From: at(2), To: at(4), Air: Celsius(5)}} }, 5,
			[]string{cold, "It took 1 h to get into the fridge; up to 2 h it may.", own, oursFrom, oursCool}},
		{"after a power cut", func(b *Batch) { b.PowerOff = []Spell{{From: at(0.25), To: at(0.5)}} }, 3,
			[]string{cold, "It took 1 h to get into the fridge; up to 2 h it may.", "The fridge was without power for 15 min in all; up to 4 h it may be, kept shut.", own, oursFrom, oursCool}},
		{"as a power cut ends", func(b *Batch) { b.PowerOff = []Spell{{From: at(0.25), To: at(1)}} }, 3,
			[]string{cold, "It took 1 h to get into the fridge; up to 2 h it may.", "The fridge was without power for 45 min in all; up to 4 h it may be, kept shut.", own, oursFrom, oursCool}},
		{"cooled too slowly", func(b *Batch) { b.ChilledAt = at(2.5) }, 3,
			[]string{"It took 2 h 30 min to get into the fridge; 2 h is the most.", noGood, own, oursFrom, oursCool}},
		{"garlic in oil", func(b *Batch) { b.Food = "garlic-oil" }, 3,
			[]string{"In a cold fridge it has 96 h from the end of cooking.", "It took 1 h to get into the fridge; up to 2 h it may.", "Rules for garlic in oil in particular.",
				"ours: Never to be kept at room temperature, it is given 2 h for making and serving and no more.", oursFrom, oursCool}},
		{"of a food nobody named", func(b *Batch) { b.Food = "" }, 3,
			[]string{"Find it out and ask again; if you cannot, throw it out, for smell and looks do not tell."}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			c.change(&b)
			v, err := Judge(b, Strictest, at(c.now))
			require.NoError(t, err)
			var says []string
			for _, r := range v.Reasons {
				text := r.Says
				if r.Ours {
					text = "ours: " + text
				} else {
					assert.NotEmpty(t, r.Rules, text)
				}
				says = append(says, text)
			}
			assert.Equal(t, c.want, says)
			assert.Equal(t, v.Sentence, v.Reasons[0].Says)
		})
	}
}
