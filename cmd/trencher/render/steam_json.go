package render

import (
	"cmp"
	"io"
	"math"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/heat"
)

// steamingJSON is the answer scripts rely on; what was not asked is left out.
type steamingJSON struct {
	*estimateJSON
	*loadJSON
	Cuts    *cutsJSON          `json:"cuts,omitempty"`
	BySize  []bySizeJSON       `json:"by_size,omitempty"`
	Cooling *coolingJSON       `json:"cooling,omitempty"`
	Found   *foundJSON         `json:"found,omitempty"`
	Learned *learnedJSON       `json:"learned,omitempty"`
	Whole   map[string]float64 `json:"largest_whole_mm,omitempty"`
	Assumed []string           `json:"assumed,omitempty"`
	Caution []string           `json:"cautions"`
	Why     []reasonJSON       `json:"why,omitempty"`
}

type estimateJSON struct {
	Crop  string `json:"crop"`
	Kind  string `json:"kind,omitempty"`
	Cut   string `json:"cut"`
	Until string `json:"until"`
	*fromFreeJSON
	FromLoading     float64  `json:"from_loading"`
	FromLoadingLow  float64  `json:"from_loading_low"`
	FromLoadingHigh float64  `json:"from_loading_high"`
	SteamC          float64  `json:"steam_c"`
	Surface         string   `json:"surface"`
	SurfaceRatio    float64  `json:"surface_over_soft"`
	Style           string   `json:"style"`
	Deep            int      `json:"layers_deep"`
	CentreC         float64  `json:"centre_c"`
	PerMM           float64  `json:"minutes_per_mm"`
	InRange         bool     `json:"in_range"`
	Outside         []string `json:"outside,omitempty"`
	Notes           []string `json:"notes,omitempty"`
	KnifeTests      int      `json:"knife_tests"`
}

// fromFreeJSON is left out where steam, or boiling water, is never free before the
// pieces are done.
type fromFreeJSON struct {
	Minutes float64 `json:"minutes"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	ComeUp  float64 `json:"come_up_minutes"`
}

type tierJSON struct {
	Tier            int     `json:"tier"`
	FromLoading     float64 `json:"from_loading"`
	FromLoadingLow  float64 `json:"from_loading_low"`
	FromLoadingHigh float64 `json:"from_loading_high"`
}

type loadJSON struct {
	Grams       float64    `json:"load_g"`
	Layers      int        `json:"layers"`
	Rounds      int        `json:"rounds"`
	PerLayer    float64    `json:"grams_per_layer"`
	PiecesLayer int        `json:"pieces_per_layer"`
	PerRound    float64    `json:"grams_per_round"`
	Heaped      bool       `json:"heaped"`
	WaterML     float64    `json:"water_ml"`
	GasG        float64    `json:"gas_g"`
	GasLongestG float64    `json:"gas_longest_g"`
	ToBoil      float64    `json:"to_boil_minutes"`
	Total       float64    `json:"total_minutes"`
	Tiers       []tierJSON `json:"tiers,omitempty"`
	SwapAt      float64    `json:"swap_at_minutes,omitempty"`
}

type cutsJSON struct {
	Minutes float64       `json:"minutes"`
	Low     float64       `json:"low"`
	High    float64       `json:"high"`
	ComeUp  float64       `json:"come_up_minutes"`
	PieceMM float64       `json:"piece_mm"`
	Even    bool          `json:"within_tenth"`
	Early   float64       `json:"early_percent"`
	Late    float64       `json:"late_percent"`
	Rules   []cutRuleJSON `json:"rules"`
	Close   []cutRuleJSON `json:"within_tenth_sizes"`
	Quick   []cutRuleJSON `json:"quick,omitempty"`
	Notes   []string      `json:"notes,omitempty"`
}

type cutRuleJSON struct {
	Cut      string  `json:"cut"`
	FromMM   float64 `json:"from_mm"`
	ToMM     float64 `json:"to_mm"`
	Shortest float64 `json:"shortest"`
	Longest  float64 `json:"longest"`
}

type bySizeJSON struct {
	SizeMM     float64     `json:"size_mm"`
	JustTender minutesJSON `json:"just_tender"`
	Tender     minutesJSON `json:"tender"`
	Soft       minutesJSON `json:"soft"`
	ComeUp     float64     `json:"come_up_minutes"`
	InRange    bool        `json:"in_range"`
}

type minutesJSON struct {
	Minutes float64 `json:"minutes"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
}

type coolingJSON struct {
	Deep           bool     `json:"deep"`
	DressC         float64  `json:"dress_c"`
	DressExpected  float64  `json:"dress_minutes"`
	DressLatest    float64  `json:"dress_latest_minutes"`
	FridgeC        float64  `json:"fridge_ready_c"`
	FridgeExpected float64  `json:"fridge_ready_minutes"`
	FridgeLatest   float64  `json:"fridge_ready_latest_minutes"`
	Chilled        float64  `json:"chilled_latest_minutes,omitempty"`
	In             string   `json:"in"`
	Then           string   `json:"then"`
	IceG           float64  `json:"ice_g,omitempty"`
	Notes          []string `json:"notes,omitempty"`
}

type foundJSON struct {
	Cut     string  `json:"cut"`
	Until   string  `json:"until"`
	Said    string  `json:"said"`
	Minutes float64 `json:"minutes"`
	File    string  `json:"file"`
}

