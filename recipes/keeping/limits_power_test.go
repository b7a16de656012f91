package keeping

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	foodSafetyGov = "FoodSafety.gov (US), Refrigerated Food and Power Outages"
	ours          = "a choice of ours, no source"
)

// Every limit of the clocks for power, cool boxes and food heated up again, by every
// authority that has it: at it, and a minute or a tenth of a degree to either side.
func TestLimitsOfPower(t *testing.T) {
	all := []Authority{Strictest, UnitedKingdom, UnitedStates, AustraliaAndNZ}
	h := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	min := func(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }
	change := func(f func(*Batch)) Batch { b := chilledBatch(); f(&b); return b }
	frozen := func(f func(*Batch)) Batch {
		return change(func(b *Batch) { b.FrozenAt = h(2); f(b) })
	}
	warns := func(rule string) func(Verdict) bool {
		return func(v Verdict) bool {
			return slices.ContainsFunc(v.Warnings, func(r Reason) bool { return slices.Contains(r.Rules, rule) })
		}
	}
	is := func(kind Kind) func(Verdict) bool { return func(v Verdict) bool { return v.Kind == kind } }
	cases := []struct {
		name, source string
		by           []Authority
		limit        float64 // minutes or °C
		step         float64
		history      func(x float64) (Batch, time.Time)
		holds        func(Verdict) bool // what becomes of it
		on           []float64          // the steps at which it does, of -1, 0, 1
		rule         string
	}{
		{"a fridge without power", foodSafetyGov, all, 240, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.PowerOff = []Spell{{h(2), h(2).Add(min(x)), Temperature{}}} }), h(20)
		}, is(Discard), []float64{1}, "power-cut-4h"},
		{"two cuts add up", foodSafetyGov, all, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(4), Temperature{}}, {h(5), h(5).Add(min(x)), Temperature{}}}
			}), h(20)
		}, is(Discard), []float64{1}, "power-cut-adds-up"},
		{"twelve hours of power start the count afresh", ours, all, 720, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(5), Temperature{}}, {h(5).Add(min(x)), h(8).Add(min(x)), Temperature{}}}
			}), h(8.5).Add(min(x))
		}, is(Discard), []float64{-1}, "power-cut-adds-up"},
		{"the hour for a reading after a cut that was too long", ours, all, 60, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(7), Temperature{}}}
				b.Probes = []Probe{{h(7).Add(min(x)), 4}}
			}), h(9)
		}, is(Discard), []float64{1}, "power-cut-4h"},
		{"a cold reading at the very end of the cut", ours, all, 300, 1, func(x float64) (Batch, time.Time) { // before it, the count runs on
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(7), Temperature{}}}
				b.Probes = []Probe{{h(2).Add(min(x)), 4}}
			}), h(9)
		}, is(Discard), []float64{-1}, "power-cut-4h"},
		{"how cold a reading is that clears the food", foodSafetyGov + "; 5 °C in Australia", all, 5, 0.1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(7), Temperature{}}}
				b.Probes = []Probe{{h(7.5), x}}
			}), h(9)
		}, is(Discard), []float64{1}, ""},
		{"the warning after a reading", foodSafetyGov + ": 40 °F", []Authority{UnitedStates, Strictest}, 4.4, 0.1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(7), Temperature{}}}
				b.Probes = []Probe{{h(7.5), x}}
			}), h(9)
		}, warns("power-cut-reading"), []float64{1}, "power-cut-reading"},
		{"the warning from the second hour", "safefood (Ireland), power cuts", all, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.PowerOff = []Spell{{h(2), h(2).Add(min(x)), Temperature{}}} }), h(20)
		}, warns("power-cut-2h"), []float64{0, 1}, "power-cut-2h"},
		{"warm minutes by a reading are time out: what went back", "Food Standards Agency (UK), picnics", []Authority{UnitedKingdom, UnitedStates}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(2).Add(min(x)), Temperature{}}}
				b.Probes = []Probe{{h(2).Add(min(x)), 9}}
			}), h(9)
		}, is(Discard), []float64{1}, ""},
		{"warm minutes by a reading are time out: under two hours", fsanz2h4h, []Authority{AustraliaAndNZ, Strictest}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{h(2), h(2).Add(min(x)), Temperature{}}}
				b.Probes = []Probe{{h(2).Add(min(x)), 9}}
			}), h(9)
		}, is(Discard), []float64{0, 1}, "au-2h4h"},
		{"warm by a reading and off still: no four hours", "UK Food Hygiene Regulations, Schedule 4, paragraph 5(1): for what left the fridge cold", []Authority{UnitedKingdom}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{From: h(2)}}
				b.Probes = []Probe{{h(3), 9}}
			}), h(2).Add(min(x))
		}, is(Discard), []float64{1}, "uk-picnic-2h"},
		{"warm by a reading and off still", "FoodSafety.gov; Frankston City Council (Victoria): over two hours it is thrown out", []Authority{AustraliaAndNZ}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) {
				b.PowerOff = []Spell{{From: h(2)}}
				b.Probes = []Probe{{h(3), 9}}
			}), h(2).Add(min(x))
		}, is(Discard), []float64{0, 1}, "au-2h4h"},
		{"a fridge that is too warm has no four hours", "UK Food Hygiene Regulations, Schedule 4, paragraphs 5(1) and 7(2)", []Authority{UnitedKingdom}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.Fridge = Celsius(9) }), noon.Add(min(x))
		}, is(Discard), []float64{1}, "uk-hot-2h-once"},
		{"a full freezer", foodSafetyGov, all, 48 * 60, 1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) {
				b.Freezer, b.PowerOff = FillFull, []Spell{{h(20), h(20).Add(min(x)), Temperature{}}}
			}), h(20).Add(min(x)).Add(time.Hour)
		}, is(Unknown), []float64{1}, "power-freezer"},
		{"a freezer half full", foodSafetyGov, all, 24 * 60, 1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) {
				b.Freezer, b.PowerOff = FillHalf, []Spell{{h(20), h(20).Add(min(x)), Temperature{}}}
			}), h(20).Add(min(x)).Add(time.Hour)
		}, is(Unknown), []float64{1}, "power-freezer"},
		{"a freezer of which nobody knows how full", foodSafetyGov, all, 24 * 60, 1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) { b.PowerOff = []Spell{{h(20), h(20).Add(min(x)), Temperature{}}} }), h(20).Add(min(x)).Add(time.Hour)
		}, func(v Verdict) bool { return v.Kind == Unknown && v.Missing == FactFreezer }, []float64{1}, "power-freezer"},
		{"and for longer than a full one holds", foodSafetyGov, []Authority{UnitedStates}, 48 * 60, 1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) { b.PowerOff = []Spell{{h(20), h(20).Add(min(x)), Temperature{}}} }), h(20).Add(min(x)).Add(time.Hour)
		}, func(v Verdict) bool { return v.Kind == Unknown && v.Missing == FactProbe }, []float64{1}, "power-freezer-after"},
		{"how cold a reading is that keeps what is in the freezer", foodSafetyGov + ": 40 °F", all, 4.4, 0.1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) {
				b.Freezer, b.PowerOff = FillHalf, []Spell{{h(20), h(46), Temperature{}}}
				b.Probes = []Probe{{h(46.5), x}}
			}), h(47)
		}, is(Discard), []float64{1}, "power-freezer-after"},
		{"a day from when the freezer's time was over", "Food Standards Agency (UK), Food Safety Week 2012: thawed, 24 h", []Authority{Strictest, UnitedKingdom, AustraliaAndNZ}, 24 * 60, 1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) {
				b.Freezer, b.Ice, b.PowerOff = FillHalf, true, []Spell{{h(20), h(46), Temperature{}}}
			}), h(44).Add(min(x))
		}, is(Discard), []float64{1}, "thaw-24h"},
		{"thawed, a day", "Food Standards Agency (UK), Food Safety Week 2012", []Authority{Strictest, UnitedKingdom, AustraliaAndNZ}, 24 * 60, 1, func(x float64) (Batch, time.Time) {
			return frozen(func(b *Batch) { b.ThawedAt = h(500) }), h(500).Add(min(x))
		}, is(Discard), []float64{1}, "thaw-24h"},
		{"heated up again and on the table", "UK Food Hygiene Regulations, Schedule 4, paragraph 7(2)", []Authority{Strictest, UnitedKingdom}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.HeatedUp, b.Out = true, []Spell{{From: h(3)}} }), h(3).Add(min(x))
		}, is(Discard), []float64{1}, ""},
		{"a cool box of which nobody looked at the packs", "out since it was packed: " + ours, []Authority{UnitedStates}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.Air, b.Out = Temperature{}, []Spell{{From: h(2), To: h(2).Add(min(x))}} }), h(9)
		}, is(Discard), []float64{1}, "coolbox-clock"},
		{"a cool box with its packs melted", "out since it was packed: " + ours, []Authority{UnitedStates}, 120, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.Box, b.Out = PacksMelted, []Spell{{From: h(2), To: h(2).Add(min(x))}} }), h(9)
		}, is(Discard), []float64{1}, "coolbox-clock"},
		{"very hot air, in all", "Food Standards Agency (UK), Safe Summer Food, 2017; from what degree is ours", []Authority{UnitedKingdom, UnitedStates, Strictest}, 60, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.Air, b.ChilledAt = Celsius(33), time.Time{} }), noon.Add(min(x))
		}, is(Discard), []float64{1}, ""},
		{"from the fridge into very hot air", "Food Standards Agency (UK), Safe Summer Food, 2017", []Authority{UnitedKingdom}, 60, 1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.ChilledAt, b.Out = noon.Add(10*time.Minute), []Spell{{From: h(3), Air: Celsius(33)}} }), h(3).Add(min(x))
		}, is(Discard), []float64{1}, "uk-very-hot-1h"},
		{"the fridge of a vulnerable eater", "Food Standards Agency (UK), Listeria: 5 °C", []Authority{UnitedKingdom}, 5, 0.1, func(x float64) (Batch, time.Time) {
			return change(func(b *Batch) { b.Vulnerable, b.Fridge = true, Celsius(x) }), h(20)
		}, is(Discard), []float64{1}, "vulnerable-uk-rules"},
	}
	for _, c := range cases {
		for _, a := range c.by {
			t.Run(fmt.Sprintf("%s by %s", c.name, a), func(t *testing.T) {
				for _, step := range []float64{-1, 0, 1} {
					batch, now := c.history(c.limit + step*c.step)
					v, err := Judge(batch, a, now)
					require.NoError(t, err)
					on := slices.Contains(c.on, step)
					assert.Equal(t, on, c.holds(v), "%+g of %g, by %s: %s %s %s", step*c.step, c.limit, c.source, v.Kind, v.Head, v.Sentence)
					if on && c.rule != "" {
						assert.Contains(t, v.Rules(), c.rule)
					}
				}
			})
		}
	}
}
