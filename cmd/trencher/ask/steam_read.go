package ask

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"trencher/recipes/heat"
	"trencher/units"
	"trencher/units/strict"
)

// read reads every text of the question; assumed says what stands in for what
// was not given.
func (q SteamQuestion) read(k steamKitchen) (question heat.Question, assumed []string, err error) {
	question = heat.Question{Until: heat.JustTender, Equipment: k.equipment, Conditions: k.conditions, RoomC: k.roomC, Curve: q.Curve}
	if question.Crop, err = heat.LookupCrop(q.Crop, q.Kind); err != nil {
		return question, nil, err
	}
	if q.Until != "" {
		if question.Until, err = heat.ParseDoneness(q.Until); err != nil {
			return question, nil, err
		}
	}
	if question.Table, err = readSizes(q.Sizes); err != nil {
		return question, nil, err
	}
	if question.Cut, question.TableShape, assumed, err = q.readCut(question.Crop, k.system); err != nil {
		return question, nil, err
	}
	if q.UsualSizes {
		question.Table = heat.UsualSizes(question.Crop, question.TableShape)
	}
	if err = q.readFigures(k.system, &question); err != nil {
		return question, nil, err
	}
	for _, text := range q.Lots {
		class, err := readLot(text, question.Crop, k.system)
		if err != nil {
			return question, nil, err
		}
		question.Lots = append(question.Lots, class)
	}
	if q.Cool != "" {
		spread, err := readSpread(q.Cool)
		if err != nil {
			return question, nil, err
		}
		spread.Grams, spread.FridgeC = heat.DefaultLoadGrams, k.fridgeC
		if question.Grams != nil {
			spread.Grams = *question.Grams
		}
		question.Cool = &spread
	}
	if q.Curve && question.Cut.Shape == 0 {
		return question, nil, units.WrongField("chart", q.Cut, "a chart is of one cut", "a cut, such as cube 25 mm")
	}
	return question, assumed, nil
}

// readSizes reads "15..60", in mm, by fives or by the step behind a colon.
func readSizes(text string) ([]float64, error) {
	if text == "" {
		return nil, nil
	}
	wrong := func(problem string) ([]float64, error) {
		return nil, units.WrongField("sizes", text, problem, "a span in mm, such as 15..60 or 20..40:2")
	}
	span, pace, stepped := strings.Cut(strings.TrimSpace(strings.TrimSuffix(text, "mm")), ":")
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
	if !(low >= heat.SmallestMM && high <= heat.LargestMM) {
		return wrong("no sizes for a piece or a tuber")
	}
	return heat.Steps(low, high, step), nil
}

// readCut reads the cut; for a table of sizes its bare word will do, and is the
// table's shape. Pods and seeds that come in their own pieces need none.
func (q SteamQuestion) readCut(crop heat.Crop, system units.System) (cut heat.Cut, shape heat.Shape, assumed []string, err error) {
	table := q.Sizes != "" || q.UsualSizes
	if shape, err := heat.ParseShape(q.Cut); err == nil && table {
		return heat.Cut{}, shape, nil, nil
	}
	alone := !table && len(q.Lots) == 0
	shape = heat.Cube
	switch {
	case q.Cut != "":
		if cut, err = heat.ParseCut(q.Cut); err != nil {
			return cut, shape, nil, err
		}
		shape = cut.Shape
	case alone && crop.Ready:
		cut = heat.Cut{Shape: heat.Whole}
	case alone:
		return cut, shape, nil, units.WrongField("cut", "", "no cut given", heat.CutForms)
	}
	if crop.Ready && cut.Shape == heat.Whole && !cut.Sized() && len(q.Lots) == 0 {
		cut.SizeMM = crop.WidthMM
		assumed = append(assumed, fmt.Sprintf("size not given: the usual %g mm across", crop.WidthMM))
	}
	if q.Tuber == "" {
		return cut, shape, assumed, nil
	}
	mm, taken, err := readTuber(q.Tuber, crop, system)
	if err != nil {
		return cut, shape, nil, err
	}
	return heat.Piece(cut, mm), shape, append(assumed, taken...), cut.CheckTuber(mm)
}

