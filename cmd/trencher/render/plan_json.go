package render

import (
	"io"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/keeping"
	"trencher/units"
)

type planJSON struct {
	Mode      string         `json:"mode"`
	On        string         `json:"on"`
	ServeAt   string         `json:"serve_at,omitempty"`
	Lots      []lotJSON      `json:"lots"`
	SetAside  []setAsideJSON `json:"set_aside"`
	Dishes    []dishJSON     `json:"dishes"`
	LeftOut   []leftOutJSON  `json:"left_out"`
	Left      []leftJSON     `json:"left"`
	Levels    *levelsJSON    `json:"levels,omitempty"`
	Bounds    []boundJSON    `json:"bounds"`
	Plates    []plateJSON    `json:"plates,omitempty"`
	Short     []boundJSON    `json:"short,omitempty"`
	Pick      []lineJSON     `json:"pick"`
	Buy       []lineJSON     `json:"buy"`
	Timetable []taskJSON     `json:"timetable"`
	Keep      []noteJSON     `json:"keep"`
	Taken     []string       `json:"taken,omitempty"`
	Warnings  []string       `json:"warnings"`
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
	Note    string  `json:"note,omitempty"`
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

type taskJSON struct {
	At      string  `json:"at"`
	Minutes float64 `json:"minutes"`
	Do      string  `json:"do"`
	Dish    string  `json:"dish"`
	Uses    string  `json:"uses,omitempty"`
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
func PlanJSON(w io.Writer, plan ask.Plan, why bool) error {
	out := planJSON{
		Mode: plan.Mode, On: plan.On.Format(time.DateOnly),
		Lots:     each(plan.Lots, lotOf),
		SetAside: each(plan.SetAside, func(s ask.SetAside) setAsideJSON { return setAsideJSON{s.Lot, s.Crop, s.Grams, s.Because} }),
		Dishes:   each(plan.Dishes, dishOf),
		LeftOut:  each(plan.LeftOut, func(l ask.LeftOut) leftOutJSON { return leftOutJSON(l) }),
		Left:     each(plan.Left, func(l ask.Left) leftJSON { return leftJSON{l.Lot, l.Grams} }),
		Bounds:   each(plan.Bounds, func(b ask.Bound) boundJSON { return boundJSON(b) }),
		Plates:   each(plan.Plates, func(p ask.Plate) plateJSON { return plateJSON(p) }),
		Short:    each(plan.Short, func(b ask.Bound) boundJSON { return boundJSON(b) }),
		Pick:     each(plan.Pick, lineOf), Buy: each(plan.Buy, lineOf),
		Timetable: each(plan.Timetable, taskOf),
		Keep:      each(plan.Keep, func(n keeping.Note) noteJSON { return noteJSON{n.Rule, noteWithDishes(n)} }),
		Taken:     plan.Taken, Warnings: each(plan.Warnings, same), Cautions: each(plan.Cautions, same),
	}
	if !plan.ServeAt.IsZero() {
		out.ServeAt = plan.ServeAt.Format(time.RFC3339)
	}
	if plan.Mode != "dish" {
		out.Levels = levelsOf(plan)
	}
	if why {
		out.Reasons = each(plan.Reasons, reasonOf)
	}
	return writeJSON(w, out)
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

func lotOf(l ask.Lot) lotJSON {
	out := lotJSON{ID: l.ID, Name: l.Name, Crop: l.Crop, Planting: l.Planting, Condition: l.Condition,
		Sizes: bandOf(l.LowMM, l.HighMM), Supply: l.Supply, First: l.First}
	if !l.KeepsUntil.IsZero() {
		out.KeepsUntil = l.KeepsUntil.Format(time.DateOnly)
	}
	return out
}

func dishOf(d ask.Dish) dishJSON {
	return dishJSON{
		Name: d.Name, Portions: d.Portions, Factor: d.Factor, Served: d.Served,
		Crops: each(d.Crops, cropOf), Others: each(d.Others, lineOf), Method: d.Method,
		Allergens: allergensJSON{each(d.Allergens.Contains, same), each(d.Allergens.May, same)},
		Notes:     d.Notes, Cautions: d.Cautions,
	}
}

func cropOf(c ask.CropPart) cropJSON {
	return cropJSON{
		Crop: c.Crop, Lifted: c.Lifted, Prepared: c.Prepared, Preparation: c.Preparation, Cooked: aboveZero(c.Cooked),
		From: each(c.From, func(t ask.Take) takeJSON { return takeJSON{t.Lot, t.Grams} }),
		Cut:  c.Cut, Cuts: each(c.Cuts, cutOf), CutNote: c.CutNote, Steam: steamOf(c.Steam),
	}
}

// aboveZero is the number's digits; "" for nothing.
func aboveZero(d decimal.Decimal) string {
	if !d.IsPositive() {
		return ""
	}
	return d.String()
}

func cutOf(c ask.CutPart) cutJSON {
	return cutJSON{Sizes: bandOf(c.LowMM, c.HighMM), How: c.How, Piece: tenth(c.PieceMM),
		Minutes: tenth(c.Minutes), Low: tenth(c.Low), High: tenth(c.High), Note: c.Note}
}

func steamOf(s *ask.Steam) *steamJSON {
	if s == nil {
		return nil
	}
	return &steamJSON{
		Minutes: tenth(s.Minutes), Low: tenth(s.Low), High: tenth(s.High), ComeUp: tenth(s.ComeUp),
		SteamC: tenth(s.SteamC), CentreC: tenth(s.CentreC), InRange: s.InRange, KnifeTests: s.Tests,
		Layers: s.Layers, Rounds: s.Rounds, GramsPerLayer: tenth(s.GramsPerLayer),
		WaterML: tenth(s.WaterML), GasG: tenth(s.GasG), ToBoil: tenth(s.ToBoil),
	}
}

func lineOf(l ask.Line) lineJSON {
	from := "shop"
	if l.FromPlot {
		from = "plot"
	}
	return lineJSON{
		Item: l.Item, State: l.State, Exact: l.Exact, Low: l.Low, High: l.High, Unit: l.Unit,
		Measured: l.Measured, ErrorPercent: tenth(l.ErrorPercent), Advice: l.Advice,
		Instead: l.Instead, Optional: l.Optional, From: from, Dishes: l.Dishes,
	}
}

func levelsOf(plan ask.Plan) *levelsJSON {
	out := &levelsJSON{UseFirst: plan.Levels.UseFirst, Balance: plan.Levels.Balance, Portions: plan.Levels.Portions}
	if plan.Mode == "table" {
		out.Fed = &plan.Levels.Fed
	}
	return out
}

func taskOf(t ask.Task) taskJSON {
	dish := t.Dish
	if len(t.For) > 0 {
		dish = strings.Join(t.For, ", ")
	}
	return taskJSON{At: t.At.Format(time.RFC3339), Minutes: tenth(t.Minutes), Do: t.Do, Dish: dish, Uses: t.Uses}
}
