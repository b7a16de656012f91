package ask

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
	"trencher/units/strict"
)

// steamingPlace is a steaming question read: the kitchen it is asked in and
// every text as a value.
type steamingPlace struct {
	where      PlotRef
	folder     *journal.Folder // nil without a plot
	system     units.System
	equipment  heat.Equipment
	conditions heat.Conditions
	roomC      float64
	fridgeC    float64
	assumed    []string

	crop       heat.Crop
	cut        heat.Cut
	until      heat.Doneness
	loadGrams  float64 // 0 = none given
	lots       []heat.SizeClass
	bands      []heat.Sizes
	tableShape heat.Shape
	tableSizes []float64
}

// readSteaming opens the kitchen and reads the question's texts.
func readSteaming(_ context.Context, q SteamQuestion) (*steamingPlace, error) {
	s := &steamingPlace{where: q.PlotRef, system: units.Metric}
	for _, read := range []func(SteamQuestion) error{s.readKitchen, s.readCrop, s.readSizes, s.readCut, s.readConditions, s.readLots} {
		if err := read(q); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// readKitchen takes the steamer, the stove and the altitude from the plot; with
// no plot named and none here, the defaults stand in.
func (s *steamingPlace) readKitchen(q SteamQuestion) error {
	s.roomC = 20
	folder, kitchen, err := openKitchen(q.PlotRef)
	if err != nil {
		return err
	}
	if folder == nil {
		s.assumed = append(s.assumed, "no kitchen: a 240 mm steamer of two tiers, 700 W into steam, sea level, a room at 20 °C")
		return nil
	}
	s.folder, s.system = folder, kitchen.Measures
	s.equipment, s.roomC, s.fridgeC = equipmentOf(kitchen), kitchen.RoomC, kitchen.FridgeC
	s.conditions, err = conditionsOf(kitchen)
	for _, text := range kitchen.Assumed {
		s.assumed = append(s.assumed, "assumed: "+text)
	}
	return err
}

// equipmentOf is a kitchen's steamer and stove as steaming knows them.
func equipmentOf(k recipes.Kitchen) heat.Equipment {
	fuel := k.Stove.Gas
	if fuel == "" {
		fuel = "electric"
	}
	return heat.Equipment{
		DiameterMM: k.Steamer.DiameterMM, Tiers: k.Steamer.Tiers,
		PowerW: k.Stove.PowerW, Fuel: fuel, Efficiency: k.Stove.Efficiency, Windy: k.Stove.Windy,
	}
}

// conditionsOf is what a kitchen sets for every steaming: where it lies and the
// steam its stove makes.
func conditionsOf(k recipes.Kitchen) (heat.Conditions, error) {
	net, err := equipmentOf(k).NetPowerW()
	if err != nil {
		return heat.Conditions{}, fmt.Errorf("%s: %w", k.File, err)
	}
	return heat.Conditions{AltitudeM: k.AltitudeM, NetPowerW: net}, nil
}

func (s *steamingPlace) readCrop(q SteamQuestion) (err error) {
	if s.crop, err = heat.LookupCrop(q.Crop, q.Kind); err != nil {
		return err
	}
	if q.Until != "" {
		if s.until, err = heat.ParseDoneness(q.Until); err != nil {
			return units.InField("until", q.Until, err)
		}
		return nil
	}
	s.until = heat.JustTender
	return nil
}

// readSizes reads "15..60", in mm, by fives or by the step behind a colon.
func (s *steamingPlace) readSizes(q SteamQuestion) error {
	if q.Sizes == "" {
		return nil
	}
	wrong := func(problem string) error {
		return units.WrongField("sizes", q.Sizes, problem, "a span in mm, such as 15..60 or 20..40:2")
	}
	span, pace, stepped := strings.Cut(strings.TrimSpace(strings.TrimSuffix(q.Sizes, "mm")), ":")
	step := 5.0
	if stepped {
		var err error
		if step, err = strconv.ParseFloat(strings.TrimSpace(pace), 64); err != nil || !(step >= 0.5) {
			return wrong("the step is no number of at least half a mm")
		}
	}
	from, to, found := strings.Cut(span, "..")
	low, err := strconv.ParseFloat(strings.TrimSpace(from), 64)
	high, err2 := strconv.ParseFloat(strings.TrimSpace(to), 64)
	if !found || err != nil || err2 != nil || !(low <= high) {
		return wrong("not a span of sizes")
	}
	if !(low >= 2 && high <= 200) {
		return wrong("no sizes for a piece or a tuber")
	}
	s.tableSizes = heat.Steps(low, high, step)
	return nil
}

// readCut reads the cut; with a table of sizes its bare word will do. Pods and
// seeds that come in their own pieces need none.
func (s *steamingPlace) readCut(q SteamQuestion) (err error) {
	s.tableShape = heat.Cube
	if len(s.tableSizes) > 0 {
		if shape, err := heat.ParseShape(q.Cut); err == nil {
			s.tableShape = shape
			return nil
		}
	}
	switch {
	case q.Cut != "":
		if s.cut, err = heat.ParseCut(q.Cut); err != nil {
			return err
		}
		s.tableShape = s.cut.Shape
	case s.crop.Ready && len(s.tableSizes) == 0 && len(q.Lots) == 0:
		s.cut = heat.Cut{Shape: heat.Whole}
	case len(s.tableSizes) == 0 && len(q.Lots) == 0:
		return units.WrongField("cut", "", "no cut given", heat.CutForms)
	}
	if s.crop.Ready && s.cut.Shape == heat.Whole && !s.cut.Sized() && len(q.Lots) == 0 {
		s.cut.SizeMM = s.crop.WidthMM
		s.assumed = append(s.assumed, fmt.Sprintf("size not given: the usual %g mm across", s.crop.WidthMM))
	}
	return s.readTuber(q)
}

// readTuber checks the cut against the tuber it is made from, known by how thick
// it is or by its weight.
func (s *steamingPlace) readTuber(q SteamQuestion) error {
	if q.Tuber == "" {
		return nil
	}
	tuber, err := strict.QuantityField("tuber", q.Tuber, s.system, units.Length, units.Mass)
	if err != nil {
		return err
	}
	if tuber.IsRange() || !tuber.IsValid() {
		return units.WrongField("tuber", q.Tuber, "not one tuber", "how thick it is, or its weight: 45 mm, 120 g")
	}
	mm, err := s.thickness(tuber)
	if err != nil {
		return err
	}
	if err := s.cut.CheckTuber(mm); err != nil {
		return err
	}
	s.cut = heat.Piece(s.cut, mm)
	return nil
}

// thickness is a tuber's, in mm; of one known by weight, what its crop's usual
// length makes of it.
func (s *steamingPlace) thickness(tuber units.Quantity) (float64, error) {
	if tuber.Dimension() == units.Length {
		return tuber.Float64(units.Millimetre)
	}
	grams, err := tuber.Float64(units.Gram)
	if err != nil {
		return 0, err
	}
	mm := math.Round(heat.MeanDiameterMM(s.crop, grams))
	s.assumed = append(s.assumed, fmt.Sprintf("a %s of %g g is about %g mm thick", s.crop.Name, grams, mm))
	return mm, nil
}

func (s *steamingPlace) readConditions(q SteamQuestion) error {
	for _, one := range []struct {
		flag, text string
		unit       units.Unit
		set        func(float64)
	}{
		{"start", q.Start, units.Celsius, func(x float64) { s.conditions.StartC = &x }},
		{"altitude", q.Altitude, units.Metre, func(x float64) { s.conditions.AltitudeM = x }},
		{"load", q.Load, units.Gram, func(x float64) { s.loadGrams = x }},
		{"room", q.Room, units.Celsius, func(x float64) { s.roomC = x }},
	} {
		if one.text == "" {
			continue
		}
		x, err := physicalFlag(one.flag, one.text, s.system, one.unit)
		if err != nil {
			return err
		}
		one.set(x)
	}
	s.conditions.Heaped = q.Heaped
	return nil
}

// readLots reads each lot's sizes: a riddle band, or a weight and a count.
func (s *steamingPlace) readLots(q SteamQuestion) error {
	for _, text := range q.Lots {
		class, err := s.readLot(text)
		if err != nil {
			return err
		}
		s.lots = append(s.lots, class)
	}
	if len(s.lots) == 0 {
		return nil
	}
	bands, err := heat.Bands(s.crop, s.lots)
	s.bands = bands
	return err
}

// readLot reads "20-45 mm", "20-45 mm 820 g", "820 g 9 pieces" or "820 g 9".
func (s *steamingPlace) readLot(text string) (class heat.SizeClass, err error) {
	accepted := "\"20-45 mm\", or a weight and a count: \"820 g 9 pieces\""
	words := strings.Fields(text)
	if last := len(words) - 1; last > 0 && len(words)%2 == 1 {
		if _, err := strconv.Atoi(words[last]); err == nil {
			words = append(words, "pieces")
		}
	}
	if len(words) == 0 || len(words)%2 != 0 {
		return class, units.WrongField("lot", text, "not sizes, nor a weight and a count", accepted)
	}
	for i := 0; i < len(words); i += 2 {
		q, err := units.Parse(words[i]+" "+words[i+1], s.system)
		if err != nil {
			return class, units.WrongField("lot", text, err.Error(), accepted)
		}
		low, high := q.Ends()
		switch q.Dimension() {
		case units.Length:
			class.LowMM, class.HighMM, err = millimetres(q)
		case units.Mass:
			class.Grams, err = q.Float64(units.Gram)
		case units.Count:
			if q.IsRange() || !low.IsInt() || !high.IsInt() {
				return class, units.WrongField("lot", text, "not a whole count", accepted)
			}
			class.Count = int(low.Num().Int64())
		default:
			return class, units.WrongField("lot", text, "not sizes, nor a weight and a count", accepted)
		}
		if err != nil {
			return class, err
		}
	}
	return class, nil
}

// millimetres gives both ends of a length.
func millimetres(q units.Quantity) (low, high float64, err error) {
	inMM, err := q.In(units.Millimetre)
	if err != nil {
		return 0, 0, err
	}
	from, to := inMM.Ends()
	low, _ = from.Float64()
	high, _ = to.Float64()
	return low, high, nil
}

// readSpread reads "tray", "bowl" or either with a depth.
func readSpread(text string, grams float64) (heat.Spread, error) {
	word, depth, _ := strings.Cut(strings.TrimSpace(text), " ")
	spread := heat.Spread{Bowl: word == "bowl", Grams: grams}
	if word != "bowl" && word != "tray" {
		return spread, units.WrongField("cool", text, "not a way to set them out", "tray, bowl, or with a depth: \"bowl 60 mm\"")
	}
	if grams == 0 {
		spread.Grams = heat.DefaultLoadGrams
	}
	if depth == "" {
		return spread, nil
	}
	mm, err := physicalFlag("cool", depth, units.Metric, units.Millimetre)
	spread.DepthMM = mm
	return spread, err
}
