package meal

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
)

// ReckonedHeat is one way of cooking a crop: how long by size, and what a weight of
// it takes.
type ReckonedHeat struct {
	Line   recipes.CropLine // as the first of the dishes writes it
	Crop   heat.Crop
	Dishes []string
	Sizes  []SizeHeat // none of a crop without figures and of what is cooked the grower's own way
	Loads  []LoadHeat // by weight, at the cut of Line
	// AtLeast is how long such a crop boils whatever the knife says; 0 for most.
	AtLeast time.Duration
}

// AtLeastFor is a time with its band, none of them shorter than such a crop boils.
func (h ReckonedHeat) AtLeastFor(usual, low, high float64) (u, l, m float64) {
	least := 0.0
	if h.Line.IsInWater() {
		least = h.AtLeast.Minutes()
	}
	return max(usual, least), max(low, least), max(high, least)
}

// SizeHeat is the time of pieces of one size.
type SizeHeat struct {
	SizeMM   float64
	Estimate heat.Estimate  // zero of what is blanched
	Blanched *heat.Blanched // nil of what is not
}

// LoadHeat is what a weight of pieces takes. One of them is there.
type LoadHeat struct {
	Grams    float64
	Steamed  *heat.Load
	Boiled   *heat.Boiled
	Blanched *heat.Blanched
}

// loadsReckoned are the prepared weights, in grams, that water and gas are told of.
var loadsReckoned = [...]float64{500, 1000, 2000}

// reckonHeats works out each way of cooking a crop once.
func reckonHeats(q Question) ([]ReckonedHeat, error) {
	var all []ReckonedHeat
	k := newKitchen(q)
	for _, dish := range q.Dishes {
		for _, line := range dish.Crops {
			if line.IsRaw() {
				continue
			}
			one, err := k.reckonHeat(line)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", dish.Name, err)
			}
			if at := slices.IndexFunc(all, one.isLike); at >= 0 {
				all[at].Dishes = append(all[at].Dishes, dish.Name)
				continue
			}
			one.Dishes = []string{dish.Name}
			all = append(all, one)
		}
	}
	return all, nil
}

// isLike tells the same way of cooking.
func (h ReckonedHeat) isLike(o ReckonedHeat) bool {
	a, b := h.Line, o.Line
	return a.Crop == b.Crop && h.Crop.Title() == o.Crop.Title() && a.Cut == b.Cut && a.Cook == b.Cook && a.Until == b.Until && a.Minutes == b.Minutes && a.Uses == b.Uses
}

func (k *kitchen) reckonHeat(line recipes.CropLine) (ReckonedHeat, error) {
	h := ReckonedHeat{Line: line}
	if why, must := recipes.MustBoil(line.Crop); must {
		h.AtLeast = why.Boil
	}
	if !line.IsSteamed() && !line.IsInWater() {
		return h, nil
	}
	piece, err := pieceOf(Part{Line: line})
	if errors.Is(err, heat.ErrNoFigures) {
		return h, nil
	}
	if err != nil {
		return h, err
	}
	h.Crop = piece.Crop
	for _, mm := range heat.UsualSizes(piece.Crop, piece.Cut.Shape) {
		piece.Sized = heat.Cut{Shape: piece.Cut.Shape, SizeMM: mm}
		piece.Grams = heat.DefaultLoadGrams
		one, err := k.reckonSize(line, piece)
		if err != nil {
			return h, err
		}
		h.Sizes = append(h.Sizes, one)
	}
	return h, k.reckonLoads(&h, line)
}

// reckonSize reckons a piece as if it had the steamer or the pot to itself.
func (k *kitchen) reckonSize(line recipes.CropLine, piece Piece) (SizeHeat, error) {
	one := SizeHeat{SizeMM: piece.Sized.SizeMM}
	switch {
	case line.Cook == "blanch":
		b, err := k.blanch(piece)
		one.Blanched = &b
		return one, err
	case line.IsInWater():
		b, err := k.boilPlan(piece)
		one.Estimate = b.Estimate
		return one, err
	}
	var err error
	one.Estimate, err = k.steam(piece, k.around(piece.Crop, piece.Grams))
	return one, err
}

// reckonLoads reckons what weights of pieces as a dish cuts them take.
func (k *kitchen) reckonLoads(h *ReckonedHeat, line recipes.CropLine) error {
	piece, err := pieceOf(Part{Line: line})
	if err != nil {
		return err
	}
	for _, grams := range loadsReckoned {
		one := LoadHeat{Grams: grams}
		piece.Grams = grams
		switch {
		case line.Cook == "blanch":
			b, err := k.blanch(piece)
			if err != nil {
				return err
			}
			one.Blanched = &b
		case line.IsInWater():
			b, err := k.boilPlan(piece)
			if err != nil {
				return err
			}
			one.Boiled = &b
		default:
			load, err := k.loadPlan(piece, k.around(piece.Crop, grams))
			if err != nil {
				return err
			}
			one.Steamed = &load
		}
		h.Loads = append(h.Loads, one)
	}
	return nil
}

// reasons are what the times, the water and the gas rest on.
func (h ReckonedHeat) reasons() (list []units.Reason) {
	for _, load := range h.Loads {
		switch {
		case load.Steamed != nil:
			e := load.Steamed.Estimate
			list = append(list, slices.Concat(e.Reasons(), e.Learned.Reasons(e.Crop), load.Steamed.Reasons())...)
		case load.Boiled != nil:
			list = append(list, load.Boiled.Estimate.Reasons()...)
		case load.Blanched != nil:
			list = append(list, load.Blanched.Reasons()...)
		}
	}
	for i := range list {
		list[i].Figure = h.Line.Crop + ": " + list[i].Figure
	}
	return list
}
