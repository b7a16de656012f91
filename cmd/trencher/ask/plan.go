package ask

import (
	"time"

	"trencher/units"

	"github.com/shopspring/decimal"
)

// Plan is the answer of share, table and dish: what of the lift becomes which
// dishes, how each is made, when, and what is left. Everything a reader is to
// see stands in it as data; the faces in package render only lay it out.
type Plan struct {
	Mode    string    // "share", "table" or "dish"
	Plot    string    // the plot folder as given, or "the demo plot"
	On      time.Time // the day asked for, local midnight
	ServeAt time.Time // the serving time; zero when none is wanted

	Lots     []Lot      // what may go to the kitchen
	SetAside []SetAside // what may not, and why

	Dishes  []Dish    // the dishes that are made, in dish order
	LeftOut []LeftOut // the dishes that are not, each with its reason
	Left    []Left    // what is left of each lot

	Levels Levels  // how good the answer is, level by level
	Bounds []Bound // what held it back
	Plates []Plate // table: what each guest gets
	Short  []Bound // table: who is short, of what, and what would mend it

	Pick []Line // from the plot, summed over the dishes
	Buy  []Line // from the shop, summed over the dishes

	Timetable    []Task
	AllowMinutes float64        // from the first task to serving
	Keep         []Note         // storage rules these dishes and times trigger
	Taken        []string       // the journal entries --take wrote
	Warnings     []string       // what needs attention before starting
	Cautions     []string       // the standing cautions: steam, gas, allergens
	Reasons      []units.Reason // each figure's source, shown by --why
}

// Lot is one lot of the stock that may go to the kitchen. Grams are as lifted,
// after the trim of damaged lots.
type Lot struct {
	ID, Name                string // never-changing, and the shortest that tells it apart
	Crop, Variety, Planting string
	LowMM, HighMM           int // riddle sizes; both 0 when not graded
	Condition               string
	Supply                  decimal.Decimal // grams the kitchen can use
	Taken                   decimal.Decimal // grams the dishes take
	First                   bool            // to be used today
	KeepsUntil              time.Time       // raw keeping date; zero when unknown
}

// SetAside is a lot that never goes to the kitchen.
type SetAside struct {
	Lot, Name, Crop string // the lot's ID and its short name
	Grams           decimal.Decimal
	Because         string
}

// Dish is one dish of the plan, scaled to its portions.
type Dish struct {
	Name      string
	Portions  int
	Factor    decimal.Decimal // portions over the dish file's portions
	Served    string          // "hot", "warm" or "cold"
	Crops     []CropPart
	Others    []Line
	Method    []string
	Allergens Allergens
	Notes     []string // tasting notes from earlier times
	Cautions  []string // about this scaling, e.g. pan sizes
}

// CropPart is one weighed crop of a dish.
type CropPart struct {
	Crop        string
	Lifted      decimal.Decimal // grams as lifted
	Prepared    decimal.Decimal // grams after preparation, shown to 0.1 g
	Preparation string          // "scrubbed", "peeled", ...
	Cooked      decimal.Decimal // grams once steamed, roughly, to the gram; zero when not known
	From        []Take
	Cut         string // as the dish file says
	Until       string // "just-tender", "tender", "soft"; "" when raw
	Raw         bool
	Cuts        []CutPart // how to cut each size so that all cook together
	CutNote     string    // how even that is, and what would be more even
	Steam       *Steam    // nil when the crop is not steamed
}

// Take is what a dish takes of one lot, grams as lifted.
type Take struct {
	Lot, Name string // the lot's ID and its short name
	Grams     decimal.Decimal
}

// CutPart says how one size class of a lot is cut.
type CutPart struct {
	LowMM, HighMM int    // tuber sizes; both 0 when not graded
	How           string // "leave whole", "halve", "cube 25 mm", ...
	Shape         string // "whole", "halves", "quarters", "eighths", "cube", "slice", "baton"
	PieceMM       float64
	Minutes       float64 // for its largest piece alone, from full steam
	Low, High     float64
	Note          string // where this class misses the common time
}

// Steam is the steaming of one crop part in the kitchen's steamer.
type Steam struct {
	Minutes, Low, High float64 // from full steam
	ComeUp             float64 // minutes from loading to full steam
	SteamC, CentreC    float64
	EdgeMM             float64 // of the cube that takes as long
	InRange            bool
	Tests              int // knife tests this kitchen's figure rests on
	Layers, Rounds     int
	GramsPerLayer      float64
	AtOnce             float64        // grams in the steamer at once
	WaterML            float64        // at the start, for all rounds
	GasG               float64        // for all rounds
	ToBoil             float64        // minutes
	Round              int            // number of the round it shares with other dishes; 0 = its own
	With               []string       // what shares the steamer with it
	Reasons            []units.Reason // what the times rest on
	Notes              []string
}

// Line is one thing to measure out, pick or buy.
type Line struct {
	Item, State  string
	Exact        string // decimal digits of the exact amount; "" when to taste
	Low, High    string // instead of Exact for a range
	Unit         string // UCUM code or kitchen name
	Measured     string // in measures a kitchen has: "2 tbsp + ½ tsp"
	ErrorPercent float64
	ShowExact    bool     // rounding moved it by more than 2 %
	Flag         bool     // rounding moved it by more than 10 %
	Advice       string   // "start low, taste"; "or 51 g beaten egg"
	Instead      []string // alternatives, measured: "1 shallot"
	Optional     bool
	FromPlot     bool
	Dishes       []string // the dishes it is for (pick and buy)
}

// LeftOut is a dish that is not made.
type LeftOut struct{ Dish, Because string }

// Left is what remains of a lot, grams as its supply.
type Left struct {
	Lot, Name, Crop string // the lot's ID and its short name
	Grams           decimal.Decimal
	Advice          string // what to do with it
}

// Levels are the values of the optimum's levels.
type Levels struct {
	Fed      int             // helpings served; table only
	UseFirst decimal.Decimal // grams
	Balance  string          // a decimal or a fraction such as "7/2"
	Portions int
	Effort   string // the search's effort in words, shown by --why
}

// Bound says what held the answer back: What names the thing ("potato",
// "butter", a guest), Says is the sentence.
type Bound struct{ What, Says string }

// Plate is what the guests of one kind get.
type Plate struct {
	Guest  string // "adult", "child", with the diet: "adult, no milk"
	Number int    // how many guests have this same plate
	Dishes []string
	Child  bool
	Short  int // helpings fewer than the sides asked for
}

// Task is one line of the timetable.
type Task struct {
	At      time.Time
	Minutes float64
	Do      string
	Dish    string
	For     []string // the dishes, where several share it
	Uses    string   // "steamer", "cook" or "" for waiting (cooling, chilling)
}

// Allergens lists what a dish contains and what it may contain, by the names
// of Regulation (EU) No 1169/2011 Annex II in kitchen words.
type Allergens struct{ Contains, May []string }

// Note is one storage rule a plan triggers.
type Note struct{ Rule, Says string }
