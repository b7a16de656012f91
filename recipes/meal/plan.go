package meal

import (
	"iter"
	"math/big"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
	"trencher/units"
)

// Plan is the answer of [Make] and [MakeOne]. Everything a reader is to see
// stands in it as data; the faces only lay it out and word it.
type Plan struct {
	Mode    Mode
	Plot    string
	On      time.Time
	ServeAt time.Time // zero where nothing is to be done
	AirC    float64
	Kitchen recipes.Kitchen

	Lots     []LotUse
	SetAside []Aside // not planned on

	Dishes  []Dish // the dishes that are made, in dish order
	LeftOut []LeftOut
	Left    []Leftover // what is left of each lot

	Levels Levels
	Bounds []Bound // what held the plan back; none where nothing did, or it is not proven
	Partly bool    // there may be more bounds than those
	Plates []Plate
	Apart  []Apart // what of the dishes is set apart for somebody on the plates
	Short  []Shortfall

	Loads  []LoadClass // the steamer's, by what is steamed alike
	Rounds int         // fillings of the steamer that would hold them all

	Pick, Buy []Want // from the plot and from the shop, over all dishes

	Runs   []Run
	Steps  []Step        // in the order of their starts; none where nothing is to be done
	Allow  time.Duration // from the first step to serving
	Took   Took          // where the serving time comes from
	Timing Timing        // how good the timetable is
	// EarliestServeAt is when it could be served, where the time asked for
	// cannot be met; else zero.
	EarliestServeAt time.Time
	Supplies        Supplies
	Box             Box
	Clocks          []Clock
	Keep            []keeping.Note

	Warnings []Warning // the gravest first
	Cautions []string  // that go with every plan
	Reasons  []units.Reason
}

// IsNotCold tells that a dish meant cold comes to the table warmer.
func (p Plan) IsNotCold(dish string) bool {
	return slices.ContainsFunc(p.Warnings, func(w Warning) bool { return w.Concern == NotCold && w.Dish == dish })
}

// Aside is a lot that is not planned on.
type Aside struct {
	*harvest.Lot
	Because AsideCause
}

// AsideCause is why a lot is not planned on.
type AsideCause uint8

// The causes: a lot that is never to be eaten, and one that is older than twice
// the time it keeps raw, which somebody has to look over first.
const (
	NotEdible AsideCause = iota
	PastKeeping
)

// LotUse is a lot that may go to the kitchen. Taken is in grams of its supply.
type LotUse struct {
	*harvest.Lot
	Taken decimal.Decimal
}

// Left is what the plan leaves of the lot, in grams of its supply.
func (l LotUse) Left() decimal.Decimal { return l.Supply.Sub(l.Taken) }

// Leftover is what remains of a lot, in grams of its supply.
type Leftover struct {
	*harvest.Lot
	Grams decimal.Decimal
}

// Dish is one dish of the plan, scaled to its portions.
type Dish struct {
	Recipe   recipes.Dish
	Makeup   Makeup // of the recipe
	Scaled   recipes.Scaled
	Portions int // whole ones
	Parts    []Part
	Notes    []TastingNote
}

// Name is the dish's.
func (d Dish) Name() string { return d.Recipe.Name }

// Part is one weighed crop of a dish.
type Part struct {
	Line     recipes.CropLine
	Lifted   decimal.Decimal // grams as lifted
	Prepared decimal.Decimal // grams after preparation
	Cooked   decimal.Decimal // grams once steamed, roughly; zero when not known
	From     []Take
	Piece    Piece
	Steam    *Steaming // nil when it is not steamed or has no figures
	Pot      *Pot      // nil when it is not boiled or blanched or has no figures
	Cuts     []Cut     // how to cut each size so that all cook together
	Uneven   Uneven    // how far apart they end all the same
}

// IsUntimed tells a part that is cooked, for nobody knows how long.
func (p Part) IsUntimed() bool { return !p.Line.IsRaw() && !p.IsCooked() }

