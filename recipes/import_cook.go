package recipes

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"trencher/recipes/saved"
)

// way is one way of cooking by the words a recipe uses for it.
type way struct {
	how, uses string
	words     *regexp.Regexp
}

// ways are the ways of cooking, the plainest words first. The words are ordinary
// English, no source.
var ways = []way{
	{"steam", "", regexp.MustCompile(`(?i)\bsteam(?:s|ed|er|ing)?\b`)},
	{"own", "oven", regexp.MustCompile(`(?i)\b(?:roast(?:s|ed|ing)?|bak(?:e|es|ed|ing)|oven)\b`)},
	{"own", "grill", regexp.MustCompile(`(?i)\b(?:grill(?:s|ed|ing)?|barbecue[ds]?|griddle[ds]?|broil(?:ed|ing)?|char(?:red)?)\b`)},
	{"own", "embers", regexp.MustCompile(`(?i)\b(?:embers|ashes|campfire)\b`)},
	{"own", "nothing", regexp.MustCompile(`(?i)\b(?:microwav(?:e|ed|ing)|pressure[- ]cook(?:er|ed)?|slow[- ]cook(?:er|ed)?)\b`)},
	{"own", "ring", regexp.MustCompile(`(?i)\b(?:fr(?:y|ies|ied|ying)|saut[ée](?:s|ed|ing)?|sweat(?:s|ed|ing)?|stir-?fr(?:y|ied|ying)|brown(?:ed|ing)?|stew(?:s|ed|ing)?|brais(?:e|ed|ing)|casserole|soften(?:s|ed|ing)?|wilt(?:s|ed|ing)?|gently cook)\b`)},
	{"blanch", "ring", regexp.MustCompile(`(?i)\bblanch(?:es|ed|ing)?\b`)},
	{"boil", "ring", regexp.MustCompile(`(?i)\b(?:(?:par-?)?boil(?:s|ed|ing)?|simmer(?:s|ed|ing)?|poach(?:es|ed|ing)?|cook(?:s|ed|ing)? (?:\w+ ){0,6}(?:in|with) (?:\w+ ){0,4}(?:water|stock|milk|broth)|salted water)\b`)},
	{"boil", "ring", regexp.MustCompile(`(?i)^(?:\W*cook)\b|\bcook (?:the|until|for|them|until)\b`)},
}

// notCooking are words that only sound like a way of cooking.
var notCooking = regexp.MustCompile(`(?i)\b(?:boiled (?:egg|water|kettle)s?|boiling water from|roasting (?:tin|tray|pan)|baking (?:powder|soda|tray|sheet|paper|parchment|dish|tin)|frying pan|bring (?:a|the) (?:\w+ )?pan of (?:\w+ )?water to (?:the|a) boil|(?:pre)?heat (?:the )?(?:oven|grill)[^.;]*|bring (?:\w+ ){0,6}to (?:the|a) boil|baked beans|grilled cheese|steamed rice|brown (?:sugar|rice|bread|onion|onions|sauce)|oven gloves)\b`)

var (
	minutesSaid = regexp.MustCompile(`(?i)\b(?:(\d+)\s*(?:-|–|to)\s*)?(\d+)(?:\s*½|\.5)?\s*-?\s*(minutes?|mins?\b\.?|hours?|hrs?\b\.?|h\b)(?:\s*(?:and\s*)?(\d+)\s*(?:minutes?|mins?))?`)
	anHour      = regexp.MustCompile(`(?i)\b(an hour and a half|1½ hours?|half an hour|three[- ]quarters of an hour|an hour|one hour|two hours)\b`)
	timeInWords = regexp.MustCompile(`(?i)\b(?:(two|three|four|five|six|eight|ten|twelve|fifteen|twenty|twenty-five|thirty|forty|forty-five|fifty) (?:or so )?min(?:ute)?s?)\b`)
)

var numberWords = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"a dozen": 12, "fifteen": 15, "twenty": 20, "twenty-five": 25, "thirty": 30, "forty": 40, "forty-five": 45, "fifty": 50}

