package journal_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
)

// A plot is begun once; from then on entries are added, and none is ever
// changed. The season reads back what was written.
func Example() {
	parent, err := os.MkdirTemp("", "plots")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(parent)
	dir := filepath.Join(parent, "garden")
	_, err = journal.Begin(dir, []journal.Source{
		{File: "kitchen.yaml", Data: []byte("measures: metric\n")},
		{File: "plantings.yaml", Data: []byte("- {id: tub-3, crop: potato, planted: 2031-04-02, tub: 30 l}\n")},
	})
	fmt.Println("begun:", err)
	plot, _ := journal.Open(dir)
	lift := &harvest.Lift{Planting: "tub-3", Weighings: []harvest.Weighing{
		{Gross: units.MustParse("1.46 kg"), Tare: units.MustParse("0.31 kg")},
		{Gross: units.MustParse("0.98 kg"), Tare: units.MustParse("0.31 kg")},
	}}
	lift.At = time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC)
	file, err := plot.Write(lift)
	fmt.Println(file, err)
	entries, _, err := plot.Season(context.Background(), 2031, journal.Options{System: units.Metric})
	fmt.Println(len(entries), "entry,", entries[0].(*harvest.Lift).Net(), "g", err)
	// Output:
	// begun: <nil>
	// journal/2031/0712-1640-lift-tub-3-jr3d.yaml <nil>
	// 1 entry, 1820 g <nil>
}