// IsCookedOwn tells a part that is cooked by the minutes of its dish file: the
// grower's own way, or in water where heat has no figures for the crop.
func (p Part) IsCookedOwn() bool {
	return !p.Line.IsRaw() && !p.Line.IsSteamed() && p.Pot == nil && p.Line.Minutes > 0
}

// IsCooked tells a part that the timetable cooks.
func (p Part) IsCooked() bool { return p.Steam != nil || p.Pot != nil || p.IsCookedOwn() }

// Take is what a dish takes of one lot, in grams of its supply.
type Take struct {
	Lot   *harvest.Lot
	Grams decimal.Decimal
}

// Piece is what the heat has to get through.
type Piece struct {
	Crop    heat.Crop
	Cut     heat.Cut // as the dish file says
	Sized   heat.Cut // the same, of its largest tuber
	Until   heat.Doneness
	Classes []heat.SizeClass // the sizes that are taken
	Grams   float64          // prepared
}

// Steaming is the steaming of one part in the kitchen's steamer. Minutes, Low and
// High are by its estimate's clock, from full steam or from loading, the ends wide
// enough for every size.
type Steaming struct {
	Load      heat.Load     // by itself
	Estimate  heat.Estimate // with all that is in the steamer at once
	AtOnceG   float64       // grams in the steamer at once
	Minutes   float64
	Low, High float64
	Runs      []string // its fillings of the steamer, by ID

	placed bool // in a filling
}

// take has the times of an estimate.
func (s *Steaming) take(e heat.Estimate) {
	s.Estimate = e
	s.Minutes, s.Low, s.High = e.Clock()
}

// slowest has the times of the slowest place it lies in, with so many grams in the
// steamer at once.
func (s *Steaming) slowest(e heat.Estimate, grams float64) {
	if !s.placed || e.FromLoading > s.Estimate.FromLoading {
		s.take(e)
	}
	if s.placed {
		grams = max(grams, s.AtOnceG)
	}
	s.AtOnceG, s.placed = grams, true
}

// Longest is the most minutes it keeps its place, from loading.
func (s Steaming) Longest() float64 { return s.Estimate.ComeUp + s.High }

// Cut says how one size class is cut. Minutes are of its largest piece alone,
// from full steam; Low and High of all.
type Cut struct {
	Sizes              units.Band // none when the lots are not graded
	Cut                heat.Cut
	PieceMM            float64
	AsWritten          bool // the dish file's own cut, whatever the size
	Minutes, Low, High float64
}

// Uneven is how far the first and the last pieces miss the common time.
type Uneven struct {
	EarlyMinutes, LateMinutes float64
	DiceMM                    float64 // the cube that would end all together; 0 = none advised
}

// LeftOut is a dish that is not made.
type LeftOut struct {
	Dish     string
	Reason   planner.Reason
	Of       string   // the crop or ingredient that is short
	Unit     string   // of Short, a UCUM code; "" = grams
	Short    *big.Rat // nil when nothing is
	Smallest int      // its smallest batch
	OnHand   bool     // there is some of Of, though not of the kind it wants
}

// Levels are the values of the optimum's levels.
type Levels struct {
	planner.Levels
	Proven bool
	Nodes  int // steps of the search
}

// Cause is one thing that held the plan back.
type Cause struct {
	Kind planner.CauseKind
	Of   string // the crop, the ingredient or the dish; "" where the kind says all
	Unit string // of amounts, a UCUM code; "" where they are counted
}

// Bound says that one cause, relaxed alone, would make a better plan.
type Bound struct {
	Cause
	Improves planner.Level  // the first level that would be better
	Amount   *big.Rat       // the smallest amount that does it; nil where it is no matter of amounts
	Then     planner.Levels // what the plan would come to with it
	More     []string       // the dishes that would then have more portions
}

// Mend is the smallest relaxing of one cause; Amount is as in a Bound.
type Mend struct {
	Cause
	Amount *big.Rat
}