// minutesIn is the first time a text names, in minutes, of a range the longer
// end; 0 where it names none.
func minutesIn(text string) int {
	best, at := 0, len(text)+1
	take := func(found []int, minutes int) {
		if found != nil && found[0] < at && minutes > 0 {
			best, at = minutes, found[0]
		}
	}
	if m := minutesSaid.FindStringSubmatchIndex(text); m != nil {
		n, _ := strconv.Atoi(text[m[4]:m[5]])
		if strings.HasPrefix(strings.ToLower(text[m[6]:m[7]]), "h") {
			n *= 60
			if strings.Contains(text[m[4]:m[6]], "½") || strings.Contains(text[m[4]:m[6]], ".5") {
				n += 30
			}
			if m[8] >= 0 {
				more, _ := strconv.Atoi(text[m[8]:m[9]])
				n += more
			}
		}
		take(m, n)
	}
	if m := anHour.FindStringIndex(text); m != nil {
		take(m, map[string]int{"an hour and a half": 90, "1½ hour": 90, "1½ hours": 90, "half an hour": 30, "three-quarters of an hour": 45, "three quarters of an hour": 45,
			"an hour": 60, "one hour": 60, "two hours": 120}[strings.ToLower(text[m[0]:m[1]])])
	}
	if m := timeInWords.FindStringSubmatchIndex(text); m != nil {
		take(m, numberWords[strings.ToLower(text[m[2]:m[3]])])
	}
	if best > mostOwnMinutes {
		return 0
	}
	return best
}

// cooked is one thing a recipe does to a crop over heat.
type cooked struct {
	how, uses string
	minutes   int
	until     string
}

// wayIn is the way of cooking a sentence speaks of; "" where it speaks of none.
func wayIn(sentence string) (how, uses string) {
	sentence = notCooking.ReplaceAllString(sentence, " ")
	best := len(sentence) + 1
	for _, w := range ways {
		if found := w.words.FindStringIndex(sentence); found != nil && found[0] < best {
			best, how, uses = found[0], w.how, w.uses
		}
	}
	return how, uses
}

// sentences are the sentences of the steps, in their order.
func (im *importer) sentences() []string {
	var all []string
	for _, l := range im.result.Lines {
		if l.As != AsStep || len(all) > mostSentences {
			continue
		}
		for _, one := range sentenceEnd.Split(l.Text, -1) {
			if one = strings.TrimSpace(one); one != "" {
				all = append(all, one)
			}
		}
	}
	return all
}

// mostSentences is how much of a method is read for how its crops are cooked.
const mostSentences = 150

var sentenceEnd = regexp.MustCompile(`[.;!?]\s+|[.;!?]$|, then |, and then `)

// cookingOf reads how a crop is cooked: by the sentences that name it and those
// that go on from them; where none names it, by the whole method. loose tells
// that it was not said of this crop.
func (im *importer) cookingOf(d *cropDraft) (c Cooking, loose bool) {
	names := cropWords(d)
	var own, any []cooked
	near := false // the sentence before named the crop
	for _, s := range im.sentences() {
		names := namesAny(s, names)
		how, uses := wayIn(s)
		if how == "" {
			if minutes := minutesIn(s); names && minutes > 0 && len(any) > 0 && len(own) == 0 { // "add the peas for the last 3 minutes"
				own = append(own, cooked{how: any[len(any)-1].how, uses: any[len(any)-1].uses, minutes: minutes, until: untilIn(s)})
			}
			near = names || near && pronoun.MatchString(s)
			if near && len(own) > 0 && own[len(own)-1].minutes == 0 {
				own[len(own)-1].minutes = minutesIn(s)
			}
			continue
		}
		one := cooked{how: how, uses: uses, minutes: minutesIn(s), until: untilIn(s)}
		any = append(any, one)
		if names || near && !im.namesOther(s, d) {
			own = append(own, one)
			near = true
			continue
		}
		near = false
	}
	said := own
	if len(said) == 0 {
		said, loose = any, true
	}
	for _, other := range any { // the dish is cooked in another way too: with the crop in it, or not
		loose = loose || !slices.ContainsFunc(said, func(c cooked) bool { return c.how == other.how && c.uses == other.uses })
	}
	return oneWay(said), loose && len(said) > 0
}

var pronoun = regexp.MustCompile(`(?i)\b(?:them|it|everything|all|vegetables|roots|cover|until|leave)\b`)

// oneWay is one way of cooking for what a recipe does one after the other: in
// one way its longest, in several the cook's own with all their minutes.
func oneWay(said []cooked) Cooking {
	var c Cooking
	longest := -1
	for _, one := range said {
		same := c.How == "" || c.How == one.how && c.Uses == one.uses
		if c.How == "" {
			c = Cooking{How: one.how, Uses: one.uses}
		}
		if c.Until == "" {
			c.Until = one.until
		}
		if !same {
			c.How = "own"
		}
		if one.minutes > longest {
			longest = one.minutes
			c.Uses = one.uses
		}
		c.Minutes += one.minutes
	}
	return c
}

