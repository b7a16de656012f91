package units

import (
	"encoding/json"
	"math/big"
	"strings"

	"github.com/shopspring/decimal"
)

// String is the quantity as an exact text that Parse reads back to an Equal
// quantity under any system: "852.391875 ml", "1.5 pt UK", "83 1/3 g",
// "1-2 tbsp metric", "3", "to taste". No amount is the empty string.
func (q Quantity) String() string { return q.Format(NoSystem) }

// Format is String for readers whose kitchen has a system: the system's name
// is left out where a word alone would mean the same there ("2 tbsp").
func (q Quantity) Format(s System) string {
	switch q.form {
	case noAmount:
		return ""
	case taste:
		return "to taste"
	}
	if q.unit == GasMark {
		return "gas mark " + q.amount(printed)
	}
	amount := q.amount(formatNumber)
	symbol := q.unit.symbolIn(s)
	if s != NoSystem && q.high.cmp(whole(1)) > 0 && q.unit.isWord() {
		bare := q.unit.entry.bare
		symbol = pluralName(bare) + strings.TrimPrefix(symbol, bare)
	}
	if symbol == "" {
		return amount
	}
	return amount + " " + symbol
}

// amount is the number, or the two ends of a range.
func (q Quantity) amount(format func(number) string) string {
	if q.form == span {
		return joinRange(format(q.low), format(q.high))
	}
	return format(q.low)
}

// isWord tells a symbol that is the unit's own name, and so has a plural, from
// an abbreviation: cup and clove, not tsp.
func (u Unit) isWord() bool {
	first, _, _ := strings.Cut(u.entry.name, " ")
	return u.entry.dimension != Temperature && (first == u.entry.bare || u.entry.name == u.entry.bare)
}

// joinRange writes the two ends of a range; a dash will not do beside a minus
// sign or a fraction.
func joinRange(low, high string) string {
	if strings.ContainsAny(low+high, "-/") {
		return low + " to " + high
	}
	return low + "-" + high
}

// symbolIn is the unit's symbol, without its system where s reads it so.
func (u Unit) symbolIn(s System) string {
	e := u.entry
	if s != NoSystem && e.bare != e.symbol {
		if read, err := resolve(e.bare, s); err == nil && read == e {
			return e.bare
		}
	}
	return e.symbol
}

// readableDigits is the length past which a decimal is harder to read than
// its fraction.
const readableDigits = 40

// formatNumber is a decimal if it ends soon, else a whole number and a
// fraction.
func formatNumber(n number) string {
	if d, exact := n.decimal(); exact {
		if text := d.String(); len(text) <= readableDigits || n.isWhole() {
			return text
		}
	}
	r := n.rat()
	sign := ""
	if r.Sign() < 0 {
		sign = "-"
		r.Neg(r)
	}
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	fraction := rest.String() + "/" + r.Denom().String()
	if whole.Sign() == 0 {
		return sign + fraction
	}
	return sign + whole.String() + " " + fraction
}

// MarshalText is String; encoding/json and yaml use it for map keys.
func (q Quantity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads what MarshalText wrote. Regional words need their
// system beside them.
func (q *Quantity) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*q = Quantity{}
		return nil
	}
	read, err := Parse(string(text), NoSystem)
	if err == nil {
		*q = read
	}
	return err
}

// MarshalYAML is String.
func (q Quantity) MarshalYAML() (any, error) { return q.String(), nil }

// jsonQuantity is a quantity as scripts read it. A value with no finite
// decimal is rounded to 16 significant digits and carries its ratio.
type jsonQuantity struct {
	Value     string `json:"value,omitempty"`
	Low       string `json:"low,omitempty"`
	High      string `json:"high,omitempty"`
	Unit      string `json:"unit,omitempty"`
	Exact     bool   `json:"exact"`
	Ratio     string `json:"ratio,omitempty"`
	LowRatio  string `json:"low_ratio,omitempty"`
	HighRatio string `json:"high_ratio,omitempty"`
	ToTaste   bool   `json:"to_taste,omitempty"`
	Rough     bool   `json:"rough,omitempty"`
}

// MarshalJSON writes {"value":"852.391875","unit":"mL","exact":true}; a range
// has "low" and "high"; a value with no finite decimal is rounded to 16
// significant digits, "exact" is false and "ratio" holds all of it. No amount
// is null.
func (q Quantity) MarshalJSON() ([]byte, error) {
	if !q.IsValid() {
		return []byte("null"), nil
	}
	j := jsonQuantity{Unit: q.unit.Code(), ToTaste: q.IsToTaste(), Rough: q.IsRough(), Exact: true}
	if q.hasNumber() {
		low, lowRatio, lowExact := jsonNumber(q.low)
		high, highRatio, highExact := jsonNumber(q.high)
		j.Exact = lowExact && highExact
		if q.form == single {
			j.Value, j.Ratio = low, lowRatio
		} else {
			j.Low, j.High, j.LowRatio, j.HighRatio = low, high, lowRatio, highRatio
		}
	}
	return json.Marshal(j)
}

func jsonNumber(n number) (text, ratio string, exact bool) {
	d, exact := n.decimal()
	if !exact {
		ratio = n.rat().String()
	}
	return d.String(), ratio, exact
}

// UnmarshalJSON reads what MarshalJSON wrote, without loss, or a string as
// UnmarshalText reads it.
func (q *Quantity) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		*q = Quantity{}
		return nil
	}
	if len(data) > 0 && data[0] == '"' {
		var text string
		if err := json.Unmarshal(data, &text); err != nil {
			return err
		}
		return q.UnmarshalText([]byte(text))
	}
	var j jsonQuantity
	if err := json.Unmarshal(data, &j); err != nil {
		return err
	}
	read, err := j.quantity()
	if err == nil {
		*q = read
	}
	return err
}

func (j jsonQuantity) quantity() (Quantity, error) {
	if j.ToTaste {
		return ToTaste(), nil
	}
	e := unitCoded(j.Unit)
	if e == nil {
		e = unitNamed(j.Unit)
	}
	if e == nil {
		return Quantity{}, &ParseError{Input: j.Unit, Reason: "not a unit's code", Accepted: "a UCUM code such as g or mL"}
	}
	if j.Value != "" {
		n, err := readJSONNumber(j.Value, j.Ratio)
		return exactly(n, Unit{e}), err
	}
	low, err := readJSONNumber(j.Low, j.LowRatio)
	if err != nil {
		return Quantity{}, err
	}
	high, err := readJSONNumber(j.High, j.HighRatio)
	if err == nil && low.cmp(high) > 0 {
		err = &ParseError{Input: j.Low, Reason: "the range runs backwards", Accepted: "the smaller end first"}
	}
	return between(low, high, Unit{e}), err
}

// readJSONNumber takes the ratio, which is all of the value, over its digits.
func readJSONNumber(digits, ratio string) (number, error) {
	bad := &ParseError{Input: digits, Reason: "not a number", Accepted: `digits such as "852.391875"`}
	if len(digits) > maxText || len(ratio) > maxText {
		return number{}, bad
	}
	if ratio != "" {
		r, ok := new(big.Rat).SetString(ratio)
		if !ok || strings.ContainsAny(ratio, "eEpP") {
			return number{}, bad
		}
		return fromRat(r), nil
	}
	d, err := decimal.NewFromString(digits)
	if err != nil || strings.ContainsAny(digits, "eE") {
		return number{}, bad
	}
	return fromRat(d.Rat()), nil
}
