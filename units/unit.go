package units

import "strings"

// Unit is one unit of measure: a value to compare with == and to pass by
// value. The zero Unit is no unit; IsValid tells.
type Unit struct{ entry *entry }

// entry is a row of the table of units.
type entry struct {
	name      string
	symbol    string // how it stands after a number, its system named
	bare      string // the symbol without its system
	code      string // UCUM, where UCUM has one
	dimension Dimension
	kind      string // for Count: pieces of one kind convert only among themselves
	factor    number // size in the dimension's base unit
	offset    number // for temperatures: base = x factor + offset
	rough     bool
	grams     number // what a rough piece weighs, lacking an ingredient
	pack      bool   // a tin, a packet: what a shop sells things in
	origin    Provenance
	note      string
	tell      bool // the note is for the cook
	spellings []string
	system    System // the one system it belongs to, for its label
	customary bool   // of the old British and American measures
	square    string // of a length by which plots are let: the name of its area
}

// Name is the unit's full name: "pint (UK)".
func (u Unit) Name() string {
	if u.entry == nil {
		return ""
	}
	return u.entry.name
}

// Symbol is how the unit stands after a number, with the system it belongs
// to when its word has more than one reading: "pt UK". It is empty for plain
// pieces.
func (u Unit) Symbol() string {
	if u.entry == nil {
		return ""
	}
	return u.entry.symbol
}

// Code is the unit's code in the Unified Code for Units of Measure (UCUM), or
// its kitchen name where that has none.
func (u Unit) Code() string {
	switch {
	case u.entry == nil:
		return ""
	case u.entry.code != "":
		return u.entry.code
	}
	return u.entry.name
}

// Dimension is what the unit measures.
func (u Unit) Dimension() Dimension {
	if u.entry == nil {
		return NoDimension
	}
	return u.entry.dimension
}

// IsValid is false for the zero Unit alone.
func (u Unit) IsValid() bool { return u.entry != nil }

// IsRough tells a pinch, a knob or a sprig from a unit with a fixed size.
func (u Unit) IsRough() bool { return u.entry != nil && u.entry.rough }

// Kind names what is counted: "piece", "clove", "large"; empty unless the
// dimension is Count.
func (u Unit) Kind() string {
	if u.entry == nil {
		return ""
	}
	return u.entry.kind
}

// IsSize tells a size ("large") from a part ("leaf"); both are kinds of piece.
func (u Unit) IsSize() bool {
	switch u.Kind() {
	case "extra small", "small", "medium", "large", "very large", "extra large":
		return true
	}
	return false
}

// IsPack tells a tin or a packet, which has the size on its label, from a piece
// of a plant.
func (u Unit) IsPack() bool { return u.entry != nil && u.entry.pack }

// One is a single one of a kind of piece, in words: "a clove", "a large one",
// "a piece"; of any other unit it is the unit's name.
func (u Unit) One() string {
	kind := u.Kind()
	if kind == "" {
		return u.Name()
	}
	article := "a "
	if strings.ContainsRune("aeiou", rune(kind[0])) {
		article = "an "
	}
	if u.IsSize() {
		return article + kind + " one"
	}
	return article + kind
}

// String is the unit's name.
func (u Unit) String() string { return u.Name() }

// Origin is where the unit's size was taken from.
func (u Unit) Origin() Provenance {
	if u.entry == nil {
		return Provenance{}
	}
	return u.entry.origin
}

// System is the one system the unit belongs to; NoSystem where its word has
// but one reading.
func (u Unit) System() System {
	if u.entry == nil {
		return NoSystem
	}
	return u.entry.system
}

// IsBase tells the unit its dimension's sizes are kept in: a gram, a
// millilitre.
func (u Unit) IsBase() bool { return u.entry != nil && u.entry == base(u.entry.dimension) }

// Definition is the unit's size in words: "568.26125 ml".
func (u Unit) Definition() string {
	switch {
	case u.entry == nil:
		return ""
	case u == GasMark:
		return "250 F and 25 F a mark; a half is 250 F, a quarter 225 F"
	case u.entry.dimension == Temperature:
		return "0 is " + formatNumber(u.entry.offset) + " C, a degree " + formatNumber(u.entry.factor) + " C"
	case u.entry.dimension == Count && u.Kind() != Piece.Kind():
		return "1 " + u.entry.kind
	}
	return strings.TrimSpace(u.sizeText())
}

// Note is a remark on the unit a cook may want, or empty.
func (u Unit) Note() string {
	if u.entry == nil {
		return ""
	}
	return u.entry.note
}

// Caution is a remark a cook should see beside an amount in this unit, such
// as the other readings of a gill; mostly empty.
func (u Unit) Caution() string {
	if u.entry == nil || !u.entry.tell {
		return ""
	}
	return u.entry.note
}

// like reports whether amounts of u and v convert by arithmetic alone.
func (u Unit) like(v Unit) bool {
	return u.entry != nil && v.entry != nil &&
		u.entry.dimension == v.entry.dimension && u.entry.kind == v.entry.kind
}

// The units the project computes in. They are entries of the table, so
// ParseUnit gives the very same values.
var (
	Milligram   = known("milligram")
	Gram        = known("gram")
	Kilogram    = known("kilogram")
	Tonne       = known("tonne")
	Ounce       = known("ounce")
	Pound       = known("pound")
	Stone       = known("stone")
	Millilitre  = known("millilitre")
	Litre       = known("litre")
	Teaspoon    = known("teaspoon (metric)")
	Tablespoon  = known("tablespoon (metric)")
	TeaspoonUS  = known("teaspoon (US)")
	SpoonUS     = known("tablespoon (US)")
	SpoonAU     = known("tablespoon (AU)")
	Cup         = known("cup (metric)")
	CupUS       = known("cup (US)")
	PintUK      = known("pint (UK)")
	PintUS      = known("pint (US)")
	Millimetre  = known("millimetre")
	Centimetre  = known("centimetre")
	Metre       = known("metre")
	Inch        = known("inch")
	SquareMetre = known("square metre")
	SquareRod   = known("square rod")
	Celsius     = known("degree Celsius")
	Fahrenheit  = known("degree Fahrenheit")
	Kelvin      = known("kelvin")
	GasMark     = known("gas mark")
	Piece       = known("piece")
	Pinch       = known("pinch")
	Watt        = known("watt")
	Kilowatt    = known("kilowatt")
	Second      = known("second")
	Minute      = known("minute")
	Hour        = known("hour")
	Day         = known("day")
	Joule       = known("joule")
	Kilojoule   = known("kilojoule")
	Pascal      = known("pascal")
)

// known is the table's unit of that name; a name not in it is our own bug.
func known(name string) Unit {
	e := unitNamed(name)
	if e == nil {
		panic("units: no unit named " + name)
	}
	return Unit{e}
}

// All lists every unit, in the table's order.
func All() []Unit {
	list := make([]Unit, len(entries))
	for i := range entries {
		list[i] = Unit{&entries[i]}
	}
	return list
}
