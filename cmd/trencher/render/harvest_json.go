package render

import (
	"io"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/units"
)

type weighingJSON struct {
	Gross string `json:"gross"`
	Tare  string `json:"tare,omitempty"`
}

type gradeJSON struct {
	Sizes     string `json:"sizes,omitempty"`
	SizesMM   []int  `json:"sizes_mm,omitempty"`
	Weight    string `json:"weight"`
	Count     int    `json:"count,omitempty"`
	Condition string `json:"condition"`
}

type liftJSON struct {
	Kind      string         `json:"kind"`
	Planting  string         `json:"planting"`
	At        string         `json:"at"`
	Replaces  string         `json:"replaces,omitempty"`
	Weighings []weighingJSON `json:"weighings"`
	Grades    []gradeJSON    `json:"grades,omitempty"`
	Mothers   string         `json:"mothers,omitempty"`
	Soil      string         `json:"soil,omitempty"`
	Left      string         `json:"left,omitempty"`
	Where     string         `json:"where,omitempty"`
	Says      string         `json:"says,omitempty"`
	NetG      string         `json:"net_g"`
	File      string         `json:"file"`
	Lots      []stockLotJSON `json:"lots"`
}

// LiftJSON writes the lift as it was written, with its net weight and file.
func LiftJSON(w io.Writer, a harvest.LoggedLift) error {
	l := a.Lift
	out := liftJSON{Kind: l.Kind(), Planting: l.Planting, At: l.At.Format(time.RFC3339), Replaces: l.Replaces,
		Mothers: l.Mothers.String(), Soil: l.Soil.String(), Left: l.Left, Where: l.Where, Says: l.Says,
		NetG: l.Net().String(), File: l.File}
	for _, b := range l.Weighings {
		out.Weighings = append(out.Weighings, weighingJSON{b.Gross.String(), b.Tare.String()})
	}
	for _, g := range l.Grades {
		out.Grades = append(out.Grades, gradeJSON{g.Sizes.String(), bandJSON(g.Sizes), g.Weight.String(), g.Count, string(g.Condition)})
	}
	for _, lot := range a.Lots {
		out.Lots = append(out.Lots, stockLotOf(lot, lot.Lifted))
	}
	return writeJSON(w, out)
}

type stockLotJSON struct {
	ID         string         `json:"id"`
	Name       string         `json:"name,omitempty"`
	Crop       string         `json:"crop"`
	Variety    string         `json:"variety,omitempty"`
	Planting   string         `json:"planting"`
	Texture    string         `json:"texture,omitempty"`
	SizesMM    []int          `json:"sizes_mm"`
	Condition  string         `json:"condition"`
	LiftedG    string         `json:"lifted_g"`
	OnHandG    string         `json:"on_hand_g"`
	StoredG    string         `json:"stored_g"`
	SupplyG    string         `json:"supply_g"`
	Count      int            `json:"count,omitempty"`
	Lifted     string         `json:"lifted"`
	KeepsUntil *string        `json:"keeps_until"`
	First      bool           `json:"first"`
	Past       bool           `json:"past_keeping,omitempty"` // twice past its life: set aside
	Where      string         `json:"where"`
	Air        string         `json:"air,omitempty"`
	Expected   []expectedJSON `json:"expected,omitempty"`    // in store, if nobody takes from it
	LastsUntil string         `json:"lasts_until,omitempty"` // the crop, at the household's own pace
	Pace       float64        `json:"pace_g_per_day,omitempty"`
	Source     string         `json:"keeps_source,omitempty"` // who says how long it keeps
	KnownBy    string         `json:"keeps_known_by,omitempty"`
}

// expectedJSON is what is likely left of a lot on a day, in grams.
type expectedJSON struct {
	On   string `json:"on"`
	G    string `json:"g"`
	Low  string `json:"low_g"`
	High string `json:"high_g"`
}

func stockLotOf(l *harvest.Lot, on time.Time) stockLotJSON {
	out := stockLotJSON{ID: l.ID, Name: l.Name, Crop: l.Crop, Variety: l.Variety, Planting: l.Planting.ID, Texture: l.Texture,
		SizesMM: bandJSON(l.Sizes), Condition: string(l.Condition), LiftedG: l.Gave.String(), OnHandG: l.Weight.String(),
		StoredG: l.Went.Stored.String(), SupplyG: l.Supply.String(), Count: l.Count, Lifted: l.Lifted.Format(time.RFC3339),
		First: l.First, Past: l.Past, Where: l.Lies().Where, Air: l.Lies().Air.String()}
	for _, e := range l.Expect(on) {
		out.Expected = append(out.Expected, expectedJSON{e.On.Format(time.DateOnly), e.Grams.String(), e.Low.String(), e.High.String()})
	}
	if !l.KeepsUntil.IsZero() {
		day := l.KeepsUntil.Format(time.DateOnly)
		out.KeepsUntil = &day
	}
	if l.Keeping != nil {
		out.Source, out.KnownBy = l.Keeping.Source, l.Keeping.KnownBy
	}
	return out
}