func untilIn(sentence string) string {
	sentence = strings.ToLower(sentence)
	switch {
	case strings.Contains(sentence, "just tender"), strings.Contains(sentence, "al dente"), strings.Contains(sentence, "still has a bite"), strings.Contains(sentence, "with a bite"):
		return "just-tender"
	case strings.Contains(sentence, "very soft"), strings.Contains(sentence, "until soft"), strings.Contains(sentence, "completely soft"), strings.Contains(sentence, "falling apart"):
		return "soft"
	case strings.Contains(sentence, "tender"):
		return "tender"
	}
	return ""
}

// cropWords are the words a recipe names a crop by.
func cropWords(d *cropDraft) []string {
	names := []string{d.crop, fold(d.line.Read.Item), fold(d.line.Read.Food.Food.Family), fold(d.line.Read.Food.Food.Name)}
	if words := strings.Fields(fold(d.line.Read.Item)); len(words) > 0 {
		names = append(names, words[len(words)-1])
	}
	return names
}

// namesAny tells whether a sentence names one of several things, in the
// singular or the plural.
func namesAny(sentence string, names []string) bool {
	words := " " + plainWordsOf(sentence) + " "
	for _, name := range names {
		for _, form := range []string{name, name + "s", name + "es", strings.TrimSuffix(name, "s"), strings.TrimSuffix(name, "es")} {
			if len(form) > 2 && strings.Contains(words, " "+form+" ") {
				return true
			}
		}
	}
	return false
}

// namesOther tells whether a sentence names another ingredient and not this
// crop.
func (im *importer) namesOther(sentence string, d *cropDraft) bool {
	for _, l := range im.result.Lines {
		if l.As != AsOther && l.As != AsCrop || l.Number == d.line.Number || l.Read.Item == "" {
			continue
		}
		known := fold(l.Read.Item)
		last := known[strings.LastIndexByte(known, ' ')+1:]
		if !basics[known] && !basics[last] && !slices.Contains(cropWords(d), last) && namesAny(sentence, []string{known, last}) {
			return true
		}
	}
	return false
}

// basics go with any crop: a sentence that names them may still be about it.
var basics = map[string]bool{"salt": true, "water": true, "oil": true, "olive oil": true, "butter": true, "pepper": true, "vegetable oil": true, "salt and pepper": true, "stock": true, "vegetable stock": true, "milk": true}

// readDish reads what the recipe says of the dish as a whole.
func (im *importer) readDish() {
	im.result.Name = im.options.Name
	if im.result.Name == "" {
		im.result.Name = nameFor(im.recipe.Name, im.file)
	}
	im.readPortions()
	cooked := false
	for _, d := range im.crops {
		im.readCooking(d)
		cooked = cooked || d.cooking.How != "raw"
	}
	im.readServed(cooked)
}

// readCooking settles how one crop is cooked, and asks for minutes that the
// recipe does not give.
func (im *importer) readCooking(d *cropDraft) {
	if told, ok := im.options.Cook[d.crop]; ok {
		d.cooking, d.told = told, true
	} else {
		d.cooking, d.loose = im.cookingOf(d)
	}
	if d.cooking.How == "" {
		d.cooking, d.loose = im.unsaid(d), true
	}
	c := &d.cooking
	if c.How == "boil" || c.How == "blanch" || c.How == "own" {
		if c.Minutes == 0 && !d.told {
			c.Minutes = isoMinutes(im.recipe.CookTime)
			d.loose = d.loose || c.Minutes > 0
		}
		if c.Minutes == 0 {
			im.ask("cook", d.crop, fmt.Sprintf("%s: the recipe does not say for how many minutes", cookedWord(*c)), fmt.Sprintf("how long, as: %s=%s 20 min", d.crop, cookWord(*c)))
		}
	}
	if d.cut == "" {
		d.cut, d.sized = im.cutOf(d)
	}
}

// unsaid is how a crop is cooked where its recipe names no way: raw where it is
// eaten so in a dish that is not cooked, else steamed, to be checked.
func (im *importer) unsaid(d *cropDraft) Cooking {
	if how, uses := wayIn(im.recipe.Method); how != "" {
		return Cooking{How: how, Uses: uses}
	}
	if how, uses := wayIn(im.result.Name + " " + im.recipe.Name); how != "" {
		return Cooking{How: how, Uses: uses}
	}
	if _, may := EatenRaw(d.crop); may && len(im.sentences()) > 0 {
		return Cooking{How: "raw"}
	}
	return Cooking{How: "steam"}
}

// cookWord is a way of cooking as an answer has it: boil, blanch, oven, ring.
func cookWord(c Cooking) string {
	if c.How == "own" && c.Uses != "" {
		return c.Uses
	}
	return c.How
}

