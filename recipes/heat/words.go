package heat

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

// Words is a question about steam as a person writes it, each field by itself;
// "" is not given. [Words.Read] makes a [Question] of it.
type Words struct {
	Crop, Kind, Cut, Until string
	Start, Altitude        string
	Load                   string
	Heaped                 bool
	Sizes                  string   // a table by size: "15..60"
	UsualSizes             bool     // or by the sizes that the crop and cut are worth a table at
	Lots                   []string // sizes to cut for one time: "20-45 mm", "820 g 9 pieces"
	Tuber                  string   // what the cut is made from: "40 mm"
	Cool                   string   // "tray", "bowl", "bowl 60 mm", "cold water", "bowl in ice water"
	Room                   string
	Tier                   string // that a tested piece lay on
	Curve                  bool   // follow the temperatures, for a chart
}

// Read makes the question of its words in a kitchen: its system of measures,
// equipment, conditions and room; fridgeC is 0 for the usual. What is not given
// is as usual, and assumed says what stands in for it. Its error is a
// [units.FieldError].
func (q Words) Read(kitchen Question, system units.System, fridgeC float64) (question Question, assumed []string, err error) {
	question = kitchen
	question.Until, question.Curve = JustTender, q.Curve
	if question.Crop, err = LookupCrop(q.Crop, q.Kind); err != nil {
		return question, nil, err
	}
	if q.Until != "" {
		if question.Until, err = ParseDoneness(q.Until); err != nil {
			return question, nil, err
		}
	}
	if question.Table, err = ParseSpan(q.Sizes); err != nil {
		return question, nil, err
	}
	if question.Cut, question.TableShape, assumed, err = q.readCut(question.Crop, system); err != nil {
		return question, nil, err
	}
	if q.UsualSizes {
		question.Table = UsualSizes(question.Crop, question.TableShape)
	}
	if err = q.readFigures(system, &question); err != nil {
		return question, nil, err
	}
	if question.Tier, err = readTier(q.Tier); err != nil {
		return question, nil, err
	}
	if question.Lots, err = q.readLots(question.Crop, system); err != nil {
		return question, nil, err
	}
	if question.Cool, err = q.readCool(question, fridgeC); err != nil {
		return question, nil, err
	}
	if q.Curve && question.Cut.Shape == 0 {
		return question, nil, units.WrongField("chart", q.Cut, "a chart is of one cut", "a cut, such as cube 25 mm")
	}
	return question, assumed, nil
}

// CropAndCut parts the words of a question, such as carrot slice 5 mm, into the crop,
// by as many words as name one, and the cut. Words that are a cut alone name no crop;
// of others that name none the first is taken for it, unless it begins with a number.
func CropAndCut(words []string) (crop, cut string) {
	all := strings.Fields(strings.Join(words, " "))
	if _, err := ParseCut(strings.Join(all, " ")); err == nil || len(all) == 0 {
		return "", strings.Join(all, " ")
	}
	named := 1
	if first := all[0][0]; first >= '0' && first <= '9' {
		named = 0
	}
	for n := range all {
		if _, err := LookupCrop(strings.Join(all[:n+1], " "), ""); err == nil {
			named = n + 1
		}
	}
	return strings.Join(all[:named], " "), strings.Join(all[named:], " ")
}

// readLots reads the sizes to cut for one time.
func (q Words) readLots(crop Crop, system units.System) (lots []SizeClass, err error) {
	for _, text := range q.Lots {
		class, err := ParseSizeClass(text, crop, system)
		if err != nil {
			return nil, err
		}
		lots = append(lots, class)
	}
	return lots, nil
}

// readCool reads what it cools in; nil where that was not asked.
func (q Words) readCool(question Question, fridgeC float64) (*Spread, error) {
	if q.Cool == "" {
		return nil, nil
	}
	spread, err := ParseSpread(q.Cool)
	if err != nil {
		return nil, err
	}
	spread.Grams, spread.FridgeC = DefaultLoadGrams, fridgeC
	spread.NoFridge, spread.Box = question.NoFridge, question.Box
	if question.Grams != nil {
		spread.Grams = *question.Grams
	}
	return &spread, nil
}

// readCut reads the cut; for a table of sizes its bare word will do, and is the
// table's shape. Pods and seeds that come in their own pieces need none.
func (q Words) readCut(crop Crop, system units.System) (cut Cut, shape Shape, assumed []string, err error) {
	table := q.Sizes != "" || q.UsualSizes
	if shape, err := ParseShape(q.Cut); err == nil && table {
		return Cut{}, shape, nil, nil
	}
	alone := !table && len(q.Lots) == 0
	shape = Cube
	switch {
	case q.Cut != "":
		if cut, err = ParseCut(q.Cut); err != nil {
			return cut, shape, nil, err
		}
		shape = cut.Shape
	case alone && crop.Ready:
		cut = Cut{Shape: Whole}
	case alone:
		return cut, shape, nil, units.WrongField("cut", "", "no cut given", CutForms)
	}
	if crop.Ready && cut.Shape == Whole && !cut.Sized() && len(q.Lots) == 0 {
		cut.SizeMM = crop.WidthMM
		assumed = append(assumed, fmt.Sprintf("size not given: the usual %g mm across", crop.WidthMM))
	}
	if q.Tuber == "" {
		return cut, shape, assumed, nil
	}
	mm, taken, err := ParseTuber(q.Tuber, crop, system)
	if err != nil {
		return cut, shape, nil, err
	}
	return Piece(cut, mm), shape, append(assumed, taken...), cut.CheckTuber(mm)
}

// readFigures reads what stands in one figure each.
func (q Words) readFigures(system units.System, into *Question) error {
	for _, one := range []struct {
		field, text string
		unit        units.Unit
		set         func(float64)
	}{
		{"start", q.Start, units.Celsius, func(x float64) { into.Conditions.StartC = &x }},
		{"load", q.Load, units.Gram, func(x float64) { into.Grams = &x }},
		{"room", q.Room, units.Celsius, func(x float64) { into.RoomC = x }},
	} {
		if one.text == "" {
			continue
		}
		x, err := strict.FigureField(one.field, one.text, system, one.unit)
		if err != nil {
			return err
		}
		one.set(x)
	}
	into.Conditions.Heaped = q.Heaped
	if q.Altitude == "" {
		return nil
	}
	m, err := readAltitude(q.Altitude, system)
	into.Conditions.AltitudeM = m
	return err
}

// readAltitude reads a height in metres, which stands behind a minus where it is below
// the sea.
func readAltitude(text string, system units.System) (float64, error) {
	height, sign := strings.TrimSpace(text), 1.0
	for _, minus := range []string{"-", "−", "–", "minus "} {
		if below, found := strings.CutPrefix(height, minus); found {
			height, sign = below, -1
			break
		}
	}
	m, err := strict.FigureField("altitude", height, system, units.Metre)
	var wrong *units.FieldError
	if errors.As(err, &wrong) {
		wrong.Value, wrong.Accepted = text, fmt.Sprintf("a height of %d to %d m, such as 60 m", LowestM, HighestM)
	}
	return sign * m, err
}

// readTier reads a tier's number; "" is none.
func readTier(text string) (int, error) {
	if text == "" {
		return 0, nil
	}
	tier, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || tier < 1 || tier > mostTiers {
		return 0, units.WrongField("tier", text, "no tier of a steamer", fmt.Sprintf("1, the lowest, to %d", mostTiers))
	}
	return tier, nil
}
