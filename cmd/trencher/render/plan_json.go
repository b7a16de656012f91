package render

import (
	"io"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

type planJSON struct {
	Mode      string         `json:"mode"`
	On        string         `json:"on"`
	StartAt   string         `json:"start_at,omitempty"`
	ServeAt   string         `json:"serve_at,omitempty"`
	Earliest  string         `json:"earliest_serve_at,omitempty"`
	Took      string         `json:"serve_at_from,omitempty"`
	GasG      float64        `json:"gas_g"`
	WaterML   float64        `json:"water_ml"`
	Canisters int            `json:"canisters"`
	Lots      []lotJSON      `json:"lots"`
	SetAside  []setAsideJSON `json:"set_aside"`
	Dishes    []dishJSON     `json:"dishes"`
	LeftOut   []leftOutJSON  `json:"left_out"`
	Left      []leftJSON     `json:"left"`
	Levels    *levelsJSON    `json:"levels,omitempty"`
	Proven    *bool          `json:"proven,omitempty"`
	Bounds    []boundJSON    `json:"bounds"`
	Plates    []plateJSON    `json:"plates,omitempty"`
	Short     []boundJSON    `json:"short,omitempty"`
	Pick      []lineJSON     `json:"pick"`
	Buy       []lineJSON     `json:"buy"`
	Runs      []runJSON      `json:"runs"`
	Timetable []stepJSON     `json:"timetable"`
	Shortest  *bool          `json:"timetable_proven,omitempty"`
	Clocks    []clockJSON    `json:"clocks"`
	Keep      []noteJSON     `json:"keep"`
	Taken     []string       `json:"taken,omitempty"`
	Warnings  []warningJSON  `json:"warnings"`
	Cautions  []string       `json:"cautions"`
	Reasons   []reasonJSON   `json:"why,omitempty"`
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
	Notes     []string        `json:"notes,omitempty"`
	Cautions  []string        `json:"cautions,omitempty"`
}

type allergensJSON struct {
	Contains []string `json:"contains"`
	May      []string `json:"may_contain"`
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
	Fed      *int            `json:"fed,omitempty"`
	UseFirst decimal.Decimal `json:"use_first_g"`
	Balance  string          `json:"balance"`
	Portions int             `json:"portions"`
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
		GasG: tenth(plan.Supplies.GasG), WaterML: tenth(plan.Supplies.WaterML), Canisters: plan.Supplies.Canisters,
		Lots: each(plan.Lots, lotOf), SetAside: each(plan.SetAside, setAsideOf),
		LeftOut: each(plan.LeftOut, func(l meal.LeftOut) leftOutJSON { return leftOutJSON{l.Dish, leftOutWords(l)} }),
		Left:    each(plan.Left, func(l meal.Leftover) leftJSON { return leftJSON{l.ID, l.Grams} }),
		Bounds:  boundsOf(plan), Plates: each(plan.Plates, plateOf),
		Short: each(plan.Short, func(s meal.Shortfall) boundJSON { return boundJSON{s.Guest.Label(), shortfallWords(s)} }),
		Pick:  each(plan.Pick, wantOf), Buy: each(plan.Buy, wantOf),
		Runs: each(plan.Runs, func(r meal.Run) runJSON { return runOf(plan, r) }), Clocks: each(plan.Clocks, clockOf),
		Timetable: each(plan.Steps, func(s meal.Step) stepJSON { return stepOf(plan, s) }),
		Keep:      each(plan.Keep, func(n keeping.Note) noteJSON { return noteJSON{n.Rule, noteWithDishes(n)} }),
		Taken:     a.Taken, Cautions: each(plan.Cautions, same),
		Warnings: each(plan.Warnings, func(w meal.Warning) warningJSON { return warningOf(plan, w) }),
	}
	for d := range plan.Dishes {
		out.Dishes = append(out.Dishes, dishOf(plan, d))
	}
	if len(plan.Steps) > 0 {
		out.StartAt, out.Shortest = instant(plan.Steps[0].At), &plan.Timing.Proven
		out.Took = tookNames[plan.Took]
	}
	if plan.Mode != meal.One {
		out.Levels, out.Proven = levelsOf(plan), &plan.Levels.Proven
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

func bandOf(low, high int) []int {
	if low == 0 && high == 0 {
		return nil
	}
	return []int{low, high}
}

func lotOf(l meal.LotUse) lotJSON {
	out := lotJSON{ID: l.ID, Name: l.Name, Crop: l.Crop, Planting: l.Planting, Condition: string(l.Condition),
		Sizes: bandOf(l.Sizes.Low, l.Sizes.High), Supply: l.Supply, First: l.First}
	if !l.KeepsUntil.IsZero() {
		out.KeepsUntil = l.KeepsUntil.Format(time.DateOnly)
	}
	return out
}

func setAsideOf(l *harvest.Lot) setAsideJSON {
	return setAsideJSON{l.ID, l.Crop, l.Weight, asideWords(l)}
}

func boundsOf(plan meal.Plan) []boundJSON {
	bounds := each(plan.Extras, func(e meal.Extra) boundJSON { return boundJSON{e.Of, extraWords(e, plan.Mode)} })
	return append(bounds, each(plan.Bounds, func(b meal.Bound) boundJSON { return boundJSON{boundOf(b), boundWords(b)} })...)
}

func plateOf(p meal.Plate) plateJSON {
	return plateJSON{Guest: p.Guest.Label(), Number: p.Number, Dishes: p.Dishes, Child: p.Guest.Child, Short: p.Short}
}

func dishOf(plan meal.Plan, d int) dishJSON {
	dish := plan.Dishes[d]
	contains, may := allergenWords(dish)
	out := dishJSON{
		Name: dish.Name(), Portions: dish.Portions, Factor: units.DecimalOf(dish.Scaled.Factor), Served: servedWord(dish),
		Others: each(dish.Scaled.Others, lineOf), Method: dish.Recipe.Method,
		Allergens: allergensJSON{each(contains, same), each(may, same)},
		Notes:     tastingWords(dish), Cautions: dishCautions(plan, dish),
	}
	for _, part := range dish.Parts {
		out.Crops = append(out.Crops, cropOf(part))
	}
	return out
}

func cropOf(p meal.Part) cropJSON {
	return cropJSON{
		Crop: p.Line.Crop, Lifted: p.Lifted, Prepared: p.Prepared, Preparation: p.Line.Prepared, Cooked: aboveZero(p.Cooked),
		From: each(p.From, func(t meal.Take) takeJSON { return takeJSON{t.Lot.ID, t.Grams} }),
		Cut:  p.Line.Cut, CutNote: unevenWords(p), Steam: steamOf(p.Steam),
		Cuts: each(p.Cuts, func(c meal.Cut) cutJSON { return cutOf(p, c) }),
	}
}

// aboveZero is the number's digits; "" for nothing.
func aboveZero(d decimal.Decimal) string {
	if !d.IsPositive() {
		return ""
	}
	return d.String()
}

func cutOf(p meal.Part, c meal.Cut) cutJSON {
	return cutJSON{Sizes: bandOf(c.Sizes.Low, c.Sizes.High), How: cutWords(p, c), Piece: tenth(c.PieceMM),
		Minutes: tenth(c.Minutes), Low: tenth(c.Low), High: tenth(c.High)}
}

func steamOf(s *meal.Steaming) *steamJSON {
	if s == nil {
		return nil
	}
	e, load := s.Estimate, s.Load
	return &steamJSON{
		Minutes: tenth(e.Minutes), Low: tenth(s.Low), High: tenth(s.High), ComeUp: tenth(e.ComeUp),
		SteamC: tenth(e.SteamC), CentreC: tenth(e.CentreC), InRange: e.InRange(), KnifeTests: e.KnifeTests,
		Layers: load.Layers, Rounds: load.Rounds, GramsPerLayer: tenth(load.GramsPerLayer),
		WaterML: tenth(load.WaterML), GasG: tenth(load.GasG), ToBoil: tenth(load.ToBoil),
	}
}

// sourceOf says where an ingredient comes from.
func sourceOf(fromPlot bool) string {
	if fromPlot {
		return "plot"
	}
	return "shop"
}

func lineOf(l recipes.ScaledLine) lineJSON {
	words := scaledWords(l)
	out := lineJSON{Item: l.Item, State: l.State, Measured: words.Measured, Advice: words.Advice, Instead: words.Instead,
		Optional: l.Optional, From: sourceOf(l.FromPlot), ErrorPercent: tenth(l.Measured.ErrorPercent.InexactFloat64())}
	out.Exact, out.Low, out.High, out.Unit = exactDigits(l.Exact)
	return out
}

func wantOf(want meal.Want) lineJSON {
	words := wantWords(want)
	out := lineJSON{Item: want.Item, State: want.State, Measured: words.Measured, Optional: want.Optional,
		From: sourceOf(want.FromPlot), Dishes: want.Dishes}
	out.Exact, out.Low, out.High, out.Unit = exactDigits(want.Exact)
	return out
}

func levelsOf(plan meal.Plan) *levelsJSON {
	out := &levelsJSON{Balance: balance(plan.Levels), Portions: plan.Levels.Portions}
	if plan.Levels.UseFirst != nil {
		out.UseFirst = units.DecimalOf(plan.Levels.UseFirst)
	}
	if plan.Mode == meal.Table {
		out.Fed = &plan.Levels.Fed
	}
	return out
}

func runOf(plan meal.Plan, r meal.Run) runJSON {
	out := runJSON{ID: r.ID}
	out.Dishes = dishesAt(plan, r.Parts)
	for _, tier := range r.Tiers {
		out.Tiers = append(out.Tiers, dishesAt(plan, tier))
	}
	first, last := time.Time{}, time.Time{}
	for _, step := range plan.Steps {
		if step.Run != r.ID || step.Kind != schedule.Steam {
			continue
		}
		if first.IsZero() || step.At.Before(first) {
			first = step.At
		}
		if step.End().After(last) {
			last = step.End()
		}
	}
	out.At, out.Minutes = instant(first), int(last.Sub(first).Minutes())
	return out
}

// dishesAt names the dishes that parts belong to, each once.
func dishesAt(plan meal.Plan, parts []meal.PartAt) []string {
	var names []string
	for _, at := range parts {
		if dish := plan.Dishes[at.Dish].Name(); !slices.Contains(names, dish) {
			names = append(names, dish)
		}
	}
	return names
}

// tookNames say for scripts where the serving time comes from.
var tookNames = map[meal.Took]string{meal.AsAsked: "asked", meal.FromThen: "start", meal.FromNow: "now", meal.AtSix: "18:00"}

func stepOf(plan meal.Plan, s meal.Step) stepJSON {
	out := stepJSON{ID: s.ID, Kind: string(s.Kind), At: instant(s.At), Minutes: int(s.Length.Minutes()), Do: stepWords(plan, s),
		Dish: strings.Join(s.Dishes, ", "), Dishes: each(s.Dishes, same), Crop: s.Crop, Run: s.Run, Hands: s.Hands, Ring: s.Ring, Tier: s.Tier,
		After: each(s.After, same)}
	if s.AtOnce != "" {
		out.After = append(out.After, s.AtOnce)
	}
	if kind := lane(s); kind != laneWait {
		out.Uses = kind
	}
	return out
}

func clockOf(c meal.Clock) clockJSON {
	return clockJSON{Dish: c.Dish, Food: c.History.Food, CookedAt: instant(c.History.CookedAt), ChilledAt: instant(c.History.ChilledAt),
		DressedAt: instant(c.DressedAt), ServeAt: instant(c.ServeAt), LimitAt: instant(c.LimitAt), Rule: c.Rule, Holds: c.Holds}
}

func warningOf(plan meal.Plan, w meal.Warning) warningJSON {
	return warningJSON{Severity: string(w.Severity), Dish: w.Dish, Rule: w.Rule, Says: warningWords(w, plan), Mend: mendWords(w, plan)}
}
