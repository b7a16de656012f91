package recipes

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trencher/units/measures"
	"trencher/units/pattern"
)

// way is one way of cooking by the words a recipe uses for it.
type way struct {
	how, uses string
	words     *pattern.Pattern
}

// ways are the ways of cooking, the plainest words first. The words are ordinary
// English, no source.
var ways = []way{
	{"steam", "", pattern.New(`(?i)\bsteam(?:s|ed|er|ing)?\b`)},
	{"own", "oven", pattern.New(`(?i)\b(?:roast(?:s|ed|ing)?|bak(?:e|es|ed|ing)|oven)\b`)},
	{"own", "grill", pattern.New(`(?i)\b(?:grill(?:s|ed|ing)?|barbecue[ds]?|griddle[ds]?|broil(?:ed|ing)?|char(?:red)?)\b`)},
	{"own", "embers", pattern.New(`(?i)\b(?:embers|ashes|campfire)\b`)},
	{"own", "nothing", pattern.New(`(?i)\b(?:microwav(?:e|ed|ing)|pressure[- ]cook(?:er|ed)?|slow[- ]cook(?:er|ed)?)\b`)},
	{"own", "ring", pattern.New(`(?i)\bsauté|\b(?:fr(?:y|ies|ied|ying)|saut[eé](?:s|ed|ing)|saute|sweat(?:s|ed|ing)?|stir-?fr(?:y|ied|ying)|brown(?:ed|ing)?|stew(?:s|ed|ing)?|brais(?:e|ed|ing)|casserole|soften(?:s|ed|ing)?|wilt(?:s|ed|ing)?|gently cook)\b`)},
	{"blanch", "ring", pattern.New(`(?i)\bblanch(?:es|ed|ing)?\b`)},
	{"boil", "ring", pattern.New(`(?i)\b(?:(?:par-?)?boil(?:s|ed|ing)?|simmer(?:s|ed|ing)?|bubbl(?:e|es|ed|ing)|poach(?:es|ed|ing)?|cook(?:s|ed|ing)? (?:\w+ ){0,6}(?:in|with) (?:\w+ ){0,4}(?:water|stock|milk|broth)|salted water)\b`)},
}

// notCooking are words that only sound like a way of cooking.
var notCooking = pattern.New(`(?i)\b(?:boiled (?:egg|water|kettle)s?|boiling water from|roasting (?:tin|tray|pan)|baking (?:powder|soda|tray|sheet|paper|parchment|dish|tin)|frying pan|bring (?:a|the) (?:\w+ )?pan of (?:\w+ )?water to (?:the|a) boil|(?:pre)?heat (?:the )?(?:oven|grill)[^.;]*|^(?:the )?oven (?:on|to|at|set|temp\S*|(?:gas )?mark|gas|\d)[^.;]*|bring (?:\w+ ){0,6}to (?:the|a) boil|until (?:[\w-]+ ){0,4}(?:charred|browned|brown|bubbling|boiling|simmering|steaming)|baked beans|grilled cheese|steamed rice|brown (?:sugar|rice|bread|onion|onions|sauce)|oven gloves)\b`)

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
	switch {
	case how == "" || how == "steam":
	case inOven.MatchString(sentence):
		return "own", "oven" // braised, stewed, fried: where it says the oven, there
	case inCooker.MatchString(sentence):
		return "own", "nothing"
	}
	return how, uses
}

var inCooker = pattern.New(`(?i)\b(?:in|with|under) (?:the |a )?(?:microwave|pressure|slow)[- ]?(?:cooker)?\b`)

var inOven = pattern.New(`(?i)\bin (?:the|a) (?:\w+ ){0,3}oven\b`)

// sentences are the sentences of the steps, in their order.
func (im *importer) sentences() []string {
	var all []string
	for _, l := range im.result.Lines {
		if l.As != AsStep || len(all) > mostSentences {
			continue
		}
		for _, one := range sentencesOf(l.Text) {
			if one = strings.TrimSpace(one); one != "" {
				all = append(all, one)
			}
		}
	}
	return all
}

// sentencesOf parts a step where a sentence ends, but not behind a word cut short.
func sentencesOf(step string) []string {
	step = strings.ReplaceAll(step[:min(len(step), mostOfStep)], " & ", " and ")
	return sentenceEnd.Split(shortWord.ReplaceAllString(step, "$1$2"), mostSentences)
}

// mostSentences is how much of a method is read for how its crops are cooked.
const mostSentences = 150

// mostOfStep is how much of one step is read for it, in bytes.
const mostOfStep = 10_000

