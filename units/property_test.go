package units_test

import (
	"encoding/json"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"trencher/units"
)

// randomAmount is a rational such as recipes and weighings hold.
func randomAmount(random *rand.Rand) *big.Rat {
	denominators := []int64{1, 1, 2, 3, 4, 6, 8, 10, 16, 100, 1000, 7, 1_000_003}
	return big.NewRat(random.Int64N(5_000_000), denominators[random.IntN(len(denominators))])
}

// randomQuantity is an amount or a range of any unit; gas marks only as their
// dial has them.
func randomQuantity(random *rand.Rand) units.Quantity {
	all := units.All()
	u := all[random.IntN(len(all))]
	if u == units.GasMark {
		return units.FromRat(big.NewRat(1+random.Int64N(10), 1), u)
	}
	low := randomAmount(random)
	if (u == units.Celsius || u == units.Fahrenheit) && random.IntN(2) == 0 {
		low.SetFrac64(-random.Int64N(27_315), 100)
	}
	if random.IntN(3) == 0 {
		return units.FromRange(low, new(big.Rat).Add(low, randomAmount(random)), u)
	}
	return units.FromRat(low, u)
}

// Through any pair of units and back is the same number.
func TestRoundTripIsIdentity(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	pairs := 0
	for _, from := range units.All() {
		for _, to := range units.All() {
			q := units.FromRat(randomAmount(random), from)
			there, err := q.In(to)
			if err != nil || from == units.GasMark || to == units.GasMark || from.Dimension() != to.Dimension() {
				continue
			}
			back, err := there.In(from)
			require.NoError(t, err)
			require.True(t, back.Same(q), "%s through %s", q, to)
			require.True(t, there.Equal(q))
			pairs++
		}
	}
	require.Greater(t, pairs, 3000)
}

// Conversion keeps order and range.
func TestOrderIsKept(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	all := units.All()
	for range units.Cases(8_000, 20_000) {
		q := randomQuantity(random)
		o := units.FromRat(randomAmount(random), q.Unit())
		to := all[random.IntN(len(all))]
		q2, err := q.In(to)
		o2, err2 := o.In(to)
		if err != nil || err2 != nil {
			continue
		}
		before, err := q.Compare(o)
		require.NoError(t, err)
		after, err := q2.Compare(o2)
		require.NoError(t, err)
		require.Equal(t, before, after, "%s and %s in %s", q, o, to)
		require.Equal(t, q.IsRange(), q2.IsRange())
	}
}

// What is written is read back as the same, as text, YAML and JSON, under any
// system.
func TestWrittenIsReadBack(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for i := range units.Cases(8_000, 20_000) {
		q := randomQuantity(random)
		if i == 0 {
			q = units.ToTaste()
		}
		for _, s := range []units.System{units.NoSystem, units.Metric, units.UK, units.US, units.AU} {
			read, err := units.Parse(q.String(), s)
			require.NoError(t, err)
			require.True(t, read.Same(q), "%s", q)
			read, err = units.Parse(q.Format(s), s)
			require.NoError(t, err, "%s under %s", q, s)
			require.True(t, read.Same(q), "%s under %s", q, s)
		}
		var fromJSON, fromYAML units.Quantity
		text, err := json.Marshal(q)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(text, &fromJSON))
		require.True(t, fromJSON.Same(q), "%s", text)
		if i%20 == 0 {
			text, err = yaml.Marshal(q)
			require.NoError(t, err)
			require.NoError(t, yaml.Unmarshal(text, &fromYAML))
			require.True(t, fromYAML.Same(q), "%s", text)
		}
	}
}

// The zero Quantity is no amount in every form, and not 0 g.
func TestNoAmount(t *testing.T) {
	var none units.Quantity
	require.False(t, none.IsValid())
	require.Empty(t, none.String())
	require.False(t, none.Equal(units.MustParse("0 g")))
	require.True(t, none.Equal(units.Quantity{}))
	text, err := json.Marshal(map[string]units.Quantity{"amount": none})
	require.NoError(t, err)
	require.JSONEq(t, `{"amount":null}`, string(text))
	var back map[string]units.Quantity
	require.NoError(t, json.Unmarshal(text, &back))
	require.False(t, back["amount"].IsValid())
	_, err = none.In(units.Gram)
	require.ErrorIs(t, err, units.ErrNoAmount)
	_, err = units.ToTaste().Add(units.MustParse("1 g"))
	require.ErrorIs(t, err, units.ErrNoAmount)
}

// Sums are exact and the same in any order and unit.
func TestArithmetic(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for range 5_000 {
		q := randomQuantity(random)
		if q.Dimension() == units.Temperature {
			_, err := q.Add(q)
			require.ErrorIs(t, err, units.ErrTemperatures)
			continue
		}
		o := units.FromRat(randomAmount(random), q.Unit())
		sum, err := q.Add(o)
		require.NoError(t, err)
		other, err := o.Add(q)
		require.NoError(t, err)
		require.True(t, sum.Equal(other))
		back, err := sum.Sub(o)
		require.NoError(t, err)
		require.True(t, back.Same(q), "%s + %s - %s", q, o, o)
		twice, err := q.Add(q)
		require.NoError(t, err)
		require.True(t, twice.Same(q.Scale(big.NewRat(2, 1))))
	}
	sum, err := units.MustParse("1 lb").Add(units.MustParse("500 g"))
	require.NoError(t, err)
	require.Equal(t, "2 4640763/45359237 lb", sum.String())
	_, err = units.MustParse("1 lb").Add(units.MustParse("1 l"))
	var wrong *units.DimensionError
	require.ErrorAs(t, err, &wrong)
	require.EqualError(t, err, "1 l is a volume, not a mass")
	_, err = units.MustParse("2 cloves").Add(units.MustParse("1 bulb"))
	require.EqualError(t, err, `1 bulb is counted in "bulb", not "clove"`)
}
