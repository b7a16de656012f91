package journal

import (
	"testing"
	"time"

	"trencher/units"
)

// FuzzEntry feeds any bytes to the reader. What it reads as an entry can be
// written, and what is written reads back as the same.
func FuzzEntry(f *testing.F) {
	for _, seed := range []string{
		wholeEntry,
		"kind: lift\nplanting: tub-3\nat: 2031-07-12 16:40\nweighings: [{gross: 1.46 kg, tare: 0.31 kg}]\ngrades: [{sizes: 20-45 mm, weight: 820 g, count: 3, condition: green}]\n",
		"kind: use\nlot: tub-3/2031-0712-1640/45-65-sound\nweight: 2 lb 4 oz\nat: 2031-07-13T12:00:00+01:00\ndish: Mash\n",
		"kind: out\nbatch: a\nat: 2031-07-13 12:00\nuntil: 2031-07-13 13:00\nair: 88 F\n",
		"kind: steamed\ncrop: Potatoes\ncut: cube 25 mm\nuntil: soft\nminutes: 11,5\nat: 2031-07-13 12:00\n",
		"kind: void\nvoids: x\nat: 2031-07-13 12:00\nbecause: \"# '\\\"\\n\"\n",
		"kind: [lift]\n", "kind:", "- kind: lift\n", "kind: lift\nweighings: {}\ngrades: x\n",
	} {
		f.Add([]byte(seed))
	}
	options := Options{System: units.Metric, Zone: time.UTC}
	f.Fuzz(func(t *testing.T, data []byte) {
		e, err := decodeEntry(Source{File: "journal/2031/x.yaml", Data: data}, 0, options)
		if err != nil {
			return
		}
		written, err := encodeEntry(e)
		if err != nil {
			t.Fatalf("%q was read and cannot be written: %v", data, err)
		}
		again, err := decodeEntry(Source{File: "journal/2031/x.yaml", Data: written}, 0, Options{Zone: time.UTC})
		if err != nil {
			t.Fatalf("%q was written as\n%s which does not read: %v", data, written, err)
		}
		second, err := encodeEntry(again)
		if err != nil || string(second) != string(written) {
			t.Fatalf("%q was written as\n%s and then as\n%s (%v)", data, written, second, err)
		}
	})
}
