package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The two-point method (rule cool-two-point) foretells from the last two
// readings whether 21 °C is reached within two hours of 57 or 60 °C; the rates
// are computed by hand from its formula.
func TestTwoReadingsForetell(t *testing.T) {
	at := func(minutes int) time.Time { return noon.Add(time.Duration(minutes) * time.Minute) }
	slow := []Probe{{at(10), 80}, {at(40), 60}} // 0.35 per hour towards 20 °C: 21 °C in 4 h 30 min more
	cases := []struct {
		name      string
		authority Authority
		change    func(b *Batch)
		asked     int
		warning   string
	}{
		{"too slow in the air", Strictest, func(b *Batch) { b.ChilledAt, b.Probes = time.Time{}, slow }, 70,
			"At this rate it is not at 21 °C by 14:40; spread it out, or stand the dish in cold water."},
		{"counted from the last reading at 60 °C", AustraliaAndNZ, func(b *Batch) { b.ChilledAt, b.Probes = time.Time{}, []Probe{{at(10), 70}, {at(20), 60}, {at(40), 55}} }, 70,
			"At this rate it is not at 21 °C by 14:20; spread it out, or stand the dish in cold water."},
		{"the last two readings count, in their order of time", Strictest, func(b *Batch) {
			b.Air, b.ChilledAt, b.Probes = Celsius(4), time.Time{}, []Probe{{at(40), 30}, {at(5), 57}, {at(10), 56}}
		}, 70, ""},
		{"fast enough on a cold night", Strictest, func(b *Batch) {
			b.Air, b.ChilledAt, b.Probes = Celsius(4), time.Time{}, []Probe{{at(10), 57}, {at(40), 30}}
		}, 70, ""},
		{"too slow in the fridge", Strictest, func(b *Batch) { b.Probes = []Probe{{at(70), 50}, {at(100), 45}} }, 110,
			"At this rate it is not at 21 °C by 14:00; spread it out, or stand the dish in cold water."},
		{"in the air, a reading as it goes into the fridge", Strictest, func(b *Batch) { b.Probes = []Probe{{at(30), 70}, {at(60), 50}} }, 110,
			"At this rate it is not at 21 °C by 14:30; spread it out, or stand the dish in cold water."},
		{"in the fridge from the first reading on", Strictest, func(b *Batch) { b.Probes = []Probe{{at(60), 50}, {at(100), 48}} }, 110,
			"At this rate it is not at 21 °C by 14:00; spread it out, or stand the dish in cold water."},
		{"a fridge nobody measured", Strictest, func(b *Batch) { b.Fridge, b.Probes = Temperature{}, []Probe{{at(70), 50}, {at(100), 45}} }, 110, ""},
		{"air nobody measured", Strictest, func(b *Batch) { b.Air, b.ChilledAt, b.Probes = Temperature{}, time.Time{}, slow }, 70, ""},
		{"one reading in the air, one in the fridge", Strictest, func(b *Batch) { b.Probes = []Probe{{at(50), 50}, {at(100), 45}} }, 110, ""},
		{"one reading", Strictest, func(b *Batch) { b.Probes = slow[:1] }, 110, ""},
		{"at 21 °C already", Strictest, func(b *Batch) { b.Probes = []Probe{{at(10), 22}, {at(40), 21}} }, 110, ""},
		{"never, in air as warm", Strictest, func(b *Batch) {
			b.Air, b.ChilledAt, b.Probes = Celsius(21), time.Time{}, []Probe{{at(10), 50}, {at(40), 30}}
		}, 70,
			"At this rate it is not at 21 °C by 14:00; spread it out, or stand the dish in cold water."},
		{"the UK has no stages", UnitedKingdom, func(b *Batch) { b.ChilledAt, b.Probes = time.Time{}, slow }, 70, ""},
		{"kept hot it does not cool", Strictest, func(b *Batch) {
			b.ChilledAt, b.HotAt, b.Probes = time.Time{}, Celsius(70), []Probe{{at(10), 80}, {at(40), 79}}
		}, 70, ""},
		{"readings of when it was out again do not count", Strictest, func(b *Batch) {
			b.Probes = []Probe{{at(130), 20}, {at(160), 19.9}}
			b.Out = []Spell{{From: at(120), To: at(180)}}
		}, 200, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			c.change(&b)
			v, err := Judge(b, c.authority, at(c.asked))
			require.NoError(t, err)
			var warnings []string
			for _, w := range v.Warnings {
				if len(w.Rules) > 0 && w.Rules[0] == "cool-two-point" {
					warnings = append(warnings, w.Says)
				}
			}
			if c.warning == "" {
				assert.Empty(t, warnings)
				return
			}
			assert.Equal(t, []string{c.warning}, warnings)
		})
	}
}

// Readings judge the first cooling alone: not those before it began, after it
// was frozen, or once it was out again.
func TestReadingsOfTheFirstCooling(t *testing.T) {
	at := func(minutes int) time.Time { return noon.Add(time.Duration(minutes) * time.Minute) }
	warm := Probe{at(150), 30}
	cases := []struct {
		name    string
		change  func(b *Batch)
		discard bool
	}{
		{"warm in the fridge", func(*Batch) {}, true},
		{"as it was frozen", func(b *Batch) { b.FrozenAt = at(150) }, true},
		{"after it was frozen", func(b *Batch) { b.FrozenAt = at(149) }, false},
		{"as it came out", func(b *Batch) { b.Out = []Spell{{From: at(150), To: at(160)}} }, true},
		{"after it came out", func(b *Batch) { b.Out = []Spell{{From: at(149), To: at(160)}} }, false},
		{"before any cooling, kept hot", func(b *Batch) { b.HotAt, b.HotUntil, b.ChilledAt = Celsius(70), at(151), at(200) }, false},
		{"as the cooling begins", func(b *Batch) { b.HotAt, b.HotUntil, b.ChilledAt = Celsius(70), at(150), at(200) }, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			b.Probes = []Probe{warm}
			c.change(&b)
			v, err := Judge(b, UnitedStates, at(400))
			require.NoError(t, err)
			assert.Equal(t, c.discard, v.Kind == Discard, v.Sentence)
			if c.discard {
				assert.Equal(t, "By the probe it was still at 30 °C at 14:30; 21 °C was to be reached by 14:00.", v.Sentence)
				assert.Equal(t, at(120), v.Since)
				assert.Equal(t, []string{"us-cool-two-stage", "haz-perfringens"}, v.Reasons[0].Rules)
			}
		})
	}
}
