package heat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Boiling against a prototype of another hand.
func TestBoilingTable(t *testing.T) {
	for _, r := range table(t, "boiling.csv") {
		waxy := waxyOf(t, 33, r.number(t, "target"))
		e, err := Boil(waxy, cut(t, r["cut"]), Tender, Water{ML: r.number(t, "water_ml")}, Conditions{LoadGrams: r.number(t, "grams"), NetPowerW: r.number(t, "net_w")})
		require.NoError(t, err)
		assert.InDelta(t, r.number(t, "from_loading"), e.FromLoading, r.number(t, "tolerance_min"), r["id"])
		if r["back_min"] != "" {
			assert.InDelta(t, r.number(t, "back_min"), e.ComeUp, r.number(t, "tolerance_min"), r["id"])
		}
	}
}

// Heat in is heat in the food, in water and pot, lost and boiled off: within 2 %.
func TestPotsLoseNoHeat(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 2031))
	for range 40 {
		crop, cut, c := anySteaming(r)
		s, err := newSituation(crop, cut, Tender, c.filled())
		require.NoError(t, err)
		w := Water{ML: 300 + r.Float64()*3000, Lidless: r.IntN(2) == 0, Cold: r.IntN(3) == 0}
		p := s.boiling(c.LoadGrams, w, fire{powerW: 200 + r.Float64()*2000, lossWK: r.Float64() * 2, openM2: 0.03, panJK: 400})
		begun := p.waterC
		for range 30 + r.IntN(200) {
			p.advance()
		}
		food := c.LoadGrams / 1e3 * s.props.HeatCapacity * (heatOf(p.t[:shells], s.body.Exponent) - s.start)
		water := p.heatJK * (p.waterC - begun)
		assert.InEpsilon(t, p.made, food+water+p.lost+p.boiledOff, 0.005)
		assert.InEpsilon(t, p.taken, food, 0.005)
		assert.LessOrEqual(t, p.waterC, p.heldC)
	}
}

// Water sets how deep it cools, not how long it takes to boil again; a lid, a
// simmer, a cold start and a weak stove each do what they do.
func TestBoilingConditions(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	boil := func(w Water, c Conditions) Estimate {
		e, err := Boil(waxy, cubes, Tender, w, c)
		require.NoError(t, err)
		assert.InDelta(t, e.ComeUp+e.Minutes, e.FromLoading, 1e-9)
		return e
	}
	little, much := boil(Water{ML: 800}, Conditions{}), boil(Water{ML: 3000}, Conditions{})
	assert.InEpsilon(t, little.ComeUp, much.ComeUp, 0.2)
	assert.Greater(t, much.LowestC, little.LowestC+3)
	// x m cp (Tb - T0) / Q, with 0.61 to 0.84 of its heat taken by then.
	whole := 0.5 * little.Properties.HeatCapacity * 85 / DefaultBoilingW / 60
	assert.Greater(t, much.ComeUp, 0.5*whole)
	assert.Less(t, much.ComeUp, 0.9*whole)

	simmer := boil(Water{HeldC: 95}, Conditions{})
	assert.Equal(t, 95.0, simmer.SteamC)
	assert.Greater(t, simmer.Minutes, boil(Water{}, Conditions{}).Minutes)
	cold := boil(Water{Cold: true}, Conditions{NetPowerW: 300})
	assert.Greater(t, cold.ComeUp, 15.0)
	assert.True(t, cold.Firming.Slow)
	assert.False(t, boil(Water{Cold: true}, Conditions{}).Firming.Slow, "faster than 3 °C a minute")

	// A stove that never brings it back is answered from loading.
	weak, _, err := boilIn(t, waxy, cubes, Water{Lidless: true}, fire{powerW: 350, lossWK: 1, openM2: 0.03, panJK: 400})
	require.NoError(t, err)
	assert.False(t, weak.FreeFirst)
	assert.Zero(t, weak.Minutes)
	assert.Greater(t, weak.FromLoading, simmer.FromLoading)
	for _, bad := range []Water{{HeldC: 60}, {HeldC: 105}, {ML: -1}, {ML: 1e6}, {ML: math.NaN()}} {
		_, err := Boil(waxy, cubes, Tender, bad, Conditions{})
		assert.Error(t, err, "%+v", bad)
	}
}

func boilIn(t testing.TB, crop Crop, cut Cut, w Water, f fire) (Estimate, *pot, error) {
	return boil(crop, cut, Tender, w, Conditions{}, f)
}

// An open surface at 95 °C loses about 6.3 kW/m² (computed by another hand).
func TestOpenWaterEvaporates(t *testing.T) {
	assert.InEpsilon(t, 6300, evaporating(95, 20), 0.02)
	assert.Zero(t, evaporating(0, 40))
}
