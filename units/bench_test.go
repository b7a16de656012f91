package units_test

import (
	"testing"

	"trencher/units"
)

// The amounts of a card: what parsing and converting one of them costs.
func BenchmarkParseAndConvert(b *testing.B) {
	for _, text := range []string{"250 g", "1½ pt UK", "2 lb 4 oz", "1-2 tbsp", "0,75 kg"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				q, err := units.Parse(text, units.UK)
				if err != nil {
					b.Fatal(err)
				}
				if _, err := q.In(base(q)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := units.Parse("1½ pt UK", units.Metric); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkConvert(b *testing.B) {
	b.ReportAllocs()
	q := units.MustParse("1½ pt UK")
	for b.Loop() {
		if _, err := q.In(units.Millilitre); err != nil {
			b.Fatal(err)
		}
	}
}

// Ten thousand conversions between units of every dimension.
func BenchmarkTenThousandConversions(b *testing.B) {
	type pair struct {
		q  units.Quantity
		to units.Unit
	}
	var pairs []pair
	for _, from := range units.All() {
		for _, to := range units.All() {
			q := units.FromRat(units.MustParse("2.5").Rat(), from)
			if _, err := q.In(to); err == nil {
				pairs = append(pairs, pair{q, to})
			}
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		for i := range 10_000 {
			p := pairs[i%len(pairs)]
			if _, err := p.q.In(p.to); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkMeasure(b *testing.B) {
	q := units.MustParse("6.6 tsp")
	for b.Loop() {
		units.Kitchen{}.Measure(q, units.MeasureOptions{})
	}
}

func base(q units.Quantity) units.Unit {
	if q.Dimension() == units.Mass {
		return units.Gram
	}
	return units.Millilitre
}
