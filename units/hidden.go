package units

import "unicode"

// Hidden tells the characters that change how a line prints without being seen:
// controls, but for the line end and the tab, and the marks that turn the
// direction of writing.
func Hidden(c rune) bool {
	return unicode.IsControl(c) && c != '\n' && c != '\t' ||
		c >= '\u202a' && c <= '\u202e' || c >= '\u2066' && c <= '\u2069'
}
