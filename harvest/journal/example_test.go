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
// changed. The account is drawn up from what was written.
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
	ctx := context.Background()
	options := journal.Options{System: units.Metric}
	clock := time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC)

	plot, _ := journal.Open(dir)
	book, _ := plot.LedgerToWrite(options)
	lift := &harvest.Lift{Planting: "tub-3", Weighings: []harvest.Weighing{
		{Gross: units.MustParse("1.46 kg"), Tare: units.MustParse("0.31 kg")},
		{Gross: units.MustParse("0.98 kg"), Tare: units.MustParse("0.31 kg")},
	}}
	lifted, err := book.Lift(ctx, lift, clock)
	fmt.Println(lifted.File, lifted.Net(), "g", err)
	_, err = book.Move(ctx, &harvest.Move{To: harvest.KindUse, Weight: units.MustParse("2 kg")}, "tub-3", clock)
	fmt.Println(err)
	_, err = book.Move(ctx, &harvest.Move{To: harvest.KindUse, Weight: units.MustParse("800 g")}, "tub-3", clock)
	fmt.Println(err)

	ledger, _ := plot.Ledger(ctx, options, clock)
	account, _ := ledger.Account()
	for _, lot := range account.Stock().Lots {
		fmt.Println(lot.Name, lot.Weight, "g")
	}
	// Output:
	// begun: <nil>
	// journal/2031/0712-1640-lift-tub-3-jr3d.yaml 1820 g <nil>
	// weight "2 kg": more than the 1820 g there is of tub-3/ungraded-sound
	// <nil>
	// tub-3/ungraded-sound 1020 g
}
