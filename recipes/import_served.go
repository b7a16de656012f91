package recipes

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trencher/recipes/saved"
	"trencher/units/pattern"
)

// readServed settles how the dish comes to the table: as the recipe says it is
// eaten; where it does not, by what is done last, to be checked.
func (im *importer) readServed(cooked bool) {
	if im.result.Served = im.options.Served; im.result.Served != "" {
		return
	}
	text := strings.ToLower(strings.Join(append(im.recipe.Of(saved.Step), im.recipe.Of(saved.Yield)...), ". "))
	text = text[max(0, len(text)-mostOfStep):] // how it is served stands at the end
	text = leftovers.ReplaceAllString(text, " ")
	var said []Served
	atOnce, beside := false, false
	for _, m := range servedSaid.FindAllStringSubmatch(text, -1) {
		beside = beside || ofOther.MatchString(m[0])
		for _, word := range m[1:] {
			if served, ok := servedWords[word]; ok {
				said = append(said, served)
			}
			atOnce = atOnce || slices.Contains(atOnceWords, word)
		}
	}
	served, sure := Hot, false
	switch {
	case len(said) > 0:
		served = said[len(said)-1]
		sure = !slices.ContainsFunc(said, func(other Served) bool { return other != served })
	case atOnce && cooked:
		sure = true // what was cooked and goes out at once is hot
	case warmName.MatchString(im.result.Name): // "Warm potato salad"
		served = Warm
	case cooledWords.MatchString(text), !cooked, strings.Contains(strings.ToLower(im.result.Name)+" "+text, "salad"):
		served = Cold
	}
	im.result.Served = served
	if !sure || beside {
		im.check("served", string(served), "hot | warm | cold")
	}
}

const servedWord = `(hot|piping hot|at once|immediately|straight ?away|right away|straight from the (?:oven|pan|grill)|steaming|warm|lukewarm|tepid|room temperature|cold|chilled|cool|well chilled)`

var atOnceWords = []string{"at once", "immediately", "straight away", "straightaway", "right away"}

var (
	servedWords = map[string]Served{"hot": Hot, "piping hot": Hot, "steaming": Hot,
		"straight from the oven": Hot, "straight from the pan": Hot, "straight from the grill": Hot, "warm": Warm, "lukewarm": Warm, "tepid": Warm, "room temperature": Warm,
		"cold": Cold, "chilled": Cold, "cool": Cold, "well chilled": Cold}
	servedSaid  = pattern.New(`\b(?:serv(?:e|es|ed|ing)|eat|eaten|enjoy|dish up|to the table|on the table|go out|best|good)\b[^.]{0,30}?\b` + servedWord + `\b(?:[^.]{0,14}\b(?:or|and) (?:at |just )?` + servedWord + `\b)?|(?:^|[.,] )` + servedWord + `[.!]?(?:$|\. )`)
	cooledWords = pattern.New(`\b(?:until (?:quite |completely )?cold|go(?:es)? (?:quite )?cold|keep (?:it )?cold|chill(?:ed)?|refrigerate|in the fridge|cool completely|(?:leave|left|allow(?:ed)?) to (?:cool|go cold)|let (?:it|them) (?:cool|go cold))\b`)
	warmName    = pattern.New(`(?i)\bwarm\b`)
	ofOther     = pattern.New(`\b(?:with|alongside|beside|over|on top|into|not|never|reheat)\b.*\b(?:hot|warm|cold|chilled|cool|room)`)
	leftovers   = pattern.New(`[^.]*\b(?:leftovers?|left over|keeps? (?:for|in|well)|store[ds]?|freez(?:e|es|er)|cool(?:ed)? (?:slightly|a little|a bit|for|down|enough)|cold water|hot (?:water|stock|oil|pan|oven|ring|grill)|warm (?:water|jars|place|oven))\b`)
)

// readPortions reads for how many the recipe is.
func (im *importer) readPortions() {
	if im.result.Portions = im.options.Portions; im.result.Portions > 0 {
		return
	}
	said := im.recipe.Of(saved.Yield)
	if len(said) == 0 {
		said = im.yieldInSteps()
	}
	if len(said) == 0 {
		said = im.yieldInNotes()
	}
	if len(said) == 0 && eachPerson.MatchString(im.recipe.Name) {
		said = []string{"for 1 person"}
	}
	text := strings.ReplaceAll(strings.ToLower(strings.Join(said, " ")), "makes enough for", "enough for")
	n, to := portionsIn(text)
	switch {
	case n == 0 && text == "":
		im.ask("portions", "", "the recipe does not say how many portions it makes", fmt.Sprintf("how many, from 1 to %d", MaxPortions))
	case n == 0:
		im.ask("portions", said[0], "this does not say how many portions", fmt.Sprintf("how many, from 1 to %d", MaxPortions))
	default:
		im.result.Portions = n
		if len(im.recipe.Of(saved.Yield)) == 0 {
			im.check("portions", strconv.Itoa(n), "read among its sentences")
		} else if to > n {
			im.check("portions", strconv.Itoa(n), fmt.Sprintf("%d to %d", n, to))
		} else if yieldOfPieces.MatchString(text) {
			im.check("portions", strconv.Itoa(n), "portions, if that counts pieces")
		} else if !onePortions(said) {
			im.check("portions", strconv.Itoa(n), "more than one number of portions")
		}
	}
}

