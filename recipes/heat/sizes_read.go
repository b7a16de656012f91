package heat

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

// ParseSpan reads the sizes of a table, "15..60", in mm, by fives or by the step
// behind a colon. Its error is of the field sizes.
func ParseSpan(text string) ([]float64, error) {
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
	if !(low >= SmallestMM && high <= LargestMM) {
		return wrong("no sizes for a piece or a tuber")
	}
	return Steps(low, high, step), nil
}

// ParseTuber reads how thick a tuber is, in mm; of one known by weight, what its
// crop's usual length makes of it, and assumed says so. Its error is of the
// field tuber.
func ParseTuber(text string, crop Crop, system units.System) (mm float64, assumed []string, err error) {
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
	mm = ThicknessMM(crop, grams)
	return mm, []string{fmt.Sprintf("a %s of %g g is about %g mm thick", crop.Name, grams, mm)}, nil
}

const lotForms = "\"20-45 mm\", or a weight and a count: \"820 g 9 pieces\""

// ParseSizeClass reads a lot's sizes: "20-45 mm", "20-45 mm 820 g", "820 g 9 pieces" or
// "820 g 9". Its error is of the field lot.
func ParseSizeClass(text string, crop Crop, system units.System) (class SizeClass, err error) {
	words := strings.Fields(text)
	if last := len(words) - 1; last > 0 && len(words)%2 == 1 {
		if _, err := strconv.Atoi(words[last]); err == nil {
			words = append(words, "pieces")
		}
	}
	if len(words) == 0 || len(words)%2 != 0 {
		return class, units.WrongField("lot", text, "neither sizes nor a weight and a count", lotForms)
	}
	for i := 0; i < len(words); i += 2 {
		amount, err := units.Parse(words[i]+" "+words[i+1], system)
		if err == nil {
			err = takeAmount(amount, &class)
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
		problem = parse.Beside(text)
	case errors.As(err, &field):
		problem, accepted = field.Problem, field.Accepted
	}
	return units.WrongField("lot", text, problem, accepted)
}

// takeAmount takes one amount of a lot for what its dimension says it is.
func takeAmount(amount units.Quantity, class *SizeClass) (err error) {
	low, high := amount.Ends()
	switch amount.Dimension() {
	case units.Length:
		class.LowMM, class.HighMM, err = endsInMM(amount)
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

// endsInMM gives both ends of a length.
func endsInMM(q units.Quantity) (low, high float64, err error) {
	inMM, err := q.In(units.Millimetre)
	if err != nil {
		return 0, 0, err
	}
	from, to := inMM.Ends()
	low, _ = from.Float64()
	high, _ = to.Float64()
	return low, high, nil
}

// ParseSpread reads "tray", "bowl" or either with a depth; "cold water" or "ice
// water" that they lie in, and "bowl in cold water". Its error is of the field cool.
func ParseSpread(text string) (spread Spread, err error) {
	said := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	for words, medium := range map[string]Medium{"cold water": ColdWater, "ice water": IceWater} {
		if said == words {
			return Spread{In: medium}, nil
		}
		if rest, found := strings.CutSuffix(said, " in "+words); found {
			said, spread.In = rest, medium
		}
	}
	word, depth, _ := strings.Cut(said, " ")
	spread.Bowl = word == "bowl"
	if word != "bowl" && (word != "tray" || spread.In != RoomAir) {
		return spread, units.WrongField("cool", text, "not a way to set them out", "tray, bowl, cold water, ice water, bowl in ice water, or with a depth: \"bowl 60 mm\"")
	}
	if depth == "" {
		return spread, nil
	}
	spread.DepthMM, err = strict.FigureField("cool", depth, units.Metric, units.Millimetre)
	return spread, err
}
