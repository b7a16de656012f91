package heat

import (
	_ "embed"
	"math"

	"trencher/units"
)

// printed.csv holds the minutes that agencies, extension services and textbooks
// print, a row each; the sizes in it are assumed, for hardly a table prints any.
// printed-sources.csv holds the publications, and the style each cooks to.
// library.go is what they come to (printedTimes), so that no program reads them when
// it starts: `go generate ./recipes/heat` makes it anew (printed_made_test.go), and
// TestPrintedTimesAreMade fails until it is.
//
//go:generate go test -run ^TestPrintedTimesAreMade$ -update .

// Printed is a row of a printed table.
type Printed struct {
	ID, Crop, Piece string
	Way             Way
	Low, High       float64 // minutes
	From            From
	Wished          string // how it is to be, in the table's words
	Shape           Shape  // of the piece; 0 where no one body stands for it
	SmallMM         float64
	LargeMM         float64 // assumed
	Style           Doneness
	units.Provenance
	old bool // cooked softer than soft, as textbooks of a hundred years ago do
}

// Way is how a printed time cooks.
type Way string

// The ways that are reckoned; others of the tables are kept to be read only.
const (
	WayBoil        Way = "boil"
	WaySteam       Way = "steam"
	WayBlanchWater Way = "blanch-water"
	WayBlanchSteam Way = "blanch-steam"
)

// From is what printed minutes count from.
type From string

// The clocks of printed tables that a run has, too.
const (
	FromPutIn From = "put in"
	FromBoil  From = "boiling again"
	FromSteam From = "full steam"
)

// Cut is the row's piece of a size.
func (p Printed) Cut(mm float64) Cut { return Cut{Shape: p.Shape, SizeMM: mm} }

// size is the size that a share of the row's pieces stay under: sizes are taken to
// be log-uniform over what is assumed.
func (p Printed) size(share float64) float64 {
	return p.SmallMM * math.Pow(p.LargeMM/p.SmallMM, share)
}

// printedOffset is what printed minutes are longer than the model's by, whatever
// the piece: late clocks, opened lids, pieces piled up. It belongs to the printed
// tables, and to no answer.
var printedOffset = map[Way]float64{WayBoil: 1, WaySteam: 1.65}

// What printed rows are reckoned with: a pound or so at a time, in a litre of
// water, on a household stove.
const (
	printedLoadG   = 500.0
	printedWaterML = 1000.0
)

// situation is a row's piece of a size, in one even layer.
func (p Printed) situation(crop Crop, mm float64, until Doneness) (situation, error) {
	s, err := newSituation(crop, p.Cut(mm), until, Conditions{LoadGrams: printedLoadG}.filled())
	s.layers, s.film = 1, filmNominal
	return s, err
}

// run heats a row's piece as its table does; freeS is where the run notes when
// steam or boiling water is free.
func (p Printed) run(s situation) (h *history, freeS *float64) {
	if p.Way == WayBoil || p.Way == WayBlanchWater {
		pot := s.boiling(printedLoadG, Water{ML: printedWaterML}, fire{powerW: DefaultBoilingW, panJK: defaultPanKg * steelHeat})
		return &pot.history, &pot.backS
	}
	f := s.run(shells)
	return f.last(), &f.freeS
}

// reckon is what the model would have the table print for a size, by its clock.
func (p Printed) reckon(crop Crop, mm float64, until Doneness) (minutes float64, err error) {
	s, err := p.situation(crop, mm, until)
	if err != nil {
		return 0, err
	}
	h, freeS := p.run(s)
	t := timing{h.cooked(s.target, crop.Z), *freeS}
	if p.From == FromPutIn {
		t.freeS = 0
	}
	if !t.done {
		return 0, ErrNotDone
	}
	return max(0, t.seconds-min(t.freeS, t.seconds))/60 + printedOffset[p.Way], nil
}
