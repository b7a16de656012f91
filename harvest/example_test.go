package harvest_test

import (
	"fmt"
	"time"

	"trencher/harvest"
	"trencher/units"
)

// A tub of second earlies is lifted into two bowls, a part of it is used, and
// the rest is on hand.
func Example() {
	tub := harvest.Planting{ID: "tub-3", Crop: "potato", Class: "second early",
		Planted: time.Date(2031, 4, 2, 0, 0, 0, 0, time.UTC), SeedCount: 3, Tub: units.MustParse("30 l")}

	lift := &harvest.Lift{
		Header:   harvest.Header{At: time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC), File: "journal/2031/0712-1640-lift-tub-3.yaml"},
		Planting: "tub-3",
		Weighings: []harvest.Weighing{
			{Gross: units.MustParse("1.46 kg"), Tare: units.MustParse("0.31 kg")},
			{Gross: units.MustParse("0.98 kg"), Tare: units.MustParse("0.31 kg")},
		},
		Grades: []harvest.Grade{
			{Sizes: units.Band{Low: 20, High: 45}, Weight: units.MustParse("820 g"), Condition: harvest.Scabby},
			{Weight: units.MustParse("90 g"), Condition: harvest.Damaged},
		},
	}
	use := &harvest.Move{
		Header: harvest.Header{At: time.Date(2031, 7, 12, 18, 0, 0, 0, time.UTC), File: "journal/2031/0712-1800-use-tub-3.yaml"},
		To:     harvest.KindUse, Lot: "tub-3/2031-0712-1640/20-45-scabby", Weight: units.MustParse("300 g"), Dish: "Mash",
	}

	account, err := harvest.Settle([]harvest.Planting{tub}, []harvest.Entry{lift, use}, lift.At)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, lot := range account.Stock().Lots {
		fmt.Println(lot.Name, lot.Weight, "g, the kitchen gets", lot.Supply, "g")
	}
	row := account.Season(2031).Rows[0]
	fmt.Println("net", row.Net, "g =", row.Went.Kitchen, "used +", row.Went.OnHand, "on hand")
	fmt.Println(row.PerLitre.Decimal.Round(1), "g a litre")
	// Output:
	// tub-3/ungraded-damaged 90 g, the kitchen gets 76.5 g
	// tub-3/20-45-scabby 520 g, the kitchen gets 520 g
	// tub-3/ungraded-sound 910 g, the kitchen gets 910 g
	// net 1820 g = 300 used + 1520 on hand
	// 60.7 g a litre
}

// A batch of mash is cooled, warmed up once, and part of it eaten.
func ExampleBatches() {
	at := func(event, clock string) *harvest.BatchEvent {
		e := &harvest.BatchEvent{Event: event, Name: "mash"}
		e.At, _ = time.Parse(time.DateTime, "2031-07-12 "+clock)
		return e
	}
	cooked := at(harvest.KindCooked, "13:00:00")
	cooked.Food, cooked.Amount = "mash", units.MustParse("6")
	eaten := at(harvest.KindEaten, "18:40:00")
	eaten.Amount = units.MustParse("2")
	entries := []harvest.Entry{cooked, at(harvest.KindChilled, "13:50:00"), at(harvest.KindReheated, "18:10:00"), eaten, at(harvest.KindChilled, "18:50:00")}

	for _, b := range harvest.Batches(entries, entries[4].When()) {
		fmt.Printf("%s: %s, %s portions left, reheated %d time\n", b.Name, b.State, b.Left, b.Reheatings)
		for _, s := range b.Out {
			fmt.Println("out", s.From.Format("15:04"), "to", s.To.Format("15:04"))
		}
	}
	// Output:
	// mash: cold, 4 portions left, reheated 1 time
	// out 18:10 to 18:50
}