type learnedJSON struct {
	Factor   float64 `json:"factor"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	Offset   float64 `json:"offset_minutes"`
	Doneness float64 `json:"doneness"`
	Tests    int     `json:"tests"`
	Assumed  int     `json:"tests_assumed"`
}

// SteamJSON writes a steaming answer for scripts; with why, the source of each
// figure.
func SteamJSON(w io.Writer, a ask.SteamAnswer, why bool) error {
	out := steamingJSON{Assumed: a.Assumed, Caution: a.Cautions}
	if why {
		for _, r := range a.Reasons() {
			out.Why = append(out.Why, reasonOf(r))
		}
	}
	if a.Estimate != nil {
		out.estimateJSON = estimateOf(*a.Estimate)
	}
	if a.Load != nil {
		out.loadJSON = loadOf(*a.Load)
	}
	if a.Plan != nil {
		out.Cuts = cutsOf(*a.Plan)
	}
	for _, row := range a.Table {
		out.BySize = append(out.BySize, bySizeJSON{row.SizeMM, minutesOf(row.By[0]), minutesOf(row.By[1]), minutesOf(row.By[2]), tenth(row.By[0].ComeUp), row.By[0].InRange()})
	}
	if c := a.Cooling; c != nil {
		out.Cooling = &coolingJSON{c.Deep, c.DressC, tenth(c.DressExpected), tenth(c.DressLatest), c.FridgeC, tenth(c.FridgeExpected), tenth(c.FridgeLatest), tenth(c.ChilledLatest), c.In.String(), c.Then.String(), math.Ceil(c.IceG), c.Notes}
	}
	if f := a.Found; f != nil {
		out.Found = &foundJSON{f.Entry.Cut, f.Entry.Until, cmp.Or(f.Entry.Said, heat.JustRight.String()), f.Entry.Minutes, f.File}
	}
	for _, size := range a.Whole {
		if out.Whole == nil {
			out.Whole = map[string]float64{}
		}
		out.Whole[size.Doneness.String()] = size.LargestMM
	}
	if l := a.Learned; l.Tests > 0 {
		out.Learned = &learnedJSON{hundredth(l.Factor), hundredth(l.Low), hundredth(l.High), hundredth(l.Offset), hundredth(l.Doneness), l.Tests, l.Assumed}
	}
	return writeJSON(w, out)
}

func hundredth(x float64) float64 { return math.Round(x*100) / 100 }

// knifeNote stands with every time that scripts read.
const knifeNote = "test with a knife"

func estimateOf(e heat.Estimate) *estimateJSON {
	var free *fromFreeJSON
	if e.FreeFirst {
		free = &fromFreeJSON{Minutes: tenth(e.Minutes), Low: tenth(e.Low), High: tenth(e.High), ComeUp: tenth(e.ComeUp)}
	}
	return &estimateJSON{
		Crop: e.Crop.Name, Kind: e.Crop.Kind, Cut: e.Cut.String(), Until: e.Doneness.String(), fromFreeJSON: free,
		FromLoading: tenth(e.FromLoading), FromLoadingLow: tenth(e.FromLoadingLow), FromLoadingHigh: tenth(e.FromLoadingHigh),
		Surface: e.Outer.Says.String(), SurfaceRatio: hundredth(e.Outer.Ratio), Style: e.Doneness.String(), Deep: e.LayersDeep,
		SteamC: tenth(e.SteamC), CentreC: tenth(e.CentreC), PerMM: hundredth(e.PerMM),
		InRange: e.InRange(), Outside: e.Outside, Notes: append([]string{knifeNote}, e.Notes...), KnifeTests: e.KnifeTests,
	}
}

func loadOf(l heat.Load) *loadJSON {
	var tiers []tierJSON
	swap := 0.0
	if l.Series != nil {
		for i, e := range l.Series.Estimates {
			tiers = append(tiers, tierJSON{i + 1, tenth(e.FromLoading), tenth(e.FromLoadingLow), tenth(e.FromLoadingHigh)})
		}
		swap = tenth(l.Series.SwapAt)
	}
	return &loadJSON{Tiers: tiers, SwapAt: swap,
		Grams: tenth(l.Grams), Layers: l.Layers, Rounds: l.Rounds, PerLayer: tenth(l.GramsPerLayer),
		PiecesLayer: l.PiecesPerLayer, PerRound: tenth(l.GramsPerRound), Heaped: l.Heaped,
		WaterML: math.Round(l.WaterML), GasG: tenth(l.GasG), GasLongestG: tenth(l.GasLongestG),
		ToBoil: tenth(l.ToBoil), Total: tenth(l.TotalMinutes),
	}
}

func cutsOf(p heat.CutPlan) *cutsJSON {
	return &cutsJSON{tenth(p.Minutes), tenth(p.Low), tenth(p.High), tenth(p.ComeUp), tenth(p.PieceMM), p.Even,
		tenth(p.Early), tenth(p.Late), rulesOf(p.Rules), rulesOf(p.Close), rulesOf(p.Quick), p.Notes}
}

func rulesOf(rules []heat.CutRule) []cutRuleJSON {
	out := make([]cutRuleJSON, len(rules))
	for i, r := range rules {
		out[i] = cutRuleJSON{r.Cut.String(), tenth(r.FromMM), tenth(r.ToMM), tenth(r.Shortest), tenth(r.Longest)}
	}
	return out
}

func minutesOf(e heat.Estimate) minutesJSON {
	minutes, low, high := e.Clock()
	return minutesJSON{tenth(minutes), tenth(low), tenth(high)}
}
