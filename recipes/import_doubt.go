package recipes

import (
	"slices"
	"strconv"
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
)

// What a recipe was read as is held against its words once more here: where they
// say more than was understood of them, or could be parted otherwise, it is to be
// checked.

// checkWhole checks what is true of the whole recipe.
func (im *importer) checkWhole() {
	switch {
	case im.options.Name != "":
	case im.recipe.Name == "":
		im.check("name", im.result.Name, "the file's name; the recipe has none")
	case im.recipe.NameUnsure || len([]rune(im.recipe.Name)) > longestName || len(strings.Fields(im.recipe.Name)) > mostOfName:
		im.check("name", im.result.Name, "another line may be the title")
	}
	steps := 0
	for _, l := range im.result.Lines {
		if l.As == AsStep {
			steps++
		}
	}
	if im.recipe.StepsUnsure || steps == 0 {
		im.check("steps", strconv.Itoa(steps), "where one ends and the next begins is not marked")
	}
	if im.listed > 0 {
		im.check("ingredients", strconv.Itoa(len(im.recipe.Lines)-im.listed), "found in its sentences, and only those with an amount")
	}
	if im.recipe.ListUnsure {
		im.check("ingredients", strconv.Itoa(len(im.recipe.Of(saved.Ingredient))), "a line that begins with an amount was taken for the rest of a step")
	}
	im.ingredientsElsewhere()
	for _, crop := range im.cropsLeft() {
		im.check("crops", crop, "in the recipe, and not among its weighed crops")
	}
}

// ingredientsElsewhere doubts what was taken for a heading or a step, and reads as so
// much of a food that is known.
func (im *importer) ingredientsElsewhere() {
	for i := range im.result.Lines {
		l := &im.result.Lines[i]
		if l.Sure() && (l.As == AsHeading || l.As == AsStep) && saysHowMuch(l.Text, im.options.System) {
			l.doubt("line", l.Text, "taken for a "+l.As.String()+": it may be an ingredient", "what it is")
		}
	}
}

// saysHowMuch tells a few words that are a figure and what it is of.
func saysHowMuch(text string, s units.System) bool {
	if len(strings.Fields(text)) > mostOfPhrase || !strings.ContainsAny(text, "0123456789½¼¾⅓⅔") {
		return false
	}
	l := measures.ReadLine(text, s)
	return l.Kind == measures.Ingredient && l.Sure() && l.Known && l.Amount.IsValid() && !l.Amount.IsToTaste()
}

// mostOfName is how many words the name of a dish has at most before it looks like
// a sentence.
const mostOfName = 9

// cropsLeft are crops of this plot that the recipe names and the dish does not
// weigh: in a line without a weight or that was not understood, or in its steps
// alone.
func (im *importer) cropsLeft() []string {
	if im.options.Grown == nil {
		return nil
	}
	var left []string
	listed := map[string]bool{}
	for i := range im.result.Lines {
		l := &im.result.Lines[i]
		crop, weighed := im.cropListed(l)
		if listed[crop] = true; crop != "" && !weighed && im.grows(crop) {
			left = append(left, oneLine(l.Text))
		}
	}
	for _, crop := range im.options.Grown {
		if !listed[crop] && im.inStepsAlone(crop) {
			left = append(left, crop)
		}
	}
	return left
}

// cropListed is the crop of an ingredient's line, "" where it is none, and whether
// the line's share of the dish is settled: it is weighed, or too little to be.
func (im *importer) cropListed(l *ImportedLine) (crop string, weighed bool) {
	if l.As != AsCrop && l.As != AsOther {
		return "", true
	}
	if !l.Read.Known {
		return cropInside(l.Read.Item), false
	}
	crop, _ = cropOf(l.Read)
	d := cropDraft{line: l, crop: crop}
	d.weigh(measures.Default())
	return crop, l.As == AsCrop || d.weight.IsValid() || l.Read.Amount.IsToTaste()
}

// inStepsAlone tells whether the steps name a crop and no ingredient's line does:
// those that say "onions" may mean the spring onions of the list.
func (im *importer) inStepsAlone(crop string) bool {
	for _, l := range im.result.Lines {
		if (l.As == AsCrop || l.As == AsOther) && namesAny(fold(l.Text), []string{crop}) {
			return false
		}
	}
	return slices.ContainsFunc(im.sentences(), func(sentence string) bool { return namesAny(sentence, []string{crop}) })
}

// cropInside is the crop that the last words of an unknown name name.
func cropInside(item string) string {
	words := strings.Fields(fold(item))
	for i := max(0, len(words)-mostOfCrop); i < len(words); i++ {
		if crop, ok := measures.CropNamed(strings.Join(words[i:], " ")); ok {
			return crop.InKitchen().Name
		}
	}
	return ""
}

// mostOfCrop is how many words the name of a crop has at most.
const mostOfCrop = 4

