package ask

import (
	"context"

	"trencher/recipes/heat"
	"trencher/units"
	"trencher/units/strict"
)

// SteamQuestion asks how long pieces take in steam, and what goes with it. The
// texts are as typed; "" = not given.
type SteamQuestion struct {
	PlotRef
	Crop, Kind, Cut, Until string
	Start, Altitude        string
	Load                   string
	Heaped                 bool
	Sizes                  string   // a table by size: "15..60"
	Lots                   []string // sizes to cut for one time: "20-45 mm", "820 g 9 pieces"
	Tuber                  string   // what the cut is made from: "40 mm"
	Cool                   string   // "tray", "bowl" or "bowl 60 mm"
	Room                   string
	Found, At              string // a knife test: "9 min just-tender"
	Curve                  bool   // follow the temperatures, for a chart
}

// SteamAnswer is how long, and whatever else was asked; nil where it was not.
type SteamAnswer struct {
	Estimate *heat.Estimate
	Load     *heat.Load
	Plan     *heat.CutPlan
	Table    []heat.SizeRow
	Cooling  *heat.Cooling
	Curve    *heat.Curve
	Found    *KnifeTest

	Learned  heat.Learned
	Assumed  []string // what stands in for a kitchen
	Cautions []string
	Reasons  []units.Reason
	Warnings []string
}

// Steaming answers a steaming question. With Found it first writes the knife test
// to the plot's journal, and answers by it.
func Steaming(ctx context.Context, q SteamQuestion) (SteamAnswer, error) {
	return answerSteaming(ctx, q)
}

func answerSteaming(ctx context.Context, q SteamQuestion) (SteamAnswer, error) {
	s, err := readSteaming(ctx, q)
	if err != nil {
		return SteamAnswer{}, err
	}
	a := SteamAnswer{Assumed: s.assumed}
	if q.Found != "" {
		if a.Found, err = s.found(q); err != nil {
			return SteamAnswer{}, err
		}
	}
	var warnings []string
	s.conditions.Learned, warnings, err = s.learned(ctx)
	if err != nil {
		return SteamAnswer{}, err
	}
	a.Learned, a.Warnings = s.conditions.Learned, warnings
	for _, part := range []func(SteamQuestion, *SteamAnswer) error{s.estimate, s.table, s.cuts, s.cool, s.trace} {
		if err := part(q, &a); err != nil {
			return SteamAnswer{}, err
		}
	}
	a.Cautions = heat.Cautions(s.equipment)
	a.Reasons = s.reasons(a)
	return a, nil
}

// estimate answers how long; with a load also what it takes.
func (s *steamingPlace) estimate(q SteamQuestion, a *SteamAnswer) error {
	if s.cut.Shape == 0 {
		return nil
	}
	if q.Load == "" {
		e, err := s.estimateOf(s.sizes())
		a.Estimate = &e
		return err
	}
	piece := heat.Piece(s.cut, s.sizes().HighMM)
	load, err := heat.LoadPlan(s.crop, piece, s.until, s.loadGrams, s.equipment, s.conditions)
	if err != nil {
		return err
	}
	// The same load, reckoned over all sizes of the lots.
	s.conditions.LoadGrams, s.conditions.Heaped = load.GramsPerRound, load.Heaped
	if load.Estimate, err = s.estimateOf(s.sizes()); err != nil {
		return err
	}
	a.Load, a.Estimate = &load, &load.Estimate
	return nil
}

func (s *steamingPlace) estimateOf(sizes heat.Sizes) (heat.Estimate, error) {
	if sizes == (heat.Sizes{}) {
		return heat.Steam(s.crop, s.cut, s.until, s.conditions)
	}
	return heat.SteamLot(s.crop, s.cut, sizes, s.until, s.conditions)
}

// table answers by size.
func (s *steamingPlace) table(q SteamQuestion, a *SteamAnswer) (err error) {
	if q.Sizes == "" {
		return nil
	}
	a.Table, err = heat.BySize(s.crop, s.tableShape, s.tableSizes, s.conditions)
	return err
}

// cuts answers how to cut lots of several sizes.
func (s *steamingPlace) cuts(q SteamQuestion, a *SteamAnswer) error {
	if len(s.lots) == 0 {
		return nil
	}
	plan, err := heat.PlanCuts(s.crop, s.lots, heat.Wish{Cut: s.cut, Until: s.until}, s.conditions)
	a.Plan = &plan
	return err
}

// cool answers how long the pieces take to cool afterwards.
func (s *steamingPlace) cool(q SteamQuestion, a *SteamAnswer) error {
	if q.Cool == "" {
		return nil
	}
	spread, err := readSpread(q.Cool, s.loadGrams)
	if err != nil {
		return err
	}
	spread.FridgeC = s.fridgeC
	piece := heat.Piece(s.cut, s.sizes().HighMM)
	cooling, err := heat.Cool(s.crop, piece, spread, s.roomC)
	a.Cooling = &cooling
	return err
}

// trace follows the temperatures of the largest piece.
func (s *steamingPlace) trace(q SteamQuestion, a *SteamAnswer) error {
	if !q.Curve {
		return nil
	}
	if s.cut.Shape == 0 {
		return units.WrongField("chart", q.Cut, "a chart is of one cut", "a cut, such as cube 25 mm")
	}
	curve, err := heat.Trace(s.crop, heat.Piece(s.cut, s.sizes().HighMM), s.until, s.conditions)
	a.Curve = &curve
	return err
}

// sizes are the smallest and the largest tuber of the lots asked about.
func (s *steamingPlace) sizes() heat.Sizes {
	var all heat.Sizes
	for i, band := range s.bands {
		if i == 0 {
			all = band
			continue
		}
		all.LowMM, all.HighMM = min(all.LowMM, band.LowMM), max(all.HighMM, band.HighMM)
	}
	return all
}

// physicalFlag reads one figure of a dimension in a unit.
func physicalFlag(flag, text string, system units.System, unit units.Unit) (float64, error) {
	q, err := strict.QuantityField(flag, text, system, unit.Dimension())
	if err != nil {
		return 0, err
	}
	if q.IsRange() || !q.IsValid() || q.IsToTaste() {
		return 0, units.WrongField(flag, text, "not one figure", "one figure, such as 25 "+unit.Name())
	}
	return q.Float64(unit)
}
