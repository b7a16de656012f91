package units

// Symbols lists the symbols of units that can be written, for a shell to complete.
func Symbols() []string {
	var names []string
	for _, u := range All() {
		if u.Symbol() != "" {
			names = append(names, u.Symbol())
		}
	}
	return names
}

// SystemNames lists the systems of measures.
func SystemNames() []string {
	return []string{Metric.String(), UK.String(), US.String(), AU.String()}
}
