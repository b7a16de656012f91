package units_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
)

// FuzzParse: no text stops the reader, and what reads once is written and
// read back as the same, converts into its base unit and back, and measures
// out to something.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"1½ pt UK", "1 1/2 UK pint", "0,75 kg", "2 lb 4 oz", "1-2 tbsp", "2 to 3 tsp", "3", "to taste", "a pinch",
		"gas mark ½", "-5 to -2 C", "2,750", "1/0 g", "½¼ g", "3 [foz_br]", "2 {piece}", "5' 3\"", "half a dozen",
		"10 rods", "2 m2", "1lb6oz", "three quarters of a pound", "1e9 g", "99999999999999999999 t", "↉", "1.5.5",
	} {
		f.Add(seed, uint8(1))
	}
	f.Fuzz(func(t *testing.T, text string, system uint8) {
		s := units.System(system % 5)
		q, err := units.Parse(text, s)
		if err != nil {
			require.NotEmpty(t, err.Error())
			require.False(t, q.IsValid(), "an error comes with no amount")
			return
		}
		require.True(t, q.IsValid())
		back, err := units.Parse(q.String(), units.NoSystem)
		require.NoError(t, err, "%q", q.String())
		require.True(t, back.Same(q), "%q became %q", text, q)
		back, err = units.Parse(q.Format(s), s)
		require.NoError(t, err, "%q", q.Format(s))
		require.True(t, back.Same(q), "%q under %q became %q", text, s, q.Format(s))
		if q.IsToTaste() {
			return
		}
		for _, u := range units.All() {
			in, err := q.In(u)
			if err != nil || q.Unit() == units.GasMark || u == units.GasMark || u.Dimension() != q.Dimension() {
				continue
			}
			back, err := in.In(q.Unit())
			require.NoError(t, err)
			require.True(t, back.Same(q), "%q through %s", q, u)
		}
		m := units.Kitchen{System: s}.Measure(q, units.MeasureOptions{})
		require.NotEmpty(t, m.Text)
		require.Equal(t, q.Sign() > 0, m.Value.Sign() > 0, "%q measured as %q", q, m.Text)
	})
}

// FuzzUnmarshalJSON: no JSON stops the reader, and what reads is written and
// read back as the same.
func FuzzUnmarshalJSON(f *testing.F) {
	for _, seed := range []string{
		`{"value":"852.391875","unit":"mL","exact":true}`, `{"low":"1","high":"2","unit":"[tbs_m]","exact":true}`,
		`{"value":"0.3333333333333333","unit":"g","exact":false,"ratio":"1/3"}`, `"2 lb 4 oz"`, `null`, `{"to_taste":true}`,
		`{"value":"1e999999999","unit":"g"}`, `{"low":"2","high":"1","unit":"g"}`, `{"value":"1","unit":"t"}`, `{"value":"1","unit":"g","ratio":"1/0"}`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var q units.Quantity
		if json.Unmarshal(data, &q) != nil {
			return
		}
		text, err := json.Marshal(q)
		require.NoError(t, err)
		var back units.Quantity
		require.NoError(t, json.Unmarshal(text, &back), "%s", text)
		require.True(t, back.Same(q), "%s became %s", data, text)
	})
}
