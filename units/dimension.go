package units

import (
	"fmt"
	"strings"
)

// Dimension is what a unit measures. Quantities of one dimension convert into
// each other exactly; between dimensions only an ingredient's own measures
// lead across.
type Dimension uint8

// The dimensions. Count covers pieces, and named kinds of piece such as a
// clove or a sprig, which do not convert into each other by arithmetic.
const (
	NoDimension Dimension = iota
	Mass
	Volume
	Length
	Area
	Temperature
	Count
	Power
	Time
	Energy
	Pressure
)

var dimensionNames = [...]string{"no dimension", "mass", "volume", "length", "area", "temperature", "count", "power", "time", "energy", "pressure"}

// String is the dimension's plain name: "mass", "volume" and so on.
func (d Dimension) String() string {
	if int(d) < len(dimensionNames) {
		return dimensionNames[d]
	}
	return fmt.Sprintf("dimension %d", uint8(d))
}

// System is whose measures a regional word such as "pint" or "cup" means.
type System uint8

// The systems a kitchen may set. With NoSystem every regional word is
// ambiguous.
const (
	NoSystem System = iota
	Metric
	UK
	US
	AU
)

// systems lists those a kitchen can have, in the order readings are shown.
var systems = [...]System{Metric, UK, US, AU}

// String is the name kitchen.yaml uses: metric, uk, us, au; "" for none.
func (s System) String() string {
	switch s {
	case Metric:
		return "metric"
	case UK:
		return "uk"
	case US:
		return "us"
	case AU:
		return "au"
	}
	return ""
}

// label is how the system stands beside a unit: "pt UK", "cup metric".
func (s System) label() string {
	if s == Metric {
		return "metric"
	}
	return strings.ToUpper(s.String())
}

// ParseSystem reads metric, uk, us or au, in any case.
func ParseSystem(name string) (System, error) {
	for _, s := range systems {
		if strings.EqualFold(strings.TrimSpace(name), s.String()) {
			return s, nil
		}
	}
	return NoSystem, &ParseError{Input: name, Reason: "not a system of measures", Accepted: "metric, uk, us or au"}
}

// qualifier is the system that a word beside a unit names: "UK pint",
// "imperial pint", "American cup".
func qualifier(word string) System {
	switch word {
	case "uk", "imperial", "imp", "british", "brit", "gb":
		return UK
	case "us", "usa", "american":
		return US
	case "metric":
		return Metric
	case "au", "aus", "aust", "australian":
		return AU
	}
	return NoSystem
}
