package recipes

import "strings"

// phraseIndex finds phrases in a text: whole words only, whatever the plural,
// the longest first at every place; the words of one that is found are used up.
type phraseIndex[T any] struct {
	byWords map[string]T
	longest int // words in the longest phrase
}

func newPhraseIndex[T any]() *phraseIndex[T] {
	return &phraseIndex[T]{byWords: map[string]T{}}
}

func (x *phraseIndex[T]) put(phrase string, value T) { x.putWords(wordForms(phrase), value) }

func (x *phraseIndex[T]) putWords(forms []string, value T) {
	x.byWords[strings.Join(forms, " ")] = value
	x.longest = max(x.longest, len(forms))
}

// at is what stands at the beginning of some words, and how many of them it
// takes; 0 where nothing does.
func (x *phraseIndex[T]) at(words []string) (value T, n int) {
	for n = min(x.longest, len(words)); n > 0; n-- {
		if value, ok := x.byWords[strings.Join(words[:n], " ")]; ok {
			return value, n
		}
	}
	return value, 0
}

// in lists what stands in a text.
func (x *phraseIndex[T]) in(text string) []T { return foundIn(wordForms(text), x.at) }

// foundIn lists what at finds among words, the longest first at every place.
func foundIn[T any](words []string, at func([]string) (T, int)) []T {
	var found []T
	for i := 0; i < len(words); {
		value, n := at(words[i:])
		if n > 0 {
			found = append(found, value)
		}
		i += max(n, 1)
	}
	return found
}
