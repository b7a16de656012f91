package render

import (
	"io"
	"time"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

type planJSON struct {
	Mode      string          `json:"mode"`
	On        string          `json:"on"`
	StartAt   string          `json:"start_at,omitempty"`
	ServeAt   string          `json:"serve_at,omitempty"`
	Earliest  string          `json:"earliest_serve_at,omitempty"`
	Took      string          `json:"serve_at_from,omitempty"`
	GasG      float64         `json:"gas_g"`
	WaterML   float64         `json:"water_ml"`
	Canisters int             `json:"canisters"`
	IceG      float64         `json:"ice_g,omitempty"`
	Lots      []lotJSON       `json:"lots"`
	SetAside  []setAsideJSON  `json:"set_aside"`
	Dishes    []dishJSON      `json:"dishes"`
	LeftOut   []leftOutJSON   `json:"left_out"`
	Left      []leftJSON      `json:"left"`
	Levels    *levelsJSON     `json:"levels,omitempty"`
	Proven    *bool           `json:"proven,omitempty"`
	Bounds    []boundJSON     `json:"bounds"`
	Plates    []plateJSON     `json:"plates,omitempty"`
	Apart     []setApartJSON  `json:"apart,omitempty"`
	Short     []boundJSON     `json:"short,omitempty"`
	Pick      []lineJSON      `json:"pick"`
	Buy       []lineJSON      `json:"buy"`
	Loads     []loadClassJSON `json:"loads"`
	Rounds    int             `json:"rounds"`
	Runs      []runJSON       `json:"runs"`
	Timetable []stepJSON      `json:"timetable"`
	Shortest  *bool           `json:"timetable_proven,omitempty"`
	Cost      *costJSON       `json:"timetable_cost,omitempty"`
	Bound     *costJSON       `json:"timetable_bound,omitempty"` // none can cost less
	Clocks    []clockJSON     `json:"clocks"`
	Keep      []noteJSON      `json:"keep"`
	Record    *recordJSON     `json:"plan,omitempty"`
	Taken     []string        `json:"taken,omitempty"`
	Warnings  []warningJSON   `json:"warnings"`
	Cautions  []string        `json:"cautions"`
	Reasons   []reasonJSON    `json:"why,omitempty"`
}

// costJSON is what a timetable is judged by, in minutes, the weightiest first.
type costJSON struct {
	Over int `json:"over_limits"`
	Hot  int `json:"hot_waits"`
	Warm int `json:"warm_waits_beyond"`
	All  int `json:"in_all"`
}

func costOf(c schedule.Cost) *costJSON { return &costJSON{c.Over, c.Hot, c.Warm, c.Length} }

// recordJSON is how a plan is called when it is recorded.
type recordJSON struct {
	ID    string `json:"id"`
	Stock string `json:"stock"`
}

type lotJSON struct {
	ID         string          `json:"id"`
	Name       string          `json:"name"`
	Crop       string          `json:"crop"`
	Planting   string          `json:"planting,omitempty"`
	Sizes      []int           `json:"sizes_mm,omitempty"`
	Condition  string          `json:"condition"`
	Supply     decimal.Decimal `json:"supply_g"`
	First      bool            `json:"first"`
	KeepsUntil string          `json:"keeps_until,omitempty"`
}

type setAsideJSON struct {
	Lot     string          `json:"lot"`
	Crop    string          `json:"crop"`
	Grams   decimal.Decimal `json:"g"`
	Because string          `json:"because"`
}

type dishJSON struct {
	Name      string          `json:"name"`
	Portions  int             `json:"portions"`
	Factor    decimal.Decimal `json:"factor"`
	Served    string          `json:"served"`
	Crops     []cropJSON      `json:"crops"`
	Others    []lineJSON      `json:"others"`
	Method    []string        `json:"method,omitempty"`
	Allergens allergensJSON   `json:"allergens"`
	Kinds     []string        `json:"kinds"` // what keeping takes it for, the strictest first
	Notes     []string        `json:"notes,omitempty"`
	Cautions  []string        `json:"cautions,omitempty"`
}

type allergensJSON struct {
	Contains []string          `json:"contains"`
	May      []string          `json:"may"`
	Because  map[string]string `json:"because"` // by allergen the word it rests on
	Unknown  []string          `json:"unknown"` // ingredients that are not in the table
}

type cropJSON struct {
	Crop        string          `json:"crop"`
	Lifted      decimal.Decimal `json:"lifted_g"`
	Prepared    decimal.Decimal `json:"prepared_g"`
	Preparation string          `json:"preparation"`
	Cooked      string          `json:"cooked_g,omitempty"` // roughly
	From        []takeJSON      `json:"from"`
	Cut         string          `json:"cut"`
	Cuts        []cutJSON       `json:"cuts,omitempty"`
	CutNote     string          `json:"cut_note,omitempty"`
	Steam       *steamJSON      `json:"steam,omitempty"`
	Boil        *partPotJSON    `json:"boil,omitempty"` // what is boiled or blanched
}

type takeJSON struct {
	Lot   string          `json:"lot"`
	Grams decimal.Decimal `json:"g"`
}

type cutJSON struct {
	Sizes   []int   `json:"sizes_mm,omitempty"`
	How     string  `json:"how"`
	Piece   float64 `json:"piece_mm"`
	Minutes float64 `json:"minutes"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
}

type steamJSON struct {
	Minutes       float64 `json:"minutes"`
	Low           float64 `json:"low"`
	High          float64 `json:"high"`
	FromLoading   float64 `json:"from_loading"`
	ComeUp        float64 `json:"come_up_minutes"`
	SteamC        float64 `json:"steam_c"`
	CentreC       float64 `json:"centre_c"`
	InRange       bool    `json:"in_range"`
	KnifeTests    int     `json:"knife_tests"`
	Layers        int     `json:"layers"`
	Rounds        int     `json:"rounds"`
	GramsPerLayer float64 `json:"grams_per_layer"`
	WaterML       float64 `json:"water_ml"`
	GasG          float64 `json:"gas_g"`
	ToBoil        float64 `json:"to_boil_minutes"`
}

type lineJSON struct {
	Item         string   `json:"item"`
	State        string   `json:"state,omitempty"`
	Exact        string   `json:"exact,omitempty"`
	Low          string   `json:"low,omitempty"`
	High         string   `json:"high,omitempty"`
	Unit         string   `json:"unit,omitempty"`
	Measured     string   `json:"measured"`
	ErrorPercent float64  `json:"error_percent"`
	Advice       string   `json:"advice,omitempty"`
	Instead      []string `json:"instead,omitempty"`
	Optional     bool     `json:"optional,omitempty"`
	From         string   `json:"from,omitempty"`
	Dishes       []string `json:"dishes,omitempty"`
	Cupboard     bool     `json:"cupboard,omitempty"`
}

type leftOutJSON struct {
	Dish    string `json:"dish"`
	Because string `json:"because"`
}

type leftJSON struct {
	Lot   string          `json:"lot"`
	Grams decimal.Decimal `json:"g"`
}

type levelsJSON struct {
	Fed      []int           `json:"fed,omitempty"` // guests with at least one helping, two, …
	Over     *int            `json:"over,omitempty"`
	UseFirst decimal.Decimal `json:"use_first_g"`
	Dishes   int             `json:"dishes"`
	Balance  string          `json:"balance"`
	Portions int             `json:"portions"`
}

type loadClassJSON struct {
	Class    string          `json:"class"`
	Dishes   []string        `json:"dishes"`
	Grams    decimal.Decimal `json:"grams"`
	PerLayer float64         `json:"grams_per_layer"`
	Layers   int             `json:"layers"`
}

type boundJSON struct {
	What string `json:"what"`
	Says string `json:"says"`
}

type plateJSON struct {
	Guest  string   `json:"guest"`
	Number int      `json:"number"`
	Dishes []string `json:"dishes"`
	Child  bool     `json:"child"`
	Short  int      `json:"short"`
	Apart  []string `json:"apart,omitempty"` // dishes of which they get the portion set apart, never as they are made
}

// setApartJSON is what of a dish is set apart, before the step's other work.
type setApartJSON struct {
	Dish     string          `json:"dish"`
	Guest    string          `json:"guest"`
	Number   int             `json:"number"`
	Portions decimal.Decimal `json:"portions"`
	Without  []string        `json:"without"`
	Because  string          `json:"because"`
	Step     string          `json:"step,omitempty"`
	LimitAt  string          `json:"limit_at,omitempty"`
	Rule     string          `json:"rule"`
	Holds    *bool           `json:"holds,omitempty"`
}

// runJSON is one filling of the steamer.
type runJSON struct {
	ID      string     `json:"id"`
	At      string     `json:"at,omitempty"`
	Dishes  []string   `json:"dishes"`
	Tiers   [][]string `json:"tiers"`             // from the lowest, the dishes in each
	Minutes int        `json:"minutes,omitempty"` // of steam
}

type stepJSON struct {
	ID      string   `json:"id"`
	Kind    string   `json:"kind"`
	At      string   `json:"at"`
	Minutes int      `json:"minutes"`
	Do      string   `json:"do"`
	Dish    string   `json:"dish"`
	Dishes  []string `json:"dishes"`
	Crop    string   `json:"crop,omitempty"`
	Run     string   `json:"run,omitempty"`
	Hands   int      `json:"hands"`
	Ring    int      `json:"ring"`
	Tier    int      `json:"tier"`
	After   []string `json:"after"`
	Uses    string   `json:"uses,omitempty"`
}

type clockJSON struct {
	Dish      string `json:"dish"`
	Food      string `json:"food"`
	CookedAt  string `json:"cooked_at"` // the oldest part
	ChilledAt string `json:"chilled_at,omitempty"`
	DressedAt string `json:"dressed_at,omitempty"`
	ServeAt   string `json:"serve_at"`
	LimitAt   string `json:"limit_at"`
	Rule      string `json:"rule"`
	Holds     bool   `json:"holds"`
}

type warningJSON struct {
	Severity string `json:"severity"`
	Dish     string `json:"dish,omitempty"`
	Rule     string `json:"rule,omitempty"`
	Says     string `json:"says"`
	Mend     string `json:"mend,omitempty"`
}

type noteJSON struct {
	Rule string `json:"rule"`
	Says string `json:"says"`
}

type reasonJSON struct {
	Figure  string `json:"figure"`
	Value   string `json:"value"`
	Source  string `json:"source"`
	KnownBy string `json:"known_by"`
}

func reasonOf(r units.Reason) reasonJSON {
	return reasonJSON{Figure: r.Figure, Value: r.Value, Source: r.Provenance.String(), KnownBy: r.KnownBy}
}

// PlanJSON writes a plan for scripts; why adds the source of each figure.
func PlanJSON(w io.Writer, a ask.MealAnswer, why bool) error {
	plan := a.Plan
	out := planJSON{
		Mode: string(plan.Mode), On: plan.On.Format(time.DateOnly), ServeAt: instant(plan.ServeAt), Earliest: instant(plan.EarliestServeAt),
		GasG: tenth(plan.Supplies.GasG), WaterML: tenth(plan.Supplies.WaterML), Canisters: plan.Supplies.Canisters, IceG: tenth(plan.Supplies.IceG),
		Lots: each(plan.Lots, lotOf), SetAside: each(plan.SetAside, setAsideOf),
		LeftOut: each(plan.LeftOut, func(l meal.LeftOut) leftOutJSON { return leftOutJSON{l.Dish, leftOutWords(l)} }),
		Left:    each(plan.Left, func(l meal.Leftover) leftJSON { return leftJSON{l.ID, l.Grams} }),
		Bounds:  boundsOf(plan), Plates: each(plan.Plates, plateOf), Apart: each(plan.Apart, setApartOf),
		Short: each(plan.Short, func(s meal.Shortfall) boundJSON { return boundJSON{s.Guest.Label(), shortfallWords(s)} }),
		Pick:  each(plan.Pick, wantOf), Buy: each(plan.Buy, wantOf),
		Loads: each(plan.Loads, loadClassOf), Rounds: plan.Rounds,
		Runs: each(plan.Runs, func(r meal.Run) runJSON { return runOf(plan, r) }), Clocks: each(plan.Clocks, clockOf),
		Timetable: each(plan.Steps, func(s meal.Step) stepJSON { return stepOf(plan, s) }),
		Keep:      each(plan.Keep, func(n keeping.Note) noteJSON { return noteJSON{n.Rule, noteWithDishes(n)} }),
		Cautions:  each(plan.Cautions, same),
		Warnings:  each(plan.Warnings, func(w meal.Warning) warningJSON { return warningOf(plan, w) }),
	}
	for d := range plan.Dishes {
		out.Dishes = append(out.Dishes, dishOf(plan, d))
	}
	if len(plan.Steps) > 0 {
		out.StartAt, out.Shortest = instant(plan.Steps[0].At), &plan.Timing.Proven
		out.Cost, out.Bound = costOf(plan.Timing.Cost), costOf(plan.Timing.Bound)
		out.Took = tookNames[plan.Took]
	}
	if plan.Mode != meal.One {
		out.Levels, out.Proven = levelsOf(plan), &plan.Levels.Proven
	}
	if a.Record != nil {
		out.Record = &recordJSON{a.Record.ID, a.Record.Stock}
		if a.Record.File != "" {
			out.Taken = []string{a.Record.File}
		}
	}
	if why {
		out.Reasons = each(plan.Reasons, reasonOf)
	}
	return writeJSON(w, out)
}

// instant is a moment as scripts read it; "" where there is none.
func instant(at time.Time) string {
	if at.IsZero() {
		return ""
	}
	return at.Format(time.RFC3339)
}

// each turns every element by f; an empty list stays a list in JSON.
func each[From, To any](from []From, f func(From) To) []To {
	to := make([]To, 0, len(from))
	for _, one := range from {
		to = append(to, f(one))
	}
	return to
}

func same(text string) string { return text }

// tookNames say for scripts where the serving time comes from.
var tookNames = map[meal.Took]string{meal.AsAsked: "asked", meal.FromThen: "start", meal.FromNow: "now", meal.AtSix: "18:00"}
