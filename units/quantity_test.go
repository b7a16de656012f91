package units_test

import (
	"encoding/json"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func TestBuildingQuantities(t *testing.T) {
	half := big.NewRat(1, 2)
	for _, row := range []struct {
		made units.Quantity
		is   string
	}{
		{units.New(decimal.RequireFromString("1.460"), units.Kilogram), "1.46 kg"},
		{units.FromRat(big.NewRat(250, 3), units.Gram), "83 1/3 g"},
		{units.FromRat(big.NewRat(-1, 3), units.Celsius), "-1/3 C"},
		{units.FromRange(big.NewRat(1, 1), big.NewRat(2, 1), units.Piece), "1-2"},
		{units.FromRange(big.NewRat(2, 1), big.NewRat(1, 1), units.Piece), "1-2"},
		{units.FromRange(half, half, units.Litre), "0.5 l"},
		{units.FromRange(big.NewRat(-5, 1), big.NewRat(-2, 1), units.Celsius), "-5 to -2 C"},
		{units.FromRange(big.NewRat(1, 3), big.NewRat(1, 2), units.Gram), "1/3 to 0.5 g"},
		{units.ToTaste(), "to taste"},
		{units.New(decimal.NewFromInt(1), units.Unit{}), ""},
		{units.FromRange(half, big.NewRat(1, 1), units.Unit{}), ""},
	} {
		assert.Equal(t, row.is, row.made.String())
	}
	half.SetInt64(9)
	assert.Equal(t, "0.5 l", units.FromRat(big.NewRat(1, 2), units.Litre).String(), "the rational is copied")
}

func TestAskingQuantities(t *testing.T) {
	q := units.MustParse("1-2 kg")
	low, high := q.Ends()
	low.SetInt64(99)
	assert.Equal(t, "1", q.Rat().RatString(), "what Ends gives is a copy")
	assert.Equal(t, "2", high.RatString())
	assert.True(t, q.IsRange())
	assert.Equal(t, "1 kg", q.Low().String())
	assert.Equal(t, "2 kg", q.High().String())
	assert.Equal(t, units.Mass, q.Dimension())
	assert.Equal(t, units.Kilogram, q.Unit())
	assert.Equal(t, 1, q.Sign())
	assert.False(t, q.IsRough())
	assert.True(t, units.MustParse("a sprig").IsRough())
	assert.Equal(t, "to taste", units.ToTaste().High().String())

	grams, err := q.Float64(units.Gram)
	require.NoError(t, err)
	assert.Equal(t, 1000., grams)
	_, err = q.Float64(units.Litre)
	assert.Error(t, err)

	rounded, exact := units.MustParse("1/3 kg").Rounded(3)
	assert.Equal(t, "0.333 kg", rounded.String())
	assert.False(t, exact)
}

func TestRangesAddAndSubtract(t *testing.T) {
	a, b := units.MustParse("3-5 kg"), units.MustParse("1-2 kg")
	sum, err := a.Add(b)
	require.NoError(t, err)
	assert.Equal(t, "4-7 kg", sum.String())
	rest, err := a.Sub(b)
	require.NoError(t, err)
	assert.Equal(t, "1-4 kg", rest.String(), "the least and the most that may be left")
	assert.Equal(t, "-5 to -3 kg", a.Scale(big.NewRat(-1, 1)).String())
	assert.Equal(t, "to taste", units.ToTaste().Scale(big.NewRat(2, 1)).String())
	_, err = a.Sub(units.MustParse("1 l"))
	assert.Error(t, err)
}

func TestComparing(t *testing.T) {
	for _, row := range []struct {
		a, b  string
		order int
	}{
		{"1 kg", "1000 g", 0},
		{"1 lb", "450 g", 1},
		{"1 pt UK", "1 pt US", 1},
		{"1-2 kg", "1-3 kg", -1},
		{"32 F", "0 C", 0},
		{"gas mark 4", "180 C", -1},
		{"10 rods", "250 m2", 1},
	} {
		b := units.MustParse(row.b)
		a, err := units.MustParse(row.a).In(b.Unit())
		if row.a == "gas mark 4" {
			a, err = units.MustParse(row.a).In(units.Celsius)
		}
		require.NoError(t, err)
		order, err := a.Compare(b)
		require.NoError(t, err)
		assert.Equal(t, row.order, order, "%s and %s", row.a, row.b)
		assert.Equal(t, row.order == 0, a.Equal(b))
	}
	_, err := units.MustParse("1 kg").Compare(units.MustParse("1 l"))
	assert.Error(t, err)
	_, err = units.ToTaste().Compare(units.MustParse("1 l"))
	assert.ErrorIs(t, err, units.ErrNoAmount)
	assert.True(t, units.ToTaste().Equal(units.ToTaste()))
	assert.False(t, units.ToTaste().Equal(units.Quantity{}))
	assert.False(t, units.MustParse("1 kg").Equal(units.MustParse("1 l")))
}

func TestAsTextAndJSON(t *testing.T) {
	type line struct {
		Amount units.Quantity            `json:"amount"`
		By     map[string]units.Quantity `json:"by"`
	}
	in := line{units.MustParse("1/3 tbsp"), map[string]units.Quantity{"salt": units.ToTaste()}}
	text, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"amount":{"value":"0.3333333333333333","unit":"[tbs_m]","exact":false,"ratio":"1/3"},"by":{"salt":{"exact":true,"to_taste":true}}}`, string(text))
	var out line
	require.NoError(t, json.Unmarshal(text, &out))
	assert.True(t, out.Amount.Same(in.Amount))
	assert.True(t, out.By["salt"].IsToTaste())

	for _, bad := range []string{
		`{"value":"x","unit":"g"}`, `{"value":"1","unit":"stonez"}`, `{"low":"1","high":"y","unit":"g"}`, `{"low":"2","high":"1","unit":"g"}`,
		`{"value":"1e9","unit":"g"}`, `{"value":"1","ratio":"1/0","unit":"g"}`, `"3 blobs"`, `"1 pint"`, `[]`, `3`, `{}`,
	} {
		q := units.MustParse("7 g")
		assert.Error(t, json.Unmarshal([]byte(bad), &q), bad)
		assert.Equal(t, "7 g", q.String(), "what cannot be read changes nothing")
	}
	var q units.Quantity
	require.NoError(t, q.UnmarshalText([]byte("2 lb 4 oz")))
	written, err := q.MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "2.25 lb", string(written))
	require.NoError(t, q.UnmarshalText(nil))
	assert.False(t, q.IsValid())
}

func TestUnitsTellOfThemselves(t *testing.T) {
	var none units.Unit
	assert.False(t, none.IsValid())
	assert.Empty(t, none.Name()+none.Symbol()+none.Code()+none.Definition()+none.Note()+none.Caution()+none.Kind())
	assert.Equal(t, units.NoDimension, none.Dimension())
	for name, size := range map[string]string{
		"pint (UK)": "568.26125 ml", "degree Fahrenheit": "0 is -17 7/9 C, a degree 5/9 C", "clove": "1 clove", "dozen": "12",
		"gas mark": "250 F and 25 F a mark; a half is 250 F, a quarter 225 F",
	} {
		u := unitNamed(t, name)
		assert.Equal(t, size, u.Definition())
		assert.NotEmpty(t, u.Origin().Source)
		assert.NotEmpty(t, u.Origin().KnownBy)
	}
	for name, one := range map[string]string{"piece": "a piece", "clove": "a clove", "ear": "an ear", "large": "a large one", "extra large": "an extra large one", "gram": "gram"} {
		assert.Equal(t, one, unitNamed(t, name).One())
	}
	assert.True(t, units.Gram.IsBase())
	assert.False(t, units.Kilogram.IsBase() || units.Unit{}.IsBase())
	assert.Equal(t, units.UK, units.PintUK.System())
	assert.Contains(t, unitNamed(t, "gill (UK)").Caution(), "half a pint")
	s, err := units.ParseSystem(" UK ")
	require.NoError(t, err)
	assert.Equal(t, units.UK, s)
	_, err = units.ParseSystem("imperial")
	assert.EqualError(t, err, `"imperial": not a system of measures`)
}