// readTuber reads how thick a tuber is, in mm; of one known by weight, what its
// crop's usual length makes of it.
func readTuber(text string, crop heat.Crop, system units.System) (mm float64, assumed []string, err error) {
	tuber, err := strict.QuantityField("tuber", text, system, units.Length, units.Mass)
	if err != nil {
		return 0, nil, err
	}
	if tuber.IsRange() || !tuber.IsValid() {
		return 0, nil, units.WrongField("tuber", text, "not one tuber", "how thick it is, or its weight: 45 mm, 120 g")
	}
	if tuber.Dimension() == units.Length {
		mm, err = tuber.Float64(units.Millimetre)
		return mm, nil, err
	}
	grams, err := tuber.Float64(units.Gram)
	if err != nil {
		return 0, nil, err
	}
	mm = heat.ThicknessMM(crop, grams)
	return mm, []string{fmt.Sprintf("a %s of %g g is about %g mm thick", crop.Name, grams, mm)}, nil
}

// readFigures reads what stands in one figure each.
func (q SteamQuestion) readFigures(system units.System, into *heat.Question) error {
	for _, one := range []struct {
		field, text string
		unit        units.Unit
		set         func(float64)
	}{
		{"start", q.Start, units.Celsius, func(x float64) { into.Conditions.StartC = &x }},
		{"altitude", q.Altitude, units.Metre, func(x float64) { into.Conditions.AltitudeM = x }},
		{"load", q.Load, units.Gram, func(x float64) { into.Grams = &x }},
		{"room", q.Room, units.Celsius, func(x float64) { into.RoomC = x }},
	} {
		if one.text == "" {
			continue
		}
		x, err := physicalFlag(one.field, one.text, system, one.unit)
		if err != nil {
			return err
		}
		one.set(x)
	}
	into.Conditions.Heaped = q.Heaped
	return nil
}

const lotForms = "\"20-45 mm\", or a weight and a count: \"820 g 9 pieces\""

// readLot reads a lot's sizes: "20-45 mm", "20-45 mm 820 g", "820 g 9 pieces" or
// "820 g 9".
func readLot(text string, crop heat.Crop, system units.System) (class heat.SizeClass, err error) {
	words := strings.Fields(text)
	if last := len(words) - 1; last > 0 && len(words)%2 == 1 {
		if _, err := strconv.Atoi(words[last]); err == nil {
			words = append(words, "pieces")
		}
	}
	if len(words) == 0 || len(words)%2 != 0 {
		return class, units.WrongField("lot", text, "not sizes, nor a weight and a count", lotForms)
	}
	for i := 0; i < len(words); i += 2 {
		amount, err := units.Parse(words[i]+" "+words[i+1], system)
		if err == nil {
			err = readLotPart(amount, &class)
		}
		if err != nil {
			return class, wrongLot(text, err)
		}
	}
	if _, err := class.Sizes(crop); err != nil {
		return class, wrongLot(text, err)
	}
	return class, nil
}

// wrongLot says what is wrong with a lot, and what is accepted instead: what the
// error says is, where it is about the sizes themselves.
func wrongLot(text string, err error) error {
	problem, accepted := err.Error(), lotForms
	var parse *units.ParseError
	var field *units.FieldError
	switch {
	case errors.As(err, &parse):
		problem = parse.Reason
	case errors.As(err, &field):
		problem, accepted = field.Problem, field.Accepted
	}
	return units.WrongField("lot", text, problem, accepted)
}

// readLotPart takes one amount of a lot for what its dimension says it is.
func readLotPart(amount units.Quantity, class *heat.SizeClass) (err error) {
	low, high := amount.Ends()
	switch amount.Dimension() {
	case units.Length:
		class.LowMM, class.HighMM, err = millimetres(amount)
		return err
	case units.Mass:
		class.Grams, err = amount.Float64(units.Gram)
		return err
	case units.Count:
		if amount.IsRange() || !low.IsInt() || !high.IsInt() {
			return errors.New("not a whole count")
		}
		class.Count = int(low.Num().Int64())
		return nil
	}
	return errors.New("not sizes, nor a weight and a count")
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
func readSpread(text string) (heat.Spread, error) {
	word, depth, _ := strings.Cut(strings.TrimSpace(text), " ")
	spread := heat.Spread{Bowl: word == "bowl"}
	if word != "bowl" && word != "tray" {
		return spread, units.WrongField("cool", text, "not a way to set them out", "tray, bowl, or with a depth: \"bowl 60 mm\"")
	}
	if depth == "" {
		return spread, nil
	}
	var err error
	spread.DepthMM, err = physicalFlag("cool", depth, units.Metric, units.Millimetre)
	return spread, err
}
