package planner

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A writtenProblem is a problem and its answer as the files of testdata hold it.
type writtenProblem struct {
	Lots       []writtenLot    `json:"lots"`
	Dishes     []writtenDish   `json:"dishes"`
	Limits     []writtenAmount `json:"limits,omitempty"`
	KeepBack   []writtenAmount `json:"keep_back,omitempty"`
	Guests     []writtenGuest  `json:"guests,omitempty"`
	Sides      int             `json:"sides,omitempty"`
	MostDishes int             `json:"most_dishes,omitempty"`
	ManyDishes bool            `json:"many_dishes,omitempty"`
	Layers     int             `json:"layers,omitempty"`
	Ties       []int           `json:"ties,omitempty"`
	Expected   writtenAnswer   `json:"expected"`
}

type writtenLot struct {
	ID      string `json:"id"`
	Crop    string `json:"crop"`
	Texture string `json:"texture,omitempty"`
	Sizes   [2]int `json:"sizes"`
	Supply  string `json:"supply"`
	First   bool   `json:"first,omitempty"`
}

type writtenDish struct {
	Name     string          `json:"name"`
	Smallest int             `json:"smallest"`
	Largest  int             `json:"largest"`
	Wish     string          `json:"wish"`
	Needs    []writtenNeed   `json:"needs"`
	Others   []writtenAmount `json:"others,omitempty"`
}

type writtenNeed struct {
	Crop    string `json:"crop"`
	Per     string `json:"per"`
	Texture string `json:"texture,omitempty"`
	Sizes   [2]int `json:"sizes"`
	Class   string `json:"class,omitempty"`
	Layers  string `json:"layers,omitempty"`
}

type writtenGuest struct {
	Label string `json:"label"`
	Count int    `json:"count"`
	Child bool   `json:"child,omitempty"`
	Suits []bool `json:"suits"`
}

type writtenAmount struct {
	Item   string `json:"item"`
	Per    string `json:"per,omitempty"`
	Amount string `json:"amount,omitempty"`
	Unit   string `json:"unit"`
}

type writtenAnswer struct {
	Portions []int  `json:"portions"`
	Fed      []int  `json:"fed,omitempty"`
	Over     int    `json:"over,omitempty"`
	UseFirst string `json:"use_first"`
	Dishes   int    `json:"dishes"`
	Balance  string `json:"balance"`
	Count    int    `json:"count"`
}

func (w writtenAnswer) answer(t testing.TB) *answer {
	return &answer{x: w.Portions, fed: w.Fed, over: w.Over, use: rat(t, w.UseFirst), dishes: w.Dishes, balance: rat(t, w.Balance), portions: w.Count}
}

func rat(t testing.TB, text string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(text)
	require.True(t, ok, "not a number: %q", text)
	return r
}

// problem turns the file's form into the planner's.
func (w *writtenProblem) problem(t testing.TB) Problem {
	p := Problem{Sides: w.Sides, MostDishes: w.MostDishes, ManyDishes: w.ManyDishes, Layers: w.Layers, Ties: w.Ties}
	for _, l := range w.Lots {
		p.Lots = append(p.Lots, Lot{ID: l.ID, Crop: l.Crop, Texture: l.Texture, Sizes: units.Band{Low: l.Sizes[0], High: l.Sizes[1]}, Supply: decimal.RequireFromString(l.Supply), First: l.First})
	}
	for _, d := range w.Dishes {
		dish := Dish{Name: d.Name, Smallest: d.Smallest, Largest: d.Largest, Wish: decimal.RequireFromString(d.Wish)}
		for _, n := range d.Needs {
			need := Need{Crop: n.Crop, PerPortion: rat(t, n.Per), Texture: n.Texture, Sizes: units.Band{Low: n.Sizes[0], High: n.Sizes[1]}}
			if n.Class != "" {
				need.Load = Load{n.Class, rat(t, n.Layers)}
			}
			dish.Needs = append(dish.Needs, need)
		}
		for _, o := range d.Others {
			dish.Others = append(dish.Others, Other{o.Item, rat(t, o.Per), o.Unit})
		}
		p.Dishes = append(p.Dishes, dish)
	}
	for _, l := range w.Limits {
		p.Limits = append(p.Limits, Limit{l.Item, rat(t, l.Amount), l.Unit})
	}
	for _, k := range w.KeepBack {
		p.KeepBack = append(p.KeepBack, KeepBack{k.Item, rat(t, k.Amount)})
	}
	for _, g := range w.Guests {
		p.Guests = append(p.Guests, Guest{Label: g.Label, Count: g.Count, Child: g.Child, Suits: g.Suits})
	}
	return p
}

// written is the inverse of writtenProblem.problem.
func written(p Problem) writtenProblem {
	w := writtenProblem{Sides: p.Sides, MostDishes: p.MostDishes, ManyDishes: p.ManyDishes, Layers: p.Layers, Ties: p.Ties}
	for _, l := range p.Lots {
		w.Lots = append(w.Lots, writtenLot{l.ID, l.Crop, l.Texture, [2]int{l.Sizes.Low, l.Sizes.High}, l.Supply.String(), l.First})
	}
	for _, d := range p.Dishes {
		dish := writtenDish{Name: d.Name, Smallest: d.Smallest, Largest: d.Largest, Wish: d.Wish.String()}
		for _, n := range d.Needs {
			need := writtenNeed{Crop: n.Crop, Per: n.PerPortion.RatString(), Texture: n.Texture, Sizes: [2]int{n.Sizes.Low, n.Sizes.High}}
			if n.Load.PerPortion != nil {
				need.Class, need.Layers = n.Load.Class, n.Load.PerPortion.RatString()
			}
			dish.Needs = append(dish.Needs, need)
		}
		for _, o := range d.Others {
			dish.Others = append(dish.Others, writtenAmount{Item: o.Item, Per: o.PerPortion.RatString(), Unit: o.Unit})
		}
		w.Dishes = append(w.Dishes, dish)
	}
	for _, l := range p.Limits {
		w.Limits = append(w.Limits, writtenAmount{Item: l.Item, Amount: l.Amount.RatString(), Unit: l.Unit})
	}
	for _, k := range p.KeepBack {
		w.KeepBack = append(w.KeepBack, writtenAmount{Item: k.Crop, Amount: k.Grams.RatString(), Unit: "g"})
	}
	for _, g := range p.Guests {
		w.Guests = append(w.Guests, writtenGuest{g.Label, g.Count, g.Child, g.Suits})
	}
	return w
}