// bandJSON is null for an ungraded lot.
func bandJSON(b units.Band) []int {
	if !b.IsGraded() {
		return nil
	}
	return []int{b.Low, b.High}
}

// StockJSON writes the lots on hand, what to use first on top.
func StockJSON(w io.Writer, a harvest.StockList) error {
	return writeJSONList(w, func(yield func(stockLotJSON) bool) {
		for _, l := range a.Lots {
			out := stockLotOf(l, a.On)
			for _, c := range a.Lasting {
				if c.Crop == l.Crop {
					out.LastsUntil, out.Pace = c.Until.Format(time.DateOnly), tenth(c.Pace)
				}
			}
			if !yield(out) {
				return
			}
		}
	})
}

type readyJSON struct {
	Planting string   `json:"planting"`
	Crop     string   `json:"crop"`
	Class    string   `json:"class"`
	Planted  string   `json:"planted"`
	Weeks    float64  `json:"weeks"`
	From     string   `json:"from"`
	To       string   `json:"to"`
	FromWeek float64  `json:"from_week"`
	ToWeek   float64  `json:"to_week"`
	Months   string   `json:"months"`
	State    string   `json:"state"`
	Verb     string   `json:"verb"`
	Frosted  bool     `json:"frosted,omitempty"`      // over because frost ended it
	OutOf    bool     `json:"out_of_dates,omitempty"` // begun outside the dates meant
	Check    []string `json:"check"`
	Left     string   `json:"left"`
	Felt     string   `json:"felt,omitempty"`
	Source   string   `json:"source"`
	KnownBy  string   `json:"known_by"`
}

// ReadyJSON writes how every planting stands.
func ReadyJSON(w io.Writer, a harvest.ReadyList) error {
	list := []readyJSON{}
	for _, r := range a.List {
		list = append(list, readyJSON{Planting: r.Planting.ID, Crop: r.Planting.Crop, Class: r.Planting.Class,
			Planted: r.Planting.Planted.Format(time.DateOnly), Weeks: r.Weeks, From: r.From.Format(time.DateOnly),
			To: r.To.Format(time.DateOnly), FromWeek: r.WeeksFrom, ToWeek: r.WeeksTo, Months: r.Window.UsualMonths(), State: string(r.State), Verb: string(r.Crop.Verb), Frosted: r.Frosted, OutOf: r.OutOfTime, Check: r.Check,
			Left: r.Crop.Left.Says, Felt: r.Felt, Source: r.Window.Source, KnownBy: r.Window.KnownBy})
	}
	return writeJSON(w, list)
}

type wentJSON struct {
	Kitchen string `json:"kitchen_g"`
	Stored  string `json:"stored_g"`
	Given   string `json:"given_g"`
	Compost string `json:"compost_g"`
	Dried   string `json:"dried_g"` // away in store, by later weighings
	OnHand  string `json:"on_hand_g"`
}

type apartJSON struct {
	Mothers string `json:"mothers_g"`
	Soil    string `json:"soil_g"`
}

type spentJSON struct {
	Litres  string `json:"litres"`
	GoodFor string `json:"good_for"`
}

type yieldJSON struct {
	Season     int               `json:"season"`
	Planting   string            `json:"planting"`
	Crop       string            `json:"crop"`
	Variety    string            `json:"variety,omitempty"`
	Class      string            `json:"class,omitempty"`
	Feed       string            `json:"feed,omitempty"`
	Mulch      string            `json:"mulch,omitempty"`
	Notes      string            `json:"notes,omitempty"`
	Lifts      int               `json:"lifts"`
	NetG       string            `json:"net_g"`
	ToEatG     string            `json:"to_eat_g"`
	GreenG     string            `json:"green_g"`
	RottenG    string            `json:"rotten_g"`
	Apart      apartJSON         `json:"apart"`
	PerSeed    string            `json:"per_seed_g,omitempty"`
	PerLitre   string            `json:"per_litre_g,omitempty"`
	PerM2      string            `json:"per_m2_g,omitempty"`
	Multiplied string            `json:"multiplied,omitempty"`
	Graded     map[string]string `json:"graded"` // sizes and condition -> grams
	Went       wentJSON          `json:"went"`
	Waste      string            `json:"waste_g"` // composted or dried away
	Dishes     []intoDishJSON    `json:"dishes,omitempty"`
	Spent      *spentJSON        `json:"spent_compost,omitempty"`
	Usual      *usualJSON        `json:"usual,omitempty"`
}