// shortWord is a word cut short inside a sentence: "1 hr. 10 min. or until set".
var shortWord = pattern.New(`\b((?i:hrs?|mins?|secs?|approx|oz|lbs?|tsps?|tbsps?|pkg|qts?|pts?|ins?|deg|temp|mod|c|t))\.( +[\da-z])`)

var sentenceEnd = pattern.New(`[.;!?]\s+|[.;!?]$|, then |, and then `)

// keepsBusy is what a way of cooking takes: steam a ring.
func (c cooked) keepsBusy() string {
	if c.how == "steam" {
		return "ring"
	}
	return c.uses
}

// oneWay is one way of cooking for what a recipe does one after the other: in
// one way its longest, in several the cook's own with all their minutes.
func oneWay(said []cooked) Cooking {
	var c Cooking
	longest := -1
	for _, one := range said {
		switch {
		case c.How == "":
			c = Cooking{How: one.how, Uses: one.uses}
		case c.How != one.how || c.Uses != one.uses && c.Uses != one.keepsBusy():
			c.How = "own"
		}
		c.Until = cmp.Or(c.Until, one.until)
		if one.minutes > longest {
			longest, c.Uses = one.minutes, one.keepsBusy()
		}
		c.Minutes += one.minutes
	}
	if c.Minutes > mostOwnMinutes {
		c.Minutes = 0 // more than a step may take: the cook says how long
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
	if crop, ok := measures.CropNamed(d.crop); ok {
		for _, name := range crop.Names {
			names = append(names, fold(name))
		}
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
	own := cropWords(d)
	for _, l := range im.result.Lines {
		if l.As != AsOther && l.As != AsCrop || l.Number == d.line.Number || l.Read.Item == "" {
			continue
		}
		known := fold(l.Read.Item)
		last := known[strings.LastIndexByte(known, ' ')+1:]
		if !basics[known] && !basics[last] && !slices.Contains(own, last) && namesAny(sentence, []string{known, last}) {
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
	im.checkCrop(d)
}

// checkCrop lists what was taken of a crop that its recipe does not settle.
func (im *importer) checkCrop(d *cropDraft) {
	if said := weighedOtherwise.FindString(d.said()); d.prepared != "" {
		im.check("prepared", d.crop+" "+d.prepared, "weighed so, or as lifted")
	} else if said != "" {
		im.check("prepared", d.crop+" "+AsLifted, "the recipe says "+strings.ToLower(said))
	}
	if d.loose {
		how := cookWord(d.cooking)
		if d.cooking.Minutes > 0 {
			how += fmt.Sprintf(" %d min", d.cooking.Minutes)
		}
		im.check("cook", d.crop+" "+how, "steam, boil, blanch, raw, or own minutes")
	}
	if d.cut != "" && !d.sized {
		im.check("cut", d.crop+" "+d.cut, "its size is ours")
	}
}

// weighedOtherwise are words of a weight that is not the one it was lifted with, where no
// table says how much less that is.
var weighedOtherwise = pattern.New(`(?i)\b(?:(?:cooked|prepared|cleaned|net|edible|drained) weight|peeled|pared|cored|cooked|podded|shelled)\b`)

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
		if cut, sized := cutDone(s); cut != "" {
			return cut, sized
		}
	}
	for _, s := range im.sentences() {
		if said := cutAll.FindString(s); said != "" {
			if cut, _ = cutDone(said); cut == "" {
				cut, _ = cutIn("chopped")
			}
			return cut, false // to be checked: all is much
		}
	}
	return "", false
}

// cutDone is the cut that a sentence tells to make.
func cutDone(sentence string) (cut string, sized bool) {
	return cutIn(cutVerbs.Replace(choppingVerbs.ReplaceAllString(strings.ToLower(sentence), "${1}${2}d")))
}

// cutAll tells to cut all there is: "Chop everything."
var cutAll = pattern.New(`(?i)\b(?:chop|slice|dice|cube|halve|quarter|cut)\b[^.;]{0,20}\b(?:everything|(?:all )?(?:the |your )?(?:veg|veggies|vegetables|roots))\b[^.;]{0,40}`)

// cutVerbs and choppingVerbs turn what is done into what it becomes.
var (
	cutVerbs      = strings.NewReplacer("halve ", "halved ", "quarter ", "quartered ", "chopd", "chopped", "whole", "")
	choppingVerbs = pattern.New(`\b(?:(slice|dice|cube)|(chop))\b`)
)

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

var isoTime = pattern.New(`^P(?:0D)?T(?:(\d{1,3})H)?(?:(\d{1,4})M)?(?:\d+S)?$`)
