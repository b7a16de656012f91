package recipes

import (
	"errors"
	"slices"
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
)

// A recipe told in sentences has no list of ingredients. The amounts that stand in
// its sentences become lines of one, each to be checked; its sentences stay its
// steps, as they are.

// listFromProse adds the lines that the sentences of a recipe without a list name.
func (im *importer) listFromProse() {
	if len(im.recipe.Of(saved.Ingredient)) > 0 {
		return
	}
	im.listed = len(im.recipe.Lines)
	looked := 0
	for _, line := range im.recipe.Lines[:im.listed] {
		if line.Role != saved.Step || looked > mostProse {
			continue
		}
		looked += len(line.Text)
		for _, sentence := range sentencesOf(beginningOf(line.Text)) {
			for _, phrase := range amountsIn(sentence, im.options.System) {
				if len(im.recipe.Lines)-im.listed < mostSentences {
					im.recipe.Lines = append(im.recipe.Lines, saved.Line{Text: phrase, Role: saved.Ingredient, Line: line.Line})
				}
			}
		}
	}
}

// inProse tells whether a line, by its index, was found inside a sentence.
func (im *importer) inProse(i int) bool { return im.listed > 0 && i >= im.listed }

var (
	amountWord = pattern.New(`(?i)^\(?(?:[\d½¼¾⅓⅔⅛⅜⅝⅞][\d½¼¾⅓⅔⅛⅜⅝⅞.,/–-]*(?:[a-z]+\.?)?|an?|half|quarter|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|juice|zest|rind|some|several|plenty|pinch(?:es)?|handfuls?|knobs?)[,.;:]?$`)
	phraseEnd  = pattern.New(`(?i)^(?:in|into|on|onto|with|until|till|for|and|then|over|to|at|from|under|together|while|as|when|if|so|but|them|it|they|this|that|which|through|round|around|between|are|is|will|should|has|have|per|every|off|out|up|down)$`)
	notAmounts = pattern.New(`(?i)^(?:the|them|it|these|those|that|this|which|your|my|our|more|other|others|minutes?|mins?|hours?|hrs?|seconds?|secs?|degrees?|times?|inch(?:es)?|cm|mm|at|or)$`)
	seenBefore = pattern.New(`(?i)^(?:remaining|rest|reserved|other|last|every|each|serves?|feeds?|makes?|mark|step|into|after|for|than|another|further)$`)
	vessel     = pattern.New(`(?i)\b(?:pan|saucepan|pot|dish|tin|tray|bowl|jug|basin|casserole|mould|jar|jars|oven|heat|ring|skillet|wok|sieve|colander|plate|lid|boil|simmer|time|while|bit|way)$`)
	tinOf      = pattern.New(`(?i)\b(?:tin|jar|bowl|jug|pot|dish) of\b`)
	alsoNamed  = pattern.New(`(?i)^(?:of|a|an|half|quarter|about|approximately|and)$`)
)

// amountsIn are the phrases of a sentence that say how much of what: "500 g potatoes",
// "a handful of chopped parsley".
func amountsIn(sentence string, s units.System) []string {
	words := strings.Fields(sentence)
	words = words[:min(len(words), mostWords)]
	var all []string
	for i := 0; i < len(words); i++ {
		if !amountWord.MatchString(words[i]) || i > 0 && seenBefore.MatchString(bare(words[i-1])) {
			continue
		}
		if phrase, used := phraseAt(words[i:], s); used > 0 {
			all = append(all, phrase)
			i += used - 1
		}
	}
	return all
}

// phraseAt is the phrase that words begin with, and how many of them it takes; 0
// where they say no amount of anything.
func phraseAt(words []string, s units.System) (phrase string, used int) {
	end := endOfPhrase(words)
	for n := end; n > 0; n-- {
		phrase = strings.Trim(strings.Join(words[:n], " "), " ,.;:!?")
		if strings.Count(phrase, "(") != strings.Count(phrase, ")") {
			phrase = strings.TrimLeft(phrase, "(")
			phrase = strings.TrimRight(phrase, ")")
		}
		if isAmountOf(phrase, s) {
			return phrase, n
		}
	}
	phrase = strings.Trim(strings.Join(words[:end], " "), " ,.;:!?()")
	if l := measures.ReadLine(phrase, s); end > 1 && !vessel.MatchString(phrase) && l.Amount.IsValid() && !l.Known && l.Item != "" &&
		(l.Amount.Dimension() == units.Mass || l.Amount.Dimension() == units.Volume) {
		return phrase, end // of what no table knows
	}
	return "", 0
}