// usualJSON is what the crop usually gives, grams a litre or a square metre.
type usualJSON struct {
	Per     string `json:"per"`
	Low     int    `json:"low_g"`
	High    int    `json:"high_g"`
	Source  string `json:"source"`
	KnownBy string `json:"known_by"`
}

// TallyJSON writes one object for each planting and season.
func TallyJSON(w io.Writer, a harvest.Tally) error {
	list := []yieldJSON{}
	for _, season := range a.Seasons {
		for _, y := range season.Rows {
			list = append(list, yieldOf(season, y))
		}
	}
	return writeJSON(w, list)
}

// intoDishJSON is what of a planting went into a dish, and the portions of that
// dish eaten in the season.
type intoDishJSON struct {
	Dish     string  `json:"dish"`
	G        string  `json:"g"`
	Portions float64 `json:"portions_eaten"`
}

func portionsOf(season harvest.Season, dish string) float64 {
	for _, d := range season.Dishes {
		if d.Dish == dish {
			return d.Eaten
		}
	}
	return 0
}

func yieldOf(season harvest.Season, y harvest.Yield) yieldJSON {
	out := yieldJSON{Season: season.Year, Planting: y.Planting.ID, Crop: y.Planting.Crop, Variety: y.Planting.Variety,
		Class: y.Planting.Class, Feed: y.Planting.Feed, Mulch: y.Planting.Mulch, Notes: y.Planting.Notes, Lifts: y.Lifts, NetG: y.Net.String(), ToEatG: y.ToEat.String(), GreenG: y.Green.String(),
		RottenG: y.Rotten.String(), Apart: apartJSON{y.Mothers.String(), y.Soil.String()},
		PerSeed: known(y.PerSeed), PerLitre: known(y.PerLitre), PerM2: known(y.PerM2), Multiplied: known(y.Multiplied),
		Graded: map[string]string{},
		Went: wentJSON{y.Went.Kitchen.String(), y.Went.Stored.String(), y.Went.Given.String(),
			y.Went.Compost.String(), y.Went.Dried.String(), y.Went.OnHand.String()}}
	for _, g := range y.Graded {
		out.Graded[g.Name()] = g.Grams.String()
	}
	out.Waste = y.Waste().String()
	for _, d := range y.Dishes {
		out.Dishes = append(out.Dishes, intoDishJSON{d.Dish, d.Grams.String(), portionsOf(season, d.Dish)})
	}
	if u := y.Usual; u.Per != "" {
		out.Usual = &usualJSON{u.Per, u.Grams.Low, u.Grams.High, u.Source, u.KnownBy}
	}
	if y.SpentLitres.Sign() > 0 {
		out.Spent = &spentJSON{y.SpentLitres.String(), y.SpentFor}
	}
	return out
}

func known(d decimal.NullDecimal) string {
	if !d.Valid {
		return ""
	}
	return d.Decimal.String()
}

type moveJSON struct {
	Kind    string `json:"kind"`
	Lot     string `json:"lot"`
	At      string `json:"at"`
	Weight  string `json:"weight"`
	Grams   string `json:"g"`
	Dish    string `json:"dish,omitempty"`
	Whom    string `json:"whom,omitempty"`
	Where   string `json:"where,omitempty"`
	Because string `json:"because,omitempty"`
	LeftG   string `json:"left_g"`
	File    string `json:"file"`
}

// MoveJSON writes what left a lot, as it was written.
func MoveJSON(w io.Writer, a harvest.LoggedMove) error {
	m := a.Move
	return writeJSON(w, moveJSON{m.Kind(), m.Lot, m.At.Format(time.RFC3339), m.Weight.String(), a.Grams.String(),
		m.Dish, m.Whom, m.Where, m.Reason, a.Left.String(), a.File})
}

type tastingJSON struct {
	Kind string `json:"kind"`
	Dish string `json:"dish"`
	At   string `json:"at"`
	Says string `json:"says"`
	File string `json:"file"`
}

// NoteJSON writes a tasting note, as it was written.
func NoteJSON(w io.Writer, n *harvest.Note) error {
	return writeJSON(w, tastingJSON{n.Kind(), n.Dish, n.At.Format(time.RFC3339), n.Says, n.File})
}
