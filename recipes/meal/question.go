package meal

import (
	"math/big"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
)

// Mode is what a question is about.
type Mode string

// The modes, as scripts read them.
const (
	Share Mode = "share" // today's crop among the dishes
	Table Mode = "table" // the same, people first
	One   Mode = "dish"  // one dish alone, to a weight or a number of portions
)

// Question is what a plan is asked for, and all that it rests on.
type Question struct {
	Mode    Mode
	Plot    string    // what answers call the plot; "" for the current folder
	On      time.Time // the day asked about, local midnight
	Now     time.Time // the clock
	ServeAt time.Time // zero: as soon as can be
	Start   time.Time // from then on, where ServeAt is zero; zero: from now

	Kitchen recipes.Kitchen
	AirC    float64 // °C where the food stands

	Dishes   []recipes.Dish // those that may be made; the earlier wins a tie
	Portions *big.Rat       // of the one dish of mode One

	Lots     []*harvest.Lot // on hand, whatever their condition
	Limits   []Limit
	KeepBack []KeepBack
	Guests   []recipes.Guests // who eats; nil: nobody in particular
	Sides    int              // the most helpings a guest takes

	MostDishes     int          // the most dishes that are made; 0: any number
	ManyDishes     bool         // with guests: as many dishes as can be are asked for, not as few
	Rounds, Layers int          // the most fillings of the steamer, and layers in all; 0: any number
	Made           harvest.Made // ties go to the dish made longest ago, else as the dishes stand

	KnifeTests []heat.KnifeTest         // of this kitchen
	Notes      map[string][]TastingNote // by dish name in small letters, the latest first
	Remarks    []string                 // what was odd about the plot's files

	patience  int // of the timetable's search, before NodeLimit; 0 = as that says
	NodeLimit int // the patience of each search, in nodes; 0 = its own

	reckoned *reckoned       // nil: nothing is remembered
	makeups  []func() Makeup // of the dishes, each read once; nil: read anew
}

// Limit is the most there may be of an ingredient over all dishes. Its amount
// is one figure, no range.
type Limit struct {
	Item   string
	Amount units.Quantity
}

// KeepBack is produce that is not for the meal.
type KeepBack struct {
	Crop   string
	Weight units.Quantity
}

// TastingNote is what somebody said of a dish when it was last eaten.
type TastingNote struct {
	At   time.Time
	Says string
}
