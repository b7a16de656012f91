package harvest

import (
	"errors"
	"fmt"

	"trencher/units"
)

// LiftWords is a weighed lift as a person writes it.
type LiftWords struct {
	Planting      string
	Weighings     []string // "1.46 kg - 0.31 kg"
	Grades        []string // "820 g 20-45 mm scabby"
	Mothers, Soil string   // weighed apart
	Left          string   // some or none
	Lies          string   // where the crop lies now
	Says          string
	Replaces      string // the file of the lift this one corrects
}

// Read turns the words into a lift without its moment. Its error joins every
// fault, each a [units.FieldError].
func (q LiftWords) Read(system units.System) (*Lift, error) {
	l := &Lift{Planting: q.Planting, Left: q.Left, Where: q.Lies, Says: q.Says}
	l.Replaces = q.Replaces
	var failed []error
	for _, text := range q.Weighings {
		w, err := ParseWeighing(text, system)
		failed = append(failed, units.InField("weighing", text, err))
		l.Weighings = append(l.Weighings, w)
	}
	for _, text := range q.Grades {
		g, err := ParseGrade(text, system)
		failed = append(failed, units.InField("grade", text, err))
		l.Grades = append(l.Grades, g)
	}
	l.Mothers = readApart("mothers", q.Mothers, system, &failed)
	l.Soil = readApart("soil", q.Soil, system, &failed)
	if q.Left != "" && q.Left != LeftSome && q.Left != LeftNone {
		failed = append(failed, units.WrongField("left", q.Left, "not a word known here", "some or none"))
	}
	if err := errors.Join(failed...); err != nil {
		return nil, err
	}
	return l, l.Check()
}

// readApart reads a weight and keeps its error; "" is none.
func readApart(field, text string, system units.System, failed *[]error) units.Quantity {
	w, err := ParseWeightField(field, text, system)
	*failed = append(*failed, err)
	return w
}

// parseNet reads a weight, or a full bowl less the empty one, into what is in
// it; "" is none. Its error is of the field.
func parseNet(field, text string, system units.System) (units.Quantity, error) {
	if text == "" {
		return units.Quantity{}, nil
	}
	w, err := ParseWeighing(text, system)
	if err != nil || !w.Tare.IsValid() {
		return w.Gross, units.InField(field, text, err)
	}
	net, err := w.Gross.Sub(w.Tare)
	return net, units.InField(field, text, err)
}

// ParseAir reads how warm it is somewhere; "" is that nobody said. Its error is
// of the field.
func ParseAir(field, text string) (units.Quantity, error) {
	if text == "" {
		return units.Quantity{}, nil
	}
	q, err := units.Parse(text, units.Metric)
	if err != nil || q.Dimension() != units.Temperature || q.IsRange() {
		return units.Quantity{}, units.WrongField(field, text, "not a temperature", "how warm it is there, such as 8 C")
	}
	if celsius, err := q.Float64(units.Celsius); err != nil || celsius < coldestC || celsius > hottestC {
		return units.Quantity{}, units.WrongField(field, text, "no place food is kept in is so", fmt.Sprintf("a temperature from %d to %d C", coldestC, hottestC))
	}
	return q, nil
}

// The air of any place that food is kept in, in °C.
const coldestC, hottestC = -40, 60

// ParseWeightField reads a weight; "" is none. Its error is of the field.
func ParseWeightField(field, text string, system units.System) (units.Quantity, error) {
	if text == "" {
		return units.Quantity{}, nil
	}
	w, err := ParseWeight(text, system)
	return w, units.InField(field, text, err)
}
