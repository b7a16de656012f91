package measures

import (
	"strings"
	"trencher/units"
	"trencher/units/pattern"
)

// allBeside tells words that are nothing but qualities and states.
func allBeside(text string) bool {
	words := strings.Fields(lookupKey(text))
	for i := 0; i < len(words); {
		n, kind := foodTable.besideAt(Food{}, words[i:])
		if kind == 0 || kind == changingWord {
			return false
		}
		i += n
	}
	return len(words) > 0
}

// name finds what the item is, and moves what is done to it into the state.
func (l *Line) name(head string, s units.System) {
	head = l.parts(strings.Trim(head, " .,;:*"), s)
	if m, ok := FoodNamed(head); ok {
		l.Food, l.Known = l.splitCut(m), true
		l.Item = withoutStates(head, l.Food.States)
		for _, state := range l.Food.States {
			l.state(state)
		}
		return
	}
	if m, name, said, ok := saidBehind(head); ok {
		l.Food, l.Known = l.splitCut(m), true
		l.Item = withoutStates(name, l.Food.States)
		for _, state := range append(l.Food.States, said) {
			l.state(state)
		}
		return
	}
	l.Item = head
	if whole, rest, ok := eitherState(head); ok {
		l.Food, l.Known = whole, true
		l.Item = rest
		return
	}
	l.unknown(strings.Fields(head))
}

// saidBehind parts a name of the table from what is said of it behind it without a
// comma: "butternut squash peeled and cubed", "kale no stalks".
func saidBehind(head string) (m NameMatch, name, said string, ok bool) {
	words := strings.Fields(head)
	for n := min(len(words)-1, mostOfName); n > 0; n-- {
		if !beginsRemark(words[n:min(len(words), n+mostOfFood)]) {
			continue
		}
		name = strings.Join(words[:n], " ")
		if m, ok = FoodNamed(name); ok {
			return m, name, strings.Join(words[n:], " "), true
		}
	}
	return NameMatch{}, "", "", false
}

// mostOfName is how many words the name of an ingredient has at most, with what may
// stand before it.
const mostOfName = 5

// beginsRemark tells words that go on about a thing, and name none.
func beginsRemark(words []string) bool {
	if remarkWords[lookupKey(words[0])] || inSize.MatchString(strings.Join(words, " ")) {
		return true
	}
	n, kind := foodTable.besideAt(Food{}, strings.Fields(lookupKey(strings.Join(words, " "))))
	if n == 0 || kind != stateWord {
		return false
	}
	_, food := FoodNamed(strings.Join(words, " "))
	return !food
}

// inSize begins to say how something is cut: "in 3 cm chunks".
var inSize = pattern.New(`(?i)^(?:in|into) (?:about )?[\d¼½¾]`)

// remarkWords begin a remark behind a name (ordinary English, no source).
var remarkWords = map[string]bool{"no": true, "without": true, "cut": true, "if": true, "left": true, "all": true, "very": true, "well": true, "removed": true, "trimmed": true, "washed": true, "topped": true}

// parts takes the part of a plant from behind a name: "2 garlic cloves" are two
// cloves of garlic. A leaf of bay stays a bay leaf.
func (l *Line) parts(head string, s units.System) string {
	i := strings.LastIndexByte(head, ' ')
	if i < 0 || !isPart(head[i+1:], s) {
		return head
	}
	of, ok := FoodNamed(head[:i])
	whole, named := FoodNamed(head)
	switch unit := l.Amount.Unit(); {
	case !ok || named && (whole.Food.Family != of.Food.Family || endsIn(whole.Food.Family, head[i+1:], s)):
		return head
	case unit == units.Piece || unit.IsSize():
		l.inParts(head[i+1:], s)
		for _, size := range of.Qualities {
			if foodTable.beside(size) == qualityWord {
				l.state(size)
			}
		}
		return withoutStates(head[:i], of.Qualities)
	case !named:
		l.Food, l.Known = of, true
	}
	return head
}

// endsIn tells a name whose last word is that part, as bay leaf is.
func endsIn(family, part string, s units.System) bool {
	last, err := units.ParseUnit(family[strings.LastIndexByte(family, ' ')+1:], s)
	unit, wrong := units.ParseUnit(part, s)
	return err == nil && wrong == nil && last == unit
}

// eitherState is the food of "fresh or frozen peas".
func eitherState(head string) (m NameMatch, item string, ok bool) {
	first, other, ok := strings.Cut(head, " or ")
	if !ok || !allBeside(first) {
		return NameMatch{}, "", false
	}
	m, ok = FoodNamed(other)
	return m, head, ok
}

// namesBeside are two names with a stroke between them.
var namesBeside = pattern.New(`^(\pL[\pL' -]*?)\s*/\s*(\pL.*)$`)

// twoNames reads two names of one thing, "courgettes / zucchini", as the first, and those
// of two things as the one or the other.
func (l *Line) twoNames(first, other string, s units.System) string {
	m, ok := FoodNamed(first)
	if !ok {
		return first + "/" + other
	}
	same, known := FoodNamed(other)
	said := ""
	if !known {
		same, _, said, known = saidBehind(other)
	}
	switch {
	case !known:
		return first + "/" + other
	case m.Food.Family != same.Food.Family || m.Food.Kind > SameFood || same.Food.Kind > SameFood:
		return l.either(first, other, s)
	}
	l.state(said)
	return first
}

// unknown splits what is done to it from a name the table does not know.
func (l *Line) unknown(words []string) {
	var lead []string
	for len(words) > 1 {
		n, kind := foodTable.besideAt(Food{}, strings.Fields(lookupKey(strings.Join(words[:min(4, len(words)-1)], " "))))
		if kind != stateWord || n >= len(words) {
			break
		}
		lead, words = append(lead, words[:n]...), words[n:]
	}
	l.state(strings.Join(lead, " "))
	l.Item = strings.Join(words, " ")
}

// splitCut takes the cutting out of a name that has it: "chopped parsley" is
// parsley. Chopped tomatoes come in a tin, unless they are counted.
func (l *Line) splitCut(m NameMatch) NameMatch {
	words := strings.Fields(lookupKey(m.Food.Name))
	n, _ := foodTable.besideAt(Food{}, words)
	if n == 0 || n >= len(words) || !cutting[words[n-1]] {
		return m
	}
	whole, ok := FoodNamed(strings.Join(words[n:], " "))
	unit := l.Amount.Unit()
	if !ok || whole.Food.Kind == FormOfFood || m.Food.Kind == FormOfFood || whole.Food.Family != m.Food.Family && unit != units.Piece && !unit.IsSize() {
		return m
	}
	whole.States = append([]string{strings.Join(words[:n], " ")}, m.States...)
	whole.Qualities = m.Qualities
	return whole
}

// cutting are the states that make no other good of a food.
var cutting = map[string]bool{"chopped": true, "sliced": true, "diced": true, "grated": true, "shredded": true, "crushed": true, "snipped": true,
	"torn": true, "halved": true, "quartered": true, "melted": true, "softened": true, "beaten": true, "picked": true, "crumbled": true, "shaved": true}

// withoutStates drops the words of the states from a text, in its own spelling.
func withoutStates(head string, states []string) string {
	words := strings.Fields(head)
	for _, state := range states {
		want := strings.Fields(state)
		for i := 0; i+len(want) <= len(words); i++ {
			if lookupKey(strings.Join(words[i:i+len(want)], " ")) == state {
				words = append(words[:i:i], words[i+len(want):]...)
				break
			}
		}
	}
	return strings.Join(words, " ")
}
