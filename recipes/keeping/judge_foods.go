package keeping

import "slices"

// takeFoods looks the foods up and takes their own limits into the authority's,
// of each the strictest.
func (j *judging) takeFoods(a Authority) error {
	for _, name := range append([]string{j.Batch.Food}, j.Also...) {
		f, err := LookupBatchFood(name)
		if err != nil {
			return err
		}
		if f.rawEgg && j.Eggs == EggsPasteurised {
			f = pasteurised()
			j.ours("Pasteurised egg is not raw: the dish keeps as a dressed salad.", "raw-egg-us")
		}
		if !slices.ContainsFunc(j.foods, func(o Food) bool { return o.ID == f.ID }) {
			j.foods = append(j.foods, f)
		}
	}
	j.food = j.foods[0]
	j.verdict.Food = j.food
	j.narrow(a)
	return nil
}

// pasteurised is the food that a dish with raw egg is, of pasteurised eggs.
func pasteurised() Food {
	i, _ := at(library.foodNamed, plain("dressed-salad"))
	return library.foods[i]
}

// narrow takes the limits of all the foods into the authority's, and of those
// what the eater narrows.
func (j *judging) narrow(a Authority) {
	if len(j.foods) == 0 {
		j.foods = []Food{j.food}
	}
	all := j.limits
	j.reheats = true
	for i, f := range j.foods {
		one := all.of(f, a, j.Vulnerable)
		if i == 0 {
			j.limits, j.timing = one, f.timing
		}
		j.limits = j.limits.withPart(one)
		j.reheats = j.reheats && f.Reheats
		j.timing = stricterTiming(j.timing, f.timing)
	}
}

// of are an authority's limits for one food and eater.
func (l Limits) of(f Food, a Authority, vulnerable bool) Limits {
	out := f.out
	if vulnerable {
		out = shorter(out, f.outVulnerable)
	}
	if out.IsSet() {
		l.Eat, l.Back, l.StillOut = shorter(l.Eat, out), shorter(l.Back, out), shorter(l.StillOut, out)
	}
	l.Fridge, l.Hot = colder(l.Fridge, f.fridge), hotter(l.Hot, f.hot)
	l.CoolingAim = shorter(l.CoolingAim, f.coolingAim)
	l.Life, l.LifeVulnerable = l.livesOf(f, a)
	if vulnerable {
		l.Life = shorter(l.Life, l.LifeVulnerable)
		l.Fridge = colder(l.Fridge, l.FridgeVulnerable)
	}
	return l
}

// livesOf are a food's life by an authority, and that for vulnerable eaters.
func (l Limits) livesOf(f Food, a Authority) (life, vulnerable Span) {
	own := f.lifeBy(a)
	if f.lifeInstead {
		return own, shorter(own, f.lifeVulnerable)
	}
	life = l.Life
	if f.cold {
		life = l.LifeCold
	}
	life = shorter(life, own)
	return life, shorter(shorter(l.LifeVulnerable, own), f.lifeVulnerable)
}

// withPart takes of each limit a food sets the stricter.
func (l Limits) withPart(o Limits) Limits {
	l.Eat, l.Back, l.StillOut = shorter(l.Eat, o.Eat), shorter(l.Back, o.Back), shorter(l.StillOut, o.StillOut)
	l.Fridge, l.Hot = colder(l.Fridge, o.Fridge), hotter(l.Hot, o.Hot)
	l.CoolingAim = shorter(l.CoolingAim, o.CoolingAim)
	l.Life, l.LifeVulnerable = shorter(l.Life, o.Life), shorter(l.LifeVulnerable, o.LifeVulnerable)
	return l
}

// stricterTiming is the timing of a dish of two foods: more clocks win.
func stricterTiming(a, b timing) timing {
	order := []timing{timed, readyCold, lifeOnly, untimed}
	return order[min(slices.Index(order, a), slices.Index(order, b))]
}

// ByRank is a dish's foods with the one that names it first: the one whose life
// ends first by the authority, of two the one of lower rank.
func ByRank(foods []string, a Authority) []string {
	var found []Food
	for _, name := range foods {
		if f, err := LookupFood(name); err == nil {
			found = append(found, f)
		}
	}
	limits := LimitsOf(a)
	slices.SortStableFunc(found, func(x, y Food) int {
		if x.refer != "" || y.refer != "" {
			return x.rank - y.rank
		}
		one, _ := limits.livesOf(x, a)
		two, _ := limits.livesOf(y, a)
		switch {
		case one.IsSet() != two.IsSet():
			if one.IsSet() {
				return -1
			}
			return 1
		case one.Most != two.Most:
			return int(one.Most/1e9) - int(two.Most/1e9)
		}
		return x.rank - y.rank
	})
	var ids []string
	for _, f := range found {
		if !slices.Contains(ids, f.ID) {
			ids = append(ids, f.ID)
		}
	}
	return ids
}
