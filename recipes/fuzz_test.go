package recipes

import (
	"errors"
	"math/big"
	"testing"

	"trencher/units"
	"trencher/units/strict"
)

// Whatever the bytes, a dish loads whole or is refused with places; a dish
// that loads can be scaled, judged and written out.
func FuzzLoadDish(f *testing.F) {
	f.Add(readFile(f, dishFile))
	for _, text := range []string{
		"", "name: x", "crops: 3", "name: [a]\nportions: {}\ncrops: [[]]\n",
		"name: A\nportions: 1\ncrops: [{crop: pea, amount: 1 g, prepared: picked, cook: raw}]\n",
		"name: A\nportions: 500\nwish: 0.5\ncrops: [{crop: potato, amount: ½ lb, cut: box 1x2x3 cm, sizes: 2-4 in, contains: [nuts]}]\nothers: [{item: b, amount: a pinch, scales: fixed, contains: none}]\n",
		"name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cut: \"slice ¼ in\"}]\nothers: [{item: salt, amount: 1-2 tsp, scales: seasoning, instead: [{item: x, amount: to taste}]}]\n",
		"&a name: *a\n", "name: A\n---\nname: B\n", "\tname: A\n", "name: A\nname: B\n",
	} {
		f.Add([]byte(text))
	}
	kitchen := DefaultKitchen(units.Metric)
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := LoadDish("f.yaml", data, kitchen)
		if err != nil {
			var errs strict.Errors
			if !errors.As(err, &errs) || len(errs) == 0 {
				t.Fatalf("not a placed error: %v", err)
			}
			return
		}
		if d.Name == "" || len(d.Crops) == 0 || d.Portions < 1 || d.Smallest > d.Largest {
			t.Fatalf("half a dish: %+v", d)
		}
		for i := range d.Crops {
			need, _, err := d.NeedPerPortion(i)
			if err != nil || need.Sign() <= 0 {
				t.Fatalf("need %v: %v", need, err)
			}
		}
		d.ScaleTo(big.NewRat(7, 2), kitchen)
		d.Suits(Diet{avoid: everything})
		if _, err := d.JSONLD(); err != nil {
			t.Fatal(err)
		}
	})
}

func FuzzLoadKitchen(f *testing.F) {
	for _, text := range []string{
		"measures: metric\n", "measures: us\naltitude: 5000 ft\n", "measures: uk\nsteamer: {diameter: 9 in, tiers: 3}\nstove: {power: 2 kW, gas: propane, wind: windy, efficiency: 0.3}\nfridge: 39 F\nroom: 20 C\nauthority: uk\n",
		"measures: au\nyields: [{crop: oca, prepared: scrubbed, factor: 0.95}]\n", "measures: 3\nyields: x\nsteamer: []\n",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		k, err := LoadKitchen("kitchen.yaml", data)
		if err != nil {
			var errs strict.Errors
			if !errors.As(err, &errs) || len(errs) == 0 {
				t.Fatalf("not a placed error: %v", err)
			}
			return
		}
		if k.Steamer.Tiers < 1 || k.Stove.PowerW <= 0 || k.Stove.Efficiency < 0 || k.Authority == "" {
			t.Fatalf("half a kitchen: %+v", k)
		}
	})
}