var (
	timeUnit  = pattern.New(`(?i)(?:\b|\d)(?:min(?:ute)?s?|hours?|hrs?|h)\b|\d\s?['′’](?:\s|$|[.,;)])|\b(?:overnight|all day|all night)\b`)
	moreTimes = pattern.New(`(?i)\bin (?:two |three |several )?(?:batches|lots|goes)\b|\bthe same (?:time|again)\b|\bas (?:long|above|before)\b|\ba (?:few|couple)\b|\b(?:half|twice|double) the time\b`)
)

// unclear tells a clause whose times were not all understood: more of them than
// one, or one in words that were not read; or two ways of cooking to choose from.
func (c clause) unclear() bool {
	said := notOfHeat.ReplaceAllString(c.text, " ")
	times := len(timeSaid.FindAllString(tensAndOnes.Replace(said), -1))
	words := len(timeUnit.FindAllString(timeSaid.ReplaceAllString(tensAndOnes.Replace(said), " "), -1))
	return times > 1 || words > 0 || c.minutes > 0 && moreTimes.MatchString(c.text) || c.how != "" && strings.Contains(c.text, " or ") && waysIn(c.text) > 1
}

// ofUnnamed tells a clause that does something to what is no ingredient by its name:
// "toast the bread" where the list says sourdough.
func (c clause) ofUnnamed() bool {
	m := objectOf.FindStringSubmatch(c.text)
	return m != nil && len(c.things) == 0 && !notObjects.MatchString(m[1]) && !wholeLot.MatchString(m[1])
}

var (
	objectOf   = pattern.New(`(?i)^(?:then |and |now |next,? )*[\pL-]+ (?:the|your|a|an|some) ([\pL -]{3,30})`)
	notObjects = pattern.New(`(?i)^(?:rest|remaining|heat|oven|grill|pan|pot|lid|dish|tin|tray|water|stock|oil|butter|steamer|wok|skillet|casserole|ring|hob|barbecue|top|outside|cover|foil|boil|simmer|low|gentle|few|little|large|wide|small|heavy|hot)\b`)
)

// waysIn counts the ways of cooking a text speaks of.
func waysIn(text string) int {
	count := 0
	text = notCooking.ReplaceAllString(text, " ")
	for _, w := range ways {
		if w.words.MatchString(text) {
			count++
		}
	}
	return count
}

// doubtful tells whether the clauses leave open how long a crop cooks, though all
// that speak of it were understood: a time may be its own and was not counted, or
// it stands over heat for a time nobody tells.
func (im *importer) doubtful(d *cropDraft, own []cooked) bool {
	names := cropWords(d)
	of, seen := nothingYet, false
	var out outAndIn
	for _, c := range im.clauses() {
		named := namesAny(c.text, names)
		of = turnTo(of, c, named, d)
		seen = seen || named
		if of == thisCrop && out.isIn(c) {
			return true
		}
		if of == somethingElse && (!seen || c.apart || newPan.MatchString(c.text)) {
			continue
		}
		if of == thisCrop && c.mayBeOther(named) || of != thisCrop && c.mayBeThis(of, len(own) > 0) {
			return true
		}
	}
	return untold(own)
}

// outAndIn tells what was cooked, taken out and changed, and cooked again: "boil the
// beetroot whole for 40 minutes; cool and grate it; simmer for 20".
type outAndIn struct{ cooked, out bool }

// isIn reports whether a clause cooks it again, which it takes note of.
func (o *outAndIn) isIn(c clause) bool {
	switch {
	case c.how == "":
		o.out = o.cooked && (o.out || takesOut.MatchString(c.text))
		return false
	case o.out && c.minutes > 0:
		return true
	}
	o.cooked = o.cooked || c.minutes > 0
	return false
}

var takesOut = pattern.New(`(?i)\b(?:grate|mash|skins?|peel|slip)\b`)

// untold tells whether some of what is done over heat has a time and some has none,
// or there are more times than one adds up without asking.
func untold(own []cooked) bool {
	timed := 0
	places := map[string]bool{} // on a ring, then in the oven: only one is told of a dish
	for _, one := range own {
		if one.minutes > 0 {
			places[one.keepsBusy()] = true
			timed++
		}
	}
	return len(places) > 1 || timed > 0 && timed < len(own) || timed > mostTimes
}

// mayBeOther tells whether a clause that was taken to speak of the crop has times
// that were not all understood, or may speak of something else.
func (c clause) mayBeOther(named bool) bool {
	return (c.how != "" || c.minutes > 0) && c.unclear() || !named && c.minutes > 0 && c.how != "" && c.ofUnnamed()
}

// mayBeThis tells whether a clause that was not taken to speak of the crop may be
// about it too: over heat beside it, or for a time of no named thing.
func (c clause) mayBeThis(of about, haveOwn bool) bool {
	switch {
	case c.minutes > 0 && c.how != "" && haveOwn:
		return true
	case of == nothingYet:
		return (c.how != "" || c.minutes > 0) && c.unclear() || c.minutes > 0 && c.how != "" && c.ofUnnamed()
	}
	return c.minutes > 0 && len(c.things) == 0 && !noHeat.MatchString(c.text)
}

// mostTimes is how many times of one crop are added up without asking.
const mostTimes = 3