var (
	countSaid     = pattern.New(`(\d+)(?:\s*(?:-|–|to|or)\s*(\d+))?`)
	yieldOfPieces = pattern.New(`(?i)\bmakes?\b|\b(?:loaf|loaves|jars?|cakes?|fritters?|pieces|patties|litres?|kg|g|ml)\b`)
	unitAfter     = pattern.New(`^\s*(?:x ?\d|g|kg|ml|l|litres?|pints?|cups?|oz|lb|cm|-?inch)\b`)
)

// eachPerson says in a title that the amounts are those of one: "Minted peas (per head)".
var eachPerson = pattern.New(`(?i)\bper (?:person|head)\b`)

// yieldInSteps is the sentence of the steps that says for how many they are: "Serve
// warm. Feeds 6."
func (im *importer) yieldInSteps() []string {
	var said []string
	for _, sentence := range im.sentences() {
		if yieldSentence.MatchString(strings.TrimRight(sentence, ".!")) {
			said = append(said, sentence)
		}
	}
	if len(said) != 1 {
		return nil // none, or one of several
	}
	return said
}

// yieldInNotes is the sentence of a title or a remark that says for how many they are:
// "Just for the two of us."
func (im *importer) yieldInNotes() []string {
	var said []string
	for _, line := range im.recipe.Lines[:min(len(im.recipe.Lines), mostSentences)] {
		if line.Role != saved.Note && line.Role != saved.Title && line.Role != saved.Heading {
			continue
		}
		for _, sentence := range sentencesOf(line.Text) {
			if sentence = strings.TrimRight(sentence, ".! "); yieldSentence.MatchString(sentence) || forPeople.MatchString(sentence) {
				said = append(said, sentence)
			}
		}
	}
	if len(said) != 1 {
		return nil // none, or one of several
	}
	return said
}

// forPeople says for how many people, anywhere in a sentence.
var forPeople = pattern.New(`(?i)\bfor (?:about |the )?(?:\d+(?:\s*(?:-|–|to|or)\s*\d+)?|two|three|four|five|six|eight|ten|twelve) (?:of (?:us|you)|round the table|(?:\pL+ )?(?:people|persons|eaters|adults|mouths))\b|\b\d+ ?(?:p|pp|pers)\.?$`)

var yieldSentence = pattern.New(`(?i)^(?:just |only )?for (?:the )?(?:\d+|two|three|four|five|six|eight|ten|twelve) (?:of (?:you|us)|(?:\pL+ )?(?:people|persons|eaters|adults|mouths))\b|(?:^|\bserve[sd]? [^.;]{0,30})(?:\b(?:to|for) (?:the )?(?:\d+|two|three|four|five|six|eight|ten|twelve)(?: people| persons| of us)?)(?:,.*)?$|^(?:(?:this |it |that )?(?:serves|feeds|makes|yields?|does|cuts into)|(?:(?:that|this|it)(?:[’']s| is|) |is )?(?:enough|sufficient|plenty) for) (?:about |approx\.? )?(?:\d+|two|three|four|five|six|seven|eight|nine|ten|twelve)(?:\s*(?:-|–|to|or)\s*\d+)?(?: (?:(?:big|large|small|good|generous|deep|hungry) )?(?:people|persons|eaters|adults|mouths|hungry|of us|portions?|servings?|helpings?|plates|platefuls|bowls|bowlfuls))?(?:(?:,| with| as| if| and| or| at| for| generously| comfortably| easily|;| –| -| \().*)?\.?$`)

// onePortions tells whether all that says for how many a recipe is says the same
// number, once.
func onePortions(said []string) bool {
	seen := map[string]bool{}
	for _, text := range said {
		for _, m := range countSaid.FindAllString(text, -1) {
			seen[m] = true
		}
		for _, word := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return c < 'a' || c > 'z' }) {
			if n := numberWords[word]; n > 0 {
				seen[strconv.Itoa(n)] = true
			}
			seen["half"] = seen["half"] || word == "half" || word == "double" || word == "each"
		}
	}
	if !seen["half"] {
		delete(seen, "half")
	}
	return len(seen) == 1
}

// ofPeople is a number of what people get.
var ofPeople = pattern.New(`\b\d+(?:\s*(?:-|–|to|or)\s*\d+)? (?:generous |good |small |large )?(?:servings?|portions?|people|persons|helpings?|adults)\b|\bserves (?:about )?\d+(?:\s*(?:-|–|to|or)\s*\d+)?`)

// portionsIn is the number of portions a text names, and the larger end of a
// range.
func portionsIn(text string) (n, to int) {
	text, _, _ = strings.Cut(text, "|")
	text = cmp.Or(ofPeople.FindString(text), text) // "2 loaves (16 servings)", "12 fritters (serves 4)"
	for _, m := range countSaid.FindAllStringSubmatchIndex(text, -1) {
		if unitAfter.MatchString(text[m[1]:]) {
			continue
		}
		n, _ = strconv.Atoi(text[m[2]:m[3]])
		if m[4] >= 0 {
			to, _ = strconv.Atoi(text[m[4]:m[5]])
		}
		if n < 1 || n > MaxPortions {
			return 0, 0
		}
		return n, to
	}
	words := strings.FieldsFunc(text, func(c rune) bool { return (c < 'a' || c > 'z') && c != '-' })
	for _, word := range words {
		if n := numberWords[word]; n > 0 {
			return n, 0
		}
	}
	if slices.Contains(words, "dozen") {
		return 12, 0
	}
	return 0, 0
}
