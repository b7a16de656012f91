package ask

import (
	"cmp"
	"slices"
)

// partAt is one crop part of the plan, by dish and part.
type partAt struct{ dish, part int }

// steamAll settles the rounds of the steamer, then says for every part how its
// sizes are cut.
func (s *sharing) steamAll() error {
	if err := s.shareRounds(); err != nil {
		return err
	}
	for d := range s.plan.Dishes {
		for i := range s.plan.Dishes[d].Crops {
			part := &s.plan.Dishes[d].Crops[i]
			if part.Steam == nil {
				continue
			}
			if err := s.plot.tellCuts(part, s.details[partAt{d, i}]); err != nil {
				return err
			}
		}
	}
	return nil
}

// shareRounds lets dishes that are served alike and leave tiers of the steamer
// empty share a round, the longest first: fewer rounds, and hot dishes that end
// together. The pieces then share the steam too, so their times are reckoned
// again for all that is in the steamer at once.
func (s *sharing) shareRounds() error {
	for number, group := range s.groups() {
		together := 0.0
		for _, at := range group {
			grams, _ := s.plan.Dishes[at.dish].Crops[at.part].Prepared.Float64()
			together += grams
		}
		for _, at := range group {
			part := &s.plan.Dishes[at.dish].Crops[at.part]
			if err := s.plot.steamTogether(part, s.details[at], together); err != nil {
				return err
			}
			part.Steam.Round = number + 1
			for _, other := range group {
				if other != at {
					part.Steam.With = append(part.Steam.With, s.plan.Dishes[other.dish].Crops[other.part].Crop+" for "+s.plan.Dishes[other.dish].Name)
				}
			}
		}
	}
	return nil
}

// groups are the parts that share a round: two or more, of one way of serving,
// that fit the tiers together. Crops of one dish come together first.
func (s *sharing) groups() [][]partAt {
	var groups, rest [][]partAt
	for d := range s.plan.Dishes {
		own := s.smallParts(d)
		if len(own) > 1 && s.layers(own) <= s.plot.Kitchen.Steamer.Tiers {
			groups = append(groups, own)
			continue
		}
		for _, at := range own {
			rest = append(rest, []partAt{at})
		}
	}
	slices.SortStableFunc(rest, func(a, b []partAt) int {
		return cmp.Or(cmp.Compare(s.served(a[0]), s.served(b[0])), cmp.Compare(s.longest(b[0]), s.longest(a[0])))
	})
	for i, next := range rest {
		last := len(groups) - 1
		if i > 0 && s.served(groups[last][0]) == s.served(next[0]) && s.layers(groups[last])+s.layers(next) <= s.plot.Kitchen.Steamer.Tiers {
			groups[last] = append(groups[last], next...)
			continue
		}
		groups = append(groups, next)
	}
	return slices.DeleteFunc(groups, func(g []partAt) bool { return len(g) < 2 })
}

// smallParts are the parts of a dish that leave tiers empty in one round.
func (s *sharing) smallParts(dish int) []partAt {
	var small []partAt
	for i, part := range s.plan.Dishes[dish].Crops {
		if part.Steam != nil && part.Steam.Rounds == 1 && part.Steam.Layers < s.plot.Kitchen.Steamer.Tiers {
			small = append(small, partAt{dish, i})
		}
	}
	return small
}

func (s *sharing) layers(parts []partAt) int {
	sum := 0
	for _, at := range parts {
		sum += s.plan.Dishes[at.dish].Crops[at.part].Steam.Layers
	}
	return sum
}

func (s *sharing) served(at partAt) string { return s.plan.Dishes[at.dish].Served }

// longest is how long a part may keep its place in the steamer, in minutes.
func (s *sharing) longest(at partAt) float64 {
	steam := s.plan.Dishes[at.dish].Crops[at.part].Steam
	return steam.ComeUp + steam.High
}
