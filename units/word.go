package units

// KitchenWord is what a kitchen calls the unit of a code that [Unit.Code]
// gives: "ml" for mL, "fl oz" for [foz_us], "tbsp", "clove", "°C", and nothing
// for plain pieces. Whose pint it is goes without saying in a kitchen; write
// [Unit.Symbol] where it does not. A code of no unit comes back as it is.
func KitchenWord(code string) string {
	e := unitCoded(code)
	if e == nil {
		e = unitNamed(code) // a unit that UCUM has no code for
	}
	switch {
	case e == nil:
		return code
	case e == Celsius.entry, e == Fahrenheit.entry:
		return "°" + e.bare
	}
	return e.bare
}
