package units_test

import (
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What a cook is told, by kitchen. Common practice, no source: the steps are
// those of kitchen scales, spoon sets, jugs and cup sets.
func TestMeasure(t *testing.T) {
	down := units.MeasureOptions{RoundDown: true}
	halves := units.MeasureOptions{Halves: true}
	salt := units.MeasureOptions{RoundDown: true, Density: big.NewRat(6, 5)}
	eggs := units.MeasureOptions{Each: units.MustParse("51 g"), EachName: "beaten egg"}
	coarse := units.Kitchen{ScaleStep: units.MustParse("5 g")}
	fine := units.Kitchen{ScaleStep: units.MustParse("0.1 g")}
	few := units.Kitchen{Spoons: []units.Quantity{units.MustParse("1 tbsp"), units.MustParse("1 tsp"), units.MustParse("½ tsp")}}
	jug := units.Kitchen{JugStep: units.MustParse("50 ml")}
	metric, uk := units.Kitchen{System: units.Metric}, units.Kitchen{System: units.UK}
	us, au := units.Kitchen{System: units.US}, units.Kitchen{System: units.AU}

	for _, row := range []struct {
		name    string
		kitchen units.Kitchen
		amount  string
		options units.MeasureOptions
		text    string
		moved   string // percent
	}{
		{"scales by the gram", metric, "23.4 g", units.MeasureOptions{}, "23 g", "-1.7"},
		{"half a gram goes up", metric, "23.5 g", units.MeasureOptions{}, "24 g", "2.1"},
		{"by five grams", metric, "105 g", units.MeasureOptions{}, "105 g", "0"},
		{"by five grams, nearest", metric, "227 g", units.MeasureOptions{}, "225 g", "-0.9"},
		{"by ten grams", metric, "852.4 g", units.MeasureOptions{}, "850 g", "-0.3"},
		{"by fifty grams", metric, "2.72 kg", units.MeasureOptions{}, "2.7 kg", "-0.7"},
		{"never to nothing", metric, "0.2 g", units.MeasureOptions{}, "1 g", "400"},
		{"ounces on gram scales", metric, "2 oz", units.MeasureOptions{}, "55 g", "-3"},
		{"ounces on ounce scales", uk, "2.3 oz", units.MeasureOptions{}, "2¼ oz", "-2.2"},
		{"pounds and ounces", us, "1.28 lb", units.MeasureOptions{}, "1 lb 4 oz", "-2.3"},
		{"grams in a US kitchen", us, "105 g", units.MeasureOptions{}, "105 g", "0"},
		{"scales that show fives", coarse, "23 g", units.MeasureOptions{}, "25 g", "8.7"},
		{"scales that show tenths", fine, "1.26 g", units.MeasureOptions{}, "1.3 g", "3.2"},
		{"salt too light to weigh", metric, "1.5 g", salt, "¼ tsp", "0"},
		{"salt rounds down", metric, "10.9 g", down, "10 g", "-8.3"},
		{"tenth of a spoon", metric, "0.1 tsp", units.MeasureOptions{}, "⅛ tsp", "25"},
		{"between two spoons", metric, "0.1875 tsp", units.MeasureOptions{}, "⅛ tsp + a pinch", "0"},
		{"a quarter and a pinch", metric, "0.31 tsp", units.MeasureOptions{}, "¼ tsp + a pinch", "0.8"},
		{"salt between two spoons", metric, "0.2 tsp", down, "⅛ tsp + a pinch", "-6.2"},
		{"under a sixteenth", metric, "0.05 tsp", units.MeasureOptions{}, "a pinch", "25"},
		{"seven eighths go up", metric, "0.875 tsp", units.MeasureOptions{}, "1 tsp", "14.3"},
		{"quarters of a spoon", metric, "1.7 tsp", units.MeasureOptions{}, "1¾ tsp", "2.9"},
		{"three teaspoons", metric, "3 tsp", units.MeasureOptions{}, "1 tbsp", "0"},
		{"tablespoon and half", metric, "1.5 tbsp", units.MeasureOptions{}, "1½ tbsp", "0"},
		{"tablespoons and teaspoon", metric, "6.6 tsp", units.MeasureOptions{}, "2 tbsp + ½ tsp", "-1.5"},
		{"many spoons are millilitres", metric, "5 tbsp", units.MeasureOptions{}, "75 ml", "0"},
		{"many spoons are cups", us, "5 tbsp US", units.MeasureOptions{}, "¼ cup + 1 tbsp", "0"},
		{"four teaspoons in Australia", au, "4 tsp", units.MeasureOptions{}, "1 tbsp", "0"},
		{"ten teaspoons in Australia", au, "10 tsp", units.MeasureOptions{}, "2½ tbsp", "0"},
		{"a drawer of three spoons", few, "0.3 tsp", units.MeasureOptions{}, "½ tsp", "66.7"},
		{"a drawer of three spoons, more", few, "1.7 tsp", units.MeasureOptions{}, "1½ tsp", "-11.8"},
		{"jug by fives", metric, "72 ml", units.MeasureOptions{}, "70 ml", "-2.8"},
		{"jug by tens", metric, "142.06 ml", units.MeasureOptions{}, "140 ml", "-1.5"},
		{"jug by twenty-fives", metric, "852.39 ml", units.MeasureOptions{}, "850 ml", "-0.3"},
		{"litres", metric, "1.26 l", units.MeasureOptions{}, "1.25 l", "-0.8"},
		{"a coarse jug", jug, "0.27 l", units.MeasureOptions{}, "250 ml", "-7.4"},
		{"too little for a jug", metric, "7 ml", units.MeasureOptions{}, "1½ tsp", "7.1"},
		{"pints in a UK kitchen", uk, "1½ pt UK", units.MeasureOptions{}, "850 ml", "-0.3"},
		{"cups in a UK kitchen", uk, "1 cup metric", units.MeasureOptions{}, "250 ml", "0"},
		{"cups in a US kitchen", us, "1.75 cup US", units.MeasureOptions{}, "1¾ cups", "0"},
		{"thirds of a cup", us, "0.34 cup US", units.MeasureOptions{}, "⅓ cup", "-2"},
		{"cup and spoons", us, "0.9 cup US", units.MeasureOptions{}, "¾ cup + 2 tbsp", "-2.8"},
		{"cups in a metric kitchen", metric, "0.5 cup metric", units.MeasureOptions{}, "½ cup", "0"},
		{"many cups", us, "5.1 cup US", units.MeasureOptions{}, "5 cups", "-2"},
		{"whole pieces", metric, "5.25", units.MeasureOptions{}, "5", "-4.8"},
		{"at least one", metric, "0.3", units.MeasureOptions{}, "1", "233.3"},
		{"half a lemon", metric, "0.6", halves, "½", "-16.7"},
		{"cloves", metric, "3.4 cloves", units.MeasureOptions{}, "3 cloves", "-11.8"},
		{"a dozen and a half", metric, "1.5 dozen", units.MeasureOptions{}, "18", "0"},
		{"pinches by the half", metric, "3.7 pinches", units.MeasureOptions{}, "3½ pinches", "-5.4"},
		{"two eggs and a half", metric, "2.5", eggs, "3", "20"},
		{"a length", metric, "33 mm", units.MeasureOptions{}, "35 mm", "6.1"},
		{"inches in a US kitchen", us, "1.7 in", units.MeasureOptions{}, "1¾ in", "2.9"},
		{"inches in a metric kitchen", metric, "1.7 in", units.MeasureOptions{}, "45 mm", "4.2"},
		{"a temperature stays", metric, "180 C", units.MeasureOptions{}, "180 C", "0"},
		{"a range, each end", metric, "1.4-2.9 tbsp", units.MeasureOptions{}, "1 tbsp + 1 tsp to 2 tbsp + 2½ tsp", "-4.8"},
		{"a range that closes", metric, "1.01-1.02 tbsp", units.MeasureOptions{}, "1 tbsp", "-2"},
		{"to taste", metric, "to taste", units.MeasureOptions{}, "to taste", "0"},
		{"nothing", metric, "0 g", units.MeasureOptions{}, "0 g", "0"},
	} {
		t.Run(row.name, func(t *testing.T) {
			q, err := units.Parse(row.amount, units.Metric)
			require.NoError(t, err)
			m := row.kitchen.Measure(q, row.options)
			assert.Equal(t, row.text, m.Text)
			assert.Equal(t, row.moved, m.ErrorPercent.String())
			assert.True(t, m.Exact.Equal(q))
		})
	}
}

func TestWeighedAlternative(t *testing.T) {
	o := units.MeasureOptions{Each: units.MustParse("51 g"), EachName: "beaten egg"}
	m := units.Kitchen{}.Measure(units.MustParse("2.5"), o)
	assert.True(t, m.Flag)
	assert.Equal(t, "or 130 g of beaten egg", m.Alternative)
	assert.Empty(t, units.Kitchen{}.Measure(units.MustParse("3"), o).Alternative)
}

func TestSizeOfRoughAmounts(t *testing.T) {
	own := units.Kitchen{Vague: map[string]units.Quantity{"pinch": units.MustParse("0.4 g"), "handful": units.MustParse("30 g")}}
	for _, row := range []struct {
		kitchen    units.Kitchen
		text, size string
	}{
		{units.Kitchen{}, "2 pinches", "0.625 ml"},
		{units.Kitchen{}, "a knob", "15 g"},
		{units.Kitchen{}, "2 handfuls", "50 g"},
		{units.Kitchen{}, "1-2 drizzles", "5-10 ml"},
		{own, "2 pinches", "0.8 g"},
		{own, "half a handful", "15 g"},
		{own, "2 tbsp", "2 tbsp metric"},
	} {
		size, ok := row.kitchen.Size(units.MustParse(row.text))
		assert.True(t, ok, row.text)
		assert.Equal(t, row.size, size.String(), row.text)
	}
	_, ok := units.Kitchen{}.Size(units.MustParse("2 turns"))
	assert.False(t, ok, "a turn of a mill has no size by itself")
}

// promise is the most by which rounding may move an amount, as a share of a
// step: half of one, or all of one downwards; where the least measure is more
// than the amount, up to that measure.
type promise struct {
	unit  units.Unit
	least float64 // the least that can be measured
	step  func(amount float64) float64
}

// The promise of each instrument, worked out here anew from the published
// steps, not from the code under test.
var promises = map[string]promise{
	"g": {units.Gram, 1, func(g float64) float64 {
		switch {
		case g < 50:
			return 1
		case g < 500:
			return 5
		case g < 2000:
			return 10
		}
		return 50
	}},
	"ml": {units.Millilitre, 0.3125, func(ml float64) float64 {
		switch {
		case ml < 5:
			return 1.25 // ¼ tsp is the widest gap between ⅛, ¼, ½, ¾ and 1 tsp
		case ml < 15:
			return 1.25
		case ml < 100:
			return 5
		case ml < 500:
			return 10
		}
		return 25
	}},
	"tsp": {units.Teaspoon, 1. / 16, func(tsp float64) float64 {
		switch {
		case tsp < 3:
			return 0.25
		case tsp <= 12:
			return 0.5
		case tsp < 20:
			return 1 // 5 ml in the jug
		case tsp < 100:
			return 2
		}
		return 5
	}},
	"": {units.Piece, 1, func(float64) float64 { return 1 }},
}

func TestMeasureKeepsItsPromise(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	names := []string{"g", "ml", "tsp", ""}
	for range units.Cases(25_000, 100_000) {
		name := names[random.IntN(len(names))]
		p := promises[name]
		exact := big.NewRat(1+random.Int64N(3_000_000), 1000)
		if random.IntN(2) == 0 {
			exact.Quo(exact, big.NewRat(100, 1))
		}
		o := units.MeasureOptions{RoundDown: random.IntN(4) == 0}
		q := units.FromRat(exact, p.unit)
		m := units.Kitchen{}.Measure(q, o)

		require.Equal(t, 1, m.Value.Sign(), "%v to nothing", q)
		value, err := m.Value.Float64(p.unit)
		require.NoError(t, err)
		amount, _ := exact.Float64()
		bound := p.step(amount) / 2
		if o.RoundDown {
			bound *= 2
		}
		if value > amount {
			bound = max(bound, value-amount)
			require.LessOrEqual(t, value-amount, max(p.step(amount)/2, p.least*2)*1.0000001, "%v became %s", q, m.Text)
			if o.RoundDown && value > max(p.least, 0.625)*1.0000001 {
				require.Greater(t, p.step(amount), (value-amount)+0.1499*amount, "%v rounds down, not up to %s, unless that is far short", q, m.Text)
			}
		}
		require.LessOrEqual(t, amount-value, bound*1.0000001, "%v became %s", q, m.Text)
		moved, _ := m.ErrorPercent.Float64()
		require.InDelta(t, (value-amount)/amount*100, moved, 0.0501)
		require.Equal(t, abs((value-amount)/amount) > 0.1, m.Flag, "%v became %s", q, m.Text)
	}
}

// What is said is what is reckoned: the text of a measure, read back as an
// amount, is its value, in every kitchen.
func TestMeasureSaysItsValue(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	from := []units.Unit{units.Gram, units.Kilogram, units.Ounce, units.Pound, units.Millilitre, units.Litre, units.Teaspoon,
		units.SpoonUS, units.CupUS, units.Cup, units.SpoonAU, units.PintUK, units.Piece, units.Millimetre, units.Inch}
	for range units.Cases(8_000, 20_000) {
		system := units.System(1 + random.IntN(4))
		q := units.FromRat(big.NewRat(1+random.Int64N(20_000), 1+random.Int64N(999)), from[random.IntN(len(from))])
		m := units.Kitchen{System: system}.Measure(q, units.MeasureOptions{RoundDown: random.IntN(3) == 0, Halves: random.IntN(3) == 0})
		if m.Text == "a pinch" {
			continue // a sixteenth of the kitchen's own teaspoon
		}
		text, value := m.Text, m.Value
		if spoon, mixed := strings.CutSuffix(text, " + a pinch"); mixed {
			text, value = spoon, units.FromRat(new(big.Rat).Sub(value.Rat(), big.NewRat(1, 16)), value.Unit())
		}
		read, err := units.Parse(text, system)
		require.NoError(t, err, "%s became %q", q, m.Text)
		require.True(t, read.Equal(value), "%s became %q, reckoned as %s", q, m.Text, m.Value)
	}
}

// Cups and ounces keep a promise too: within half a spoon or 2 % under
// four cups, an eighth of a cup above; within half of the ounces' step.
func TestCupsAndOuncesKeepTheirPromise(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 18))
	spoon := map[units.System]float64{units.US: 1. / 16, units.Metric: 15. / 250, units.AU: 20. / 250}
	for range units.Cases(8_000, 20_000) {
		exact := big.NewRat(250+random.Int64N(8_000), 1000)
		amount, _ := exact.Float64()
		for system, share := range spoon {
			cup := units.Cup
			if system == units.US {
				cup = units.CupUS
			}
			m := units.Kitchen{System: system}.Measure(units.FromRat(exact, cup), units.MeasureOptions{})
			value, err := m.Value.Float64(cup)
			require.NoError(t, err)
			bound := max(share/2, (0.25-3*share)/2, 0.02*amount)
			if amount >= 4 {
				bound = 0.125
			}
			require.LessOrEqual(t, abs(value-amount), bound*1.0000001, "%v cups became %s", amount, m.Text)
		}
		oz := units.FromRat(new(big.Rat).Mul(exact, big.NewRat(10, 1)), units.Ounce)
		m := units.Kitchen{System: units.UK}.Measure(oz, units.MeasureOptions{})
		value, err := m.Value.Float64(units.Ounce)
		require.NoError(t, err)
		bound := 2.
		switch {
		case amount*10 < 8:
			bound = 0.125
		case amount*10 < 16:
			bound = 0.25
		case amount*10 < 64:
			bound = 0.5
		}
		require.LessOrEqual(t, abs(value-amount*10), bound*1.0000001, "%s became %s", oz, m.Text)
	}
}

func abs(x float64) float64 { return max(x, -x) }
