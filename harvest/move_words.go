package harvest

import (
	"errors"

	"trencher/units"
)

// MoveWords is grams that leave a lot, as a person writes it.
type MoveWords struct {
	To       string // KindUse, KindGive, KindCompost or KindStore
	Lot      string // its ID, its name, or a planting with one lot on hand
	Weight   string // "" = all there is
	At       string // "" = now
	Dish     string
	Whom     string
	Lies     string
	Air      string // how warm it is there
	Reason   string
	Replaces string // the file of the entry this one corrects
}

// Read turns the words into a move of a lot that is still to be found. Its error
// joins every fault, each a [units.FieldError].
func (q MoveWords) Read(clock units.Clock, system units.System) (*Move, error) {
	m := &Move{To: q.To, Dish: q.Dish, Whom: q.Whom, Where: q.Lies, Reason: q.Reason}
	m.Replaces = q.Replaces
	var wrong [3]error
	m.At, wrong[0] = clock.Past("at", q.At)
	m.Weight, wrong[1] = ParseWeightField("weight", q.Weight, system)
	m.Air, wrong[2] = ParseAir("air", q.Air)
	return m, errors.Join(wrong[:]...)
}

// ReweighWords is a lot put on the scale again, as a person writes it.
type ReweighWords struct {
	Lot      string // as in MoveWords
	Weight   string // a weight, or a full bowl less the empty one
	Rotten   string // "" = none
	At       string // "" = now
	Lies     string // "" = where it lay
	Air      string // "" = nobody said
	Replaces string // the file of the entry this one corrects
}

// Read turns the words into a weighing of a lot that is still to be found. Its
// error joins every fault, each a [units.FieldError].
func (q ReweighWords) Read(clock units.Clock, system units.System) (*Reweighed, error) {
	r := &Reweighed{Where: q.Lies}
	r.Replaces = q.Replaces
	var wrong [4]error
	r.At, wrong[0] = clock.Past("at", q.At)
	r.Weight, wrong[1] = parseNet("weight", q.Weight, system)
	r.Rotten, wrong[2] = ParseWeightField("rotten", q.Rotten, system)
	r.Air, wrong[3] = ParseAir("air", q.Air)
	return r, errors.Join(wrong[:]...)
}