// isAmountOf tells so much of a food that is known.
func isAmountOf(phrase string, s units.System) bool {
	if vessel.MatchString(phrase) && !tinOf.MatchString(phrase) {
		return false
	}
	l := measures.ReadLine(phrase, s)
	if l.Amount.IsToTaste() && l.Food.Food.Family == "water" {
		return false // "plenty of salted water"
	}
	return l.Known && (l.Amount.IsValid() || slices.ContainsFunc(l.Doubts, isRegional))
}

// isRegional tells the doubt whose pint or cup is meant.
func isRegional(doubt *units.FieldError) bool {
	var regional *units.AmbiguousError
	return errors.As(doubt, &regional)
}

// endOfPhrase is how many of the words may belong to one amount and what it is of.
func endOfPhrase(words []string) int {
	depth := 0
	for i, word := range words {
		depth += strings.Count(word, "(") - strings.Count(word, ")")
		if i == 0 {
			continue
		}
		last := bare(words[i-1])
		switch {
		case strings.EqualFold(word, "or") && i == 1 && i+1 < len(words) && amountWord.MatchString(words[i+1]): // "three or four"
		case i == 1 && notAmounts.MatchString(bare(word)), i > mostOfPhrase:
			return i
		case depth > 0 || strings.HasPrefix(word, "("):
		case endsPhrase(words[i-1], word):
			return i
		case strings.EqualFold(word, "and") && (i+2 < len(words) && alsoAmount(words[i+1:]) || last == "salt" || slices.Contains(words[:i], "each")):
		case phraseEnd.MatchString(bare(word)) && !(strings.EqualFold(word, "to") && startsDigit(words[min(i+1, len(words)-1)])):
			return i
		case imperatives()[strings.ToLower(bare(word))] && !alsoNamed.MatchString(last) && i > 1 && strings.HasSuffix(words[i-1], ","):
			return i
		}
	}
	return len(words)
}

// endsPhrase tells whether a word ends what it is part of.
func endsPhrase(before, word string) bool {
	if !strings.ContainsAny(before[len(before)-1:], ",;:!?.") {
		return false
	}
	return !shortUnits[strings.ToLower(strings.Trim(before, "0123456789½¼¾.,"))] || strings.HasSuffix(before, ",")
}

// shortUnits are the units people write with a dot.
var shortUnits = map[string]bool{"oz": true, "lb": true, "lbs": true, "tsp": true, "tbsp": true, "pt": true, "pts": true, "qt": true, "g": true, "ml": true, "dsp": true, "approx": true}

// alsoAmount tells the rest of "a pound and a half of", "one and three quarter".
func alsoAmount(words []string) bool {
	text := strings.ToLower(strings.Join(words[:min(3, len(words))], " "))
	for _, start := range []string{"a half", "a quarter", "three quarter", "a third", "two thirds"} {
		if strings.HasPrefix(text, start) {
			return true
		}
	}
	return false
}

func startsDigit(word string) bool {
	return word != "" && strings.ContainsAny(word[:1], "0123456789")
}

// bare is a word without what stands around it.
func bare(word string) string { return strings.Trim(word, "(),.;:!?\"'") }

// mostWords is how many words of one sentence are looked at.
const mostWords = 150

// mostProse is how much of a recipe's sentences is looked at for amounts, in bytes.
const mostProse = 2_500

// beginningOf is so much of a step as is looked at, in whole words.
func beginningOf(text string) string {
	if len(text) <= mostProse {
		return text
	}
	return text[:strings.LastIndexByte(text[:mostProse], ' ')+1]
}

// mostOfPhrase is how many words an amount and what it is of have at most.
const mostOfPhrase = 9