// Plate is what the guests of one kind get.
type Plate struct {
	Guest  recipes.Guests
	Number int      // how many have this same plate
	Dishes []string // as they are made
	Apart  []string // of these a portion without what is not for the guest, see Apart
	Short  int      // helpings fewer than the sides asked for
}

// isLike tells that two guests are of one kind and get the same.
func (p Plate) isLike(o Plate) bool {
	return p.Guest.IsLike(o.Guest) && p.Short == o.Short && slices.Equal(p.Dishes, o.Dishes) && slices.Equal(p.Apart, o.Apart)
}

// Shortfall is guests who get fewer helpings than they might take.
type Shortfall struct {
	Guest    recipes.Guests
	People   int
	Helpings int // short, over all of them
	Suiting  int // dishes that they may eat
	Sides    int
	Not      []NotFor
	Mend     *Mend // the smallest change with which none of them is short; nil when no one change does it
}

// NotFor is a dish that somebody may not eat.
type NotFor struct{ Dish, Why string }

// PartAt is one part of the plan, by dish and part.
type PartAt struct{ Dish, Part int }

// eachPart walks the parts of all dishes, in their order.
func eachPart(dishes []Dish) iter.Seq2[PartAt, Part] {
	return func(yield func(PartAt, Part) bool) {
		for d, dish := range dishes {
			for p, part := range dish.Parts {
				if !yield(PartAt{d, p}, part) {
					return
				}
			}
		}
	}
}

// Run is one filling of the steamer.
type Run struct {
	ID         string
	Parts      []PartAt
	Tiers      [][]PartAt // from the lowest; each has parts of one class
	Number, Of int        // which filling of the part it is; 1 of 1 where parts share it
}

// Step is one step of the timetable. Parts are those it is about.
type Step struct {
	schedule.Timed
	Parts []PartAt
	Do    string // of a dish's own step, its words
}

// Took says where a plan's serving time comes from.
type Took uint8

// Where it comes from.
const (
	AsAsked  Took = iota // the serving time asked for
	FromThen             // as soon as can be, from the start asked for
	FromNow              // as soon as can be, from now: nothing was asked for
	AtSix                // another day than today: 18:00
)

// Timing says how good a timetable is.
type Timing struct {
	Cost, Bound schedule.Cost
	Proven      bool
}

// TimingGoal is what a timetable adds up, in the order in which it counts.
type TimingGoal uint8

// The goals.
const (
	OverLimits  TimingGoal = iota // minutes of food past its limits
	HotWaiting                    // minutes that hot food waits
	WarmWaiting                   // minutes that warm food waits beyond what it may
	InAll                         // minutes from the first step to serving
)

// Open is the first goal of a timetable that is not proven which another order
// might improve: the minutes found and the least that any order has.
func (t Timing) Open() (goal TimingGoal, found, least int) {
	of := func(c schedule.Cost) []int { return []int{c.Over, c.Hot, c.Warm, c.Length} }
	cost, bound := of(t.Cost), of(t.Bound)
	for goal < InAll && cost[goal] <= bound[goal] {
		goal++
	}
	return goal, cost[goal], bound[goal]
}

// Supplies are what a meal takes of gas and water. Zero where nothing is
// steamed, gas also where nothing burns.
type Supplies struct {
	GasG      float64 // through the timetable as it stands, food not done sooner
	StartML   float64 // of the water, what goes into the pan before the first boil
	WaterML   float64 // to have at hand for the pan, what is topped up included
	IceG      float64 // for what is blanched and served cold
	TooLong   bool    // something burns more, from its beginning to its end, than a full canister holds
	Canisters int     // to have at hand; 0 where the kitchen names no canister
}

// Box is what the cold box is asked for; zero where nothing cold is to go into
// it.
type Box struct {
	IceG   float64
	FoodG  float64 // roughly, of the dressed dishes
	Lasts  float64 // minutes that the ice holds it, from when the work begins
	Needed float64 // minutes from then to serving
}

// Warms tells that the ice is gone before serving, so that nothing is kept in it.
func (b Box) Warms() bool { return b.Lasts < b.Needed }
