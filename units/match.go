package units

import "strings"

// MatchNames finds which of several names a typed one means: the name itself,
// in capitals or not, else those that begin so. One place in the answer is the
// name meant, none is an unknown one, several are the candidates. Spaces at the
// ends and doubled ones count for nothing.
func MatchNames(typed string, names []string) []int {
	return MatchAny(typed, len(names), func(i int) []string { return names[i : i+1] })
}

// MatchAny is [MatchNames] over things that go by several names each.
func MatchAny(typed string, things int, namesOf func(int) []string) []int {
	wanted := folded(typed)
	if wanted == "" {
		return nil
	}
	var exact, begin []int
	for i := range things {
		is, begins := false, false
		for _, name := range namesOf(i) {
			name = folded(name)
			is = is || name == wanted
			begins = begins || strings.HasPrefix(name, wanted)
		}
		if is {
			exact = append(exact, i)
		}
		if begins {
			begin = append(begin, i)
		}
	}
	if len(exact) > 0 {
		return exact
	}
	return begin
}

func folded(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
