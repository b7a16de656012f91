package keeping

// AuthorityNames lists whose food rules can be asked for, the strictest first.
func AuthorityNames() []string {
	names := []string{string(Strictest)}
	for _, a := range Authorities() {
		names = append(names, string(a))
	}
	return names
}
