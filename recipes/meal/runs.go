package meal

import (
	"cmp"
	"fmt"
	"slices"

	"trencher/recipes"
	"trencher/recipes/heat"
)

// class is the parts that go through the steamer as one: alike in crop, kind,
// cut and doneness.
type class struct {
	parts    []PartAt // the cold ones first: they leave the steamer first
	grams    float64
	perLayer float64
	layers   int
	longest  float64
}

// mixing says which parts may share a filling.
type mixing uint8

const (
	servedAlike mixing = iota // those that are served alike
	whatever                  // all
)

// fill settles the fillings of the steamer: parts alike steam together and are
// divided after, the longest lie lowest, where the steam comes first, and what
// leaves tiers empty lets others in. Pieces that share the steam wait for it
// longer, so times are reckoned again for all that is in the steamer at once.
func (k *kitchen) fill(l *Loaded, mix mixing) error {
	l.Runs = nil
	for _, served := range []recipes.Served{recipes.Cold, recipes.Warm, recipes.Hot} {
		first := len(l.Runs)
		for _, c := range l.classes(func(at PartAt) bool { return mix == whatever || l.served(at) == served }) {
			k.place(l, c, first)
		}
		if mix == whatever {
			break
		}
	}
	l.number()
	return k.together(l)
}

// classes gathers the steamed parts of a kind, the longest first.
func (l Loaded) classes(wanted func(PartAt) bool) []class {
	var all []class
	keys := map[string]int{}
	for d, dish := range l.Dishes {
		for p, part := range dish.Parts {
			at := PartAt{d, p}
			if part.Steam == nil || !wanted(at) {
				continue
			}
			key := fmt.Sprint(part.Piece.Crop.Title(), part.Piece.Sized, part.Piece.Until)
			i, known := keys[key]
			if !known {
				i = len(all)
				keys[key] = i
				all = append(all, class{perLayer: part.Steam.Load.GramsPerLayer, longest: part.Steam.Longest()})
			}
			all[i].parts = append(all[i].parts, at)
			all[i].grams += part.Piece.Grams
		}
	}
	for i := range all {
		c := &all[i]
		c.layers = layersFor(c.grams, c.perLayer)
		slices.SortStableFunc(c.parts, func(a, b PartAt) int { return cmp.Compare(servedOrder[l.served(a)], servedOrder[l.served(b)]) })
	}
	slices.SortStableFunc(all, func(a, b class) int { return cmp.Compare(b.longest, a.longest) })
	return all
}

// servedOrder is how long before serving a dish leaves the steamer.
var servedOrder = map[recipes.Served]int{recipes.Cold: 0, recipes.Warm: 1, recipes.Hot: 2}

func layersFor(grams, perLayer float64) int { return int((grams-1e-9)/perLayer) + 1 }

// place gives a class its layers: whole fillings of its own first, and what is
// left over in the first filling, from one on, that has tiers for it.
func (k *kitchen) place(l *Loaded, c class, first int) {
	tiers := max(1, k.equipment.Tiers)
	for from := 0; from < c.layers; {
		n := min(tiers, c.layers-from)
		at := slices.IndexFunc(l.Runs[first:], func(r Run) bool { return len(r.Tiers)+n <= tiers })
		if at < 0 {
			l.Runs = append(l.Runs, Run{ID: fmt.Sprintf("r%d", len(l.Runs)+1)})
			at = len(l.Runs) - 1 - first
		}
		run := &l.Runs[first+at]
		each := c.grams / float64(c.layers)
		for layer := range n {
			low := float64(from+layer) * each
			run.Tiers = append(run.Tiers, l.within(c, low, low+each))
		}
		from += n
	}
}

// within are the parts of a class that lie between two weights of it.
func (l Loaded) within(c class, low, high float64) []PartAt {
	var parts []PartAt
	sum := 0.0
	for _, at := range c.parts {
		next := sum + l.part(at).Piece.Grams
		if next > low+1e-6 && sum < high-1e-6 {
			parts = append(parts, at)
		}
		sum = next
	}
	return parts
}

// number tells every part its fillings, and every filling its parts.
func (l *Loaded) number() {
	for r := range l.Runs {
		run := &l.Runs[r]
		for _, tier := range run.Tiers {
			for _, at := range tier {
				if !slices.Contains(run.Parts, at) {
					run.Parts = append(run.Parts, at)
					l.part(at).Steam.Runs = append(l.part(at).Steam.Runs, run.ID)
				}
			}
		}
	}
	for r := range l.Runs {
		run := &l.Runs[r]
		steam := l.part(run.Parts[0]).Steam
		run.Number, run.Of = 1, 1
		if len(run.Parts) == 1 {
			run.Number, run.Of = slices.Index(steam.Runs, run.ID)+1, len(steam.Runs)
		}
	}
}

// together reckons every part's times with all that is in the steamer at once, tier
// by tier: the steam comes to the lowest first. A part in several places takes as
// long as in the slowest.
func (k *kitchen) together(l *Loaded) error {
	for _, run := range l.Runs {
		loads, grams := k.tiersOf(*l, run)
		series, err := k.steamTiers(loads, k.around(loads[0].Crop, grams))
		if err != nil {
			return fmt.Errorf("%s: %w", l.Dishes[run.Parts[0].Dish].Name(), err)
		}
		for t, tier := range run.Tiers {
			for _, at := range tier {
				l.part(at).Steam.slowest(series.Estimates[t], grams)
			}
		}
	}
	return nil
}

// tiersOf are a filling's tiers as heat reckons them, and what all of them hold.
func (k *kitchen) tiersOf(l Loaded, run Run) (loads []heat.TierLoad, grams float64) {
	for _, tier := range run.Tiers {
		first := l.part(tier[0])
		holds := min(first.Steam.Load.GramsPerLayer, k.weightOf(l, tier))
		loads = append(loads, heat.TierLoad{Crop: first.Piece.Crop, Cut: first.Piece.Sized, Until: first.Piece.Until, Grams: holds,
			Learned: k.around(first.Piece.Crop, holds).Learned})
		grams += holds
	}
	return loads, grams
}

// weightOf is what parts weigh together, prepared.
func (k *kitchen) weightOf(l Loaded, parts []PartAt) float64 {
	sum := 0.0
	for _, at := range parts {
		sum += l.part(at).Piece.Grams
	}
	return sum
}

func (l Loaded) served(at PartAt) recipes.Served { return l.Dishes[at.Dish].Recipe.Served }
