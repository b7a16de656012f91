package meal

import (
	"cmp"
	"fmt"
	"slices"

	"trencher/recipes"
	"trencher/recipes/heat"
)

// fill settles the fillings of the steamer. Dishes that are served alike and
// leave tiers empty share one, the longest first: fewer fillings, and hot dishes
// that end together. Their pieces then share the steam too, so their times are
// reckoned again for all that is in the steamer at once.
func (k *kitchen) fill(l *Loaded) error {
	for _, group := range k.groups(*l) {
		together := 0.0
		for _, at := range group {
			together += l.part(at).Piece.Grams
		}
		run := l.addRun(group, 1, 1)
		for _, at := range group {
			part := l.part(at)
			estimate, err := heat.Steam(part.Piece.Crop, part.Piece.Sized, part.Piece.Until, k.around(part.Piece.Crop, together))
			if err != nil {
				return fmt.Errorf("%s: %w", l.Dishes[at.Dish].Name(), err)
			}
			part.Steam.Estimate, part.Steam.AtOnceG = estimate, together
			part.Steam.Low, part.Steam.High = estimate.Low, estimate.High
			part.Steam.Runs = []string{run}
		}
	}
	for d, dish := range l.Dishes {
		for p := range dish.Parts {
			steam := l.Dishes[d].Parts[p].Steam
			if steam == nil || len(steam.Runs) > 0 {
				continue
			}
			for n := range steam.Load.Rounds {
				steam.Runs = append(steam.Runs, l.addRun([]PartAt{{d, p}}, n+1, steam.Load.Rounds))
			}
		}
	}
	return nil
}

// addRun adds a filling of the steamer and returns its ID.
func (l *Loaded) addRun(parts []PartAt, number, of int) string {
	run := Run{ID: fmt.Sprintf("r%d", len(l.Runs)+1), Parts: parts, Number: number, Of: of}
	l.Runs = append(l.Runs, run)
	return run.ID
}

// run finds a filling by its ID.
func (l Loaded) run(id string) Run {
	at := slices.IndexFunc(l.Runs, func(r Run) bool { return r.ID == id })
	return l.Runs[at]
}

// groups are the parts that share a filling: two or more, of one way of
// serving, that fit the tiers together. Crops of one dish come together first.
func (k *kitchen) groups(l Loaded) [][]PartAt {
	var groups, rest [][]PartAt
	for d := range l.Dishes {
		own := k.smallParts(l, d)
		if len(own) > 1 && l.layers(own) <= k.equipment.Tiers {
			groups = append(groups, own)
			continue
		}
		for _, at := range own {
			rest = append(rest, []PartAt{at})
		}
	}
	slices.SortStableFunc(rest, func(a, b []PartAt) int {
		return cmp.Or(cmp.Compare(l.served(a[0]), l.served(b[0])), cmp.Compare(l.part(b[0]).Steam.Longest(), l.part(a[0]).Steam.Longest()))
	})
	for i, next := range rest {
		last := len(groups) - 1
		if i > 0 && l.served(groups[last][0]) == l.served(next[0]) && l.layers(groups[last])+l.layers(next) <= k.equipment.Tiers {
			groups[last] = append(groups[last], next...)
			continue
		}
		groups = append(groups, next)
	}
	return slices.DeleteFunc(groups, func(g []PartAt) bool { return len(g) < 2 })
}

// smallParts are the parts of a dish that leave tiers empty in one filling.
func (k *kitchen) smallParts(l Loaded, dish int) []PartAt {
	var small []PartAt
	for p, part := range l.Dishes[dish].Parts {
		if part.Steam != nil && part.Steam.Load.Rounds == 1 && part.Steam.Load.Layers < k.equipment.Tiers {
			small = append(small, PartAt{dish, p})
		}
	}
	return small
}

func (l Loaded) layers(parts []PartAt) int {
	sum := 0
	for _, at := range parts {
		sum += l.part(at).Steam.Load.Layers
	}
	return sum
}

func (l Loaded) served(at PartAt) recipes.Served { return l.Dishes[at.Dish].Recipe.Served }