func cookedWord(c Cooking) string {
	return map[string]string{"boil": "boiled", "blanch": "blanched", "oven": "in the oven", "ring": "on a ring", "grill": "under the grill", "embers": "in the embers"}[cookWord(c)]
}

// cutOf finds the cut in the steps, where the crop's line does not say.
func (im *importer) cutOf(d *cropDraft) (cut string, sized bool) {
	for _, s := range im.sentences() {
		if !namesAny(s, cropWords(d)) || im.namesOther(s, d) {
			continue
		}
		if cut, sized := cutIn(cutVerbs.Replace(strings.ToLower(s))); cut != "" {
			return cut, sized
		}
	}
	return "", false
}

// cutVerbs turn what is done into what it becomes.
var cutVerbs = strings.NewReplacer("halve ", "halved ", "quarter ", "quartered ", "slice the", "sliced the", "slice them", "sliced them", "dice the", "diced the", "dice them", "diced them", "chop the", "chopped the", "cube the", "cubed the", "whole", "")

// isoMinutes reads a time of ISO 8601, "PT1H20M", in whole minutes; 0 where it is
// none, or longer than a dish takes.
func isoMinutes(text string) int {
	m := isoTime.FindStringSubmatch(strings.ToUpper(strings.TrimSpace(text)))
	if m == nil {
		return 0
	}
	hours, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2])
	if minutes += 60 * hours; minutes <= mostOwnMinutes {
		return minutes
	}
	return 0
}

var isoTime = regexp.MustCompile(`^P(?:0D)?T(?:(\d{1,3})H)?(?:(\d{1,4})M)?(?:\d+S)?$`)

// readServed settles how the dish comes to the table.
func (im *importer) readServed(cooked bool) {
	if im.result.Served = im.options.Served; im.result.Served != "" {
		return
	}
	text := strings.ToLower(im.result.Name + ". " + strings.Join(im.recipe.Of(saved.Step), ". "))
	served, sure := Hot, false
	switch {
	case coldWords.MatchString(text):
		served, sure = Cold, true
	case warmWords.MatchString(text):
		served, sure = Warm, true
	case hotWords.MatchString(text):
		served, sure = Hot, true
	case !cooked, strings.Contains(text, "salad"):
		served = Cold
	}
	im.result.Served = served
	if !sure {
		im.check("served", string(served), "hot | warm | cold")
	}
}

var (
	coldWords = regexp.MustCompile(`serve[sd]?\b[^.]{0,20}\b(?:cold|chilled)\b|\b(?:until cold|chill (?:until|for|before|well)|refrigerate|in the fridge|cool completely|leave to cool|let (?:it|them) cool)\b`)
	warmWords = regexp.MustCompile(`serve[sd]?\b[^.]{0,30}\b(?:warm|room temperature|lukewarm)\b`)
	hotWords  = regexp.MustCompile(`serve[sd]?\b[^.]{0,20}\b(?:hot|at once|immediately|straight away|steaming|piping)\b`)
)

// readPortions reads for how many the recipe is.
func (im *importer) readPortions() {
	if im.result.Portions = im.options.Portions; im.result.Portions > 0 {
		return
	}
	said := im.recipe.Of(saved.Yield)
	text := strings.ToLower(strings.Join(said, " "))
	n, to := portionsIn(text)
	switch {
	case n == 0 && text == "":
		im.ask("portions", "", "the recipe does not say how many portions it makes", fmt.Sprintf("how many, from 1 to %d", MaxPortions))
	case n == 0:
		im.ask("portions", said[0], "this does not say how many portions", fmt.Sprintf("how many, from 1 to %d", MaxPortions))
	default:
		im.result.Portions = n
		if to > n {
			im.check("portions", strconv.Itoa(n), fmt.Sprintf("%d to %d", n, to))
		} else if yieldOfPieces.MatchString(text) {
			im.check("portions", strconv.Itoa(n), "portions, if that counts pieces")
		}
	}
}

var (
	countSaid     = regexp.MustCompile(`(\d+)(?:\s*(?:-|–|to|or)\s*(\d+))?`)
	yieldOfPieces = regexp.MustCompile(`(?i)\bmakes?\b|\b(?:loaf|loaves|jars?|cakes?|fritters?|pieces|patties|litres?|kg|g|ml)\b`)
	unitAfter     = regexp.MustCompile(`^\s*(?:g|kg|ml|l|litres?|pints?|cups?|oz|lb|cm|-?inch)\b`)
)

// portionsIn is the number of portions a text names, and the larger end of a
// range.
func portionsIn(text string) (n, to int) {
	text, _, _ = strings.Cut(text, "|")
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
