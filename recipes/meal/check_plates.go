package meal

import (
	"math/big"
	"slices"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
)

// plates makes sure that nobody gets what they must not have, and that what is set
// apart for them is counted, is done before the dish is dressed or finished, and may
// still be eaten by who they are when it is served.
func (c *check) plates() {
	for _, plate := range c.plan.Plates {
		for _, name := range plate.Dishes {
			if dish, ok := c.dish(name); !ok {
				c.add(name, "it is on a plate and not made")
			} else if suits, why := suitsGuest(dish.Recipe, dish.Makeup, plate.Guest); !suits {
				c.add(name, "it is given to a guest (%s) and %s", plate.Guest.Label(), why)
			}
		}
		for _, name := range plate.Apart {
			if !slices.ContainsFunc(c.plan.Apart, func(a Apart) bool { return a.Dish == name && a.Guest.IsLike(plate.Guest) }) {
				c.add(name, "nobody sets a portion apart for the guest (%s)", plate.Guest.Label())
			}
		}
	}
	for _, one := range c.plan.Apart {
		c.apart(one)
	}
}

func (c *check) dish(name string) (Dish, bool) {
	at := slices.IndexFunc(c.plan.Dishes, func(d Dish) bool { return d.Name() == name })
	if at < 0 {
		return Dish{}, false
	}
	return c.plan.Dishes[at], true
}

// apart replays what is set apart of one dish for one kind of guest.
func (c *check) apart(one Apart) {
	dish, ok := c.dish(one.Dish)
	if !ok {
		c.add(one.Dish, "a portion is set apart of what is not made")
		return
	}
	c.apartPortions(one)
	left := slices.DeleteFunc(slices.Clone(dish.Recipe.Others), func(o recipes.OtherLine) bool { return slices.Contains(one.Without, o.Item) })
	rest := recipes.Dish{Crops: dish.Recipe.Crops, Others: left, Served: dish.Recipe.Served}
	if suits, why := suitsGuest(rest, MakeupOf(rest), one.Guest); !suits {
		c.add(one.Dish, "what is set apart for the guest (%s) %s", one.Guest.Label(), why)
	}
	mixes := c.steps(schedule.Dress, schedule.Finish)
	if len(c.plan.Steps) > 0 && !slices.ContainsFunc(mixes, func(s Step) bool { return s.ID == one.Step && slices.Contains(s.Dishes, one.Dish) }) {
		c.add(one.Dish, "no step sets its portion apart")
	}
	if one.Clock.Dish != "" {
		c.apartClock(one)
	}
}

// apartPortions counts whom a portion is set apart for.
func (c *check) apartPortions(one Apart) {
	people := 0
	for _, plate := range c.plan.Plates {
		if plate.Guest.IsLike(one.Guest) && slices.Contains(plate.Apart, one.Dish) {
			people += plate.Number
		}
	}
	portions := new(big.Rat).Mul(helping(one.Guest), big.NewRat(int64(people), 1))
	if people != one.People || one.Portions.Cmp(portions) != 0 {
		c.add(one.Dish, "%s portions are set apart for %d where %d get one", one.Portions.RatString(), one.People, people)
	}
}

// apartClock has the history of what is set apart judged anew.
func (c *check) apartClock(one Apart) {
	verdict, err := keeping.Judge(one.Clock.History, keeping.Authority(c.plan.Kitchen.Authority), c.plan.ServeAt)
	if err != nil || !one.Clock.History.Vulnerable || one.Clock.Holds == (verdict.Kind == keeping.Discard) {
		c.add(one.Dish, "the clock of what is set apart and keeping's verdict differ")
	}
	told := slices.ContainsFunc(c.plan.Warnings, func(w Warning) bool {
		return w.Severity == Danger && w.Concern == ClockBroken && w.Dish == one.Dish && w.Apart.Guest.IsLike(one.Guest)
	})
	if !one.Clock.Holds && !told {
		c.add(one.Dish, "the clock of what is set apart breaks without a warning")
	}
}
