package recipes

import (
	"slices"
	"strings"
)

// ofIngredient tells of a line of a dish file that a comment beside it is about an
// ingredient.
func ofIngredient(line string) bool {
	key, _, ok := strings.Cut(strings.TrimLeft(line, " \t-"), ":")
	return ok && slices.Contains([]string{"crop", "item", "amount", "state"}, strings.TrimRight(key, " \t"))
}

// remarksIn are the comments beside the ingredients of a dish file: what an imported
// recipe says of one and no key holds ("chopped, and fried in butter"). A comment
// with a line of its own, or beside another key, is about the file.
func remarksIn(file []byte) []string {
	var remarks []string
	for line := range strings.Lines(string(file)) {
		if at := commentAt(line); at > 0 && ofIngredient(line) {
			remarks = append(remarks, strings.TrimSpace(line[at+1:]))
		}
	}
	return remarks
}

// commentAt is where the comment of a line of YAML begins: at a # after a space,
// outside quotes; -1 where there is none.
func commentAt(line string) int {
	var quote rune
	before := ' '
	for i, r := range line {
		switch {
		case quote != 0:
			if r == quote {
				quote = 0
			}
		case (r == '"' || r == '\'') && strings.ContainsRune(" [{,:'", before):
			quote = r
		case r == '#' && before == ' ':
			return i
		}
		before = r
	}
	return -1
}
