package recipes

import (
	"slices"
	"strings"
	"sync"
	"trencher/units/pattern"
	"unicode"
	"unicode/utf8"
)

// clause is one thing a recipe does: "fry the garlic in the butter for 1 minute".
type clause struct {
	text      string
	how, uses string // the way of cooking it speaks of; "" = none
	minutes   int    // the time it names
	until     string
	plain     bool // it only says "cook": how is taken from what stands around it
	unsure    bool // and nothing does
	last      bool // its minutes are the last of something that cooks already
	more      bool // its minutes come on top
	apart     bool // it begins something else: "meanwhile"
	things    []string
	elsewhere bool // what it speaks of goes to another thing than what cooked: "stir the flour into the leeks"
}

// imperatives are the words a clause begins with (ordinary English, no source).
var imperatives = wordSet(`add adding arrange bake baste beat blanch blend boil braise bring broil brown brush bubble bury char chill chop combine continue cook cool cover crumble crush cut
	dice discard dot drain dress drizzle drop dry finish flip fold fry give grate grill halve heat keep ladle lay layer leave let lift line lower mash melt mix move parboil peel place
	plunge poach pop pour press put reduce refrigerate remove reserve rest return rinse roast rub sauté saute scatter scoop scrape season serve set shake shred sieve simmer skim slice
	smash soak soften spoon spread sprinkle squeeze stand steam stew stir stir-fry strain sweat take tip top toss transfer trim turn warm wash whisk wilt wrap
	strew swirl tear snip thin sift divide pile stack tuck thread prick score crack uncover sear sizzle stuff fill shape form roll dip coat garnish decorate enjoy eat taste adjust repeat begin
	start use make prepare allow wait hold bung chuck whack shove plonk slosh glaze deglaze caramelise caramelize crisp drench bind carve`)

func wordSet(text string) func() map[string]bool {
	return sync.OnceValue(func() map[string]bool {
		set := map[string]bool{}
		for word := range strings.FieldsSeq(text) {
			set[word] = true
		}
		return set
	})
}

// joining are the words of a clause that puts something to what is there already.
var joining = wordSet(`add adding stir pour tip toss mix drizzle sprinkle scatter season fold crumble grate squeeze dot top spoon return spread dress cover finish splash combine throw baste brush shake dust drop strew swirl slosh bung chuck snip tear`)

var (
	clauseEnd    = pattern.New(`[,;:]$`)
	othersPan    = pattern.New(`(?i)\b(?:meanwhile|in the meantime|separately|for the (?:dressing|sauce|topping|crumb|garnish|dip|filling|pesto|salsa|gravy))\b|\bin (?:a|an)(?:other| separate| second| clean| different)\b|^while\b`)
	othersLeft   = pattern.New(`(?i)\b(?:the (?:rest|others|remainder)|everything else|the (?:other|remaining|rest of the) (?:ingredients|things|ones))\b`)
	newPan       = pattern.New(`(?i)\b(?:in|into|to) an? (?:[\pL-]+ ){0,3}(?:pan|saucepan|pot|frying pan|skillet|wok|bowl|jug)\b`)
	intoThe      = pattern.New(`(?i)\b(?:into|to|over|through) the (.+)$`)
	movedOn      = pattern.New(`(?i)^(?:and |then )*(?:put|place|lay|layer|arrange|transfer|tip|spoon|return|toss) (?:back |it |them |everything )?(?:in|into|on|onto|to|with|over|back)\b`)
	wholeLot     = pattern.New(`(?i)\b(?:everything|together|all|vegetables|veg|roots|greens|mixture|ingredients|slices|pieces|wedges|chunks|cubes|florets|halves|quarters|rounds|discs|strips|dice|chips|batons|parcels?|cakes|patties|fritters|lot)\b`)
	lastMinutes  = pattern.New(`(?i)\b(?:the|for) (?:last|final) (?:[\d–-]+|\pL+) min|\bmin(?:ute)?s? (?:before|from) (?:the end|they|it|serving)|\bwhen .{0,20}\bminutes? (?:left|to go)\b`)
	moreMinutes  = pattern.New(`(?i)\b(?:another|a further|further|more|longer|again|extra|additional|a final|a last)\b`)
	goingOn      = pattern.New(`(?i)^(?:\W*(?:then|and) )*(?:turn|cover|give|continue|return|lower|reduce|keep|flip|uncover|for|until|stir|\d)`)
	noHeat       = pattern.New(`(?i)\b(?:leave|stand|rest|resting|cool|chill|soak|marinate|steep|refrigerate|freeze|prove|rise|infuse|set aside|ready in|takes|whisk|beat|knead|blend|whizz|sit|salt)\b`)
	notOfHeat    = pattern.New(`(?i)\b(?:every|after(?: about| the first)?|first) (?:[\d½–-]+|\pL+)(?: (?:or so|to \d+))? ?min(?:ute)?s?\b`)
	eachSide     = pattern.New(`(?i)\b(?:each|per|either|every|a|both|on each|on both|on either) sides?\b`)
	fatAround    = pattern.New(`(?i)\b(?:butter|oil|fat|drippings?|lard|bacon fat|goose fat|ghee|frying pan|skillet|wok|kadai|karahi|tawa|wok)\b`)
	cookerAround = pattern.New(`(?i)\b(?:slow|pressure|multi)[- ]?cooker\b|\bmicrowave\b|\bair[- ]?fryer\b`)
	wetAround    = pattern.New(`(?i)\b(?:water|stock|broth|milk|boil|boiling|simmering)\b`)
	onlyCook     = pattern.New(`(?i)\bcook(?:s|ed|ing)?\b`)
)

// clauses are what the steps do, in their order.
func (im *importer) clauses() []clause {
	if im.acts != nil {
		return im.acts
	}
	all := []clause{}
	index := im.thingsNamed()
	before, verb := []string{}, ""
	for _, sentence := range im.sentences() {
		for i, text := range clausesOf(sentence) {
			if first := firstVerb(text); imperatives()[first] {
				verb = first
			} else if verb != "" && onlyThing.MatchString(text) {
				text = verb + " " + text
			}
			c := clauseOf(text, sentence, before, index)
			c.apart = i == 0 && othersPan.MatchString(text)
			all = append(all, c)
		}
		before = append(before, sentence)
	}
	im.acts = all
	return all
}

// onlyThing is a clause that leaves its verb to the one before: "tip in the tomatoes, then
// the beans".
var onlyThing = pattern.New(`^(?:the|your|some|half the|all the) \pL`)

// clauseOf reads a clause of a sentence, with the sentences before it.
func clauseOf(text, sentence string, before []string, index *phraseIndex[string]) clause {
	text = lastOnes.ReplaceAllString(text, "$1 minutes$2")
	c := clause{text: text, last: lastMinutes.MatchString(text), more: moreMinutes.MatchString(text), until: untilIn(text)}
	c.how, c.uses = wayIn(text)
	if c.how == "" && onlyCook.MatchString(notCooking.ReplaceAllString(text, " ")) {
		c.how, c.uses, c.plain, c.unsure = plainCooking(sentence, before)
	}
	if c.minutes = minutesIn(notOfHeat.ReplaceAllString(text, " ")); c.minutes > 0 && eachSide.MatchString(text) {
		c.minutes *= 2
	}
	c.things = index.in(text)
	if m := intoThe.FindStringSubmatch(text); m != nil {
		c.elsewhere = len(c.things) > len(index.in(m[1])) && len(index.in(m[1])) > 0
	}
	return c
}

// lastOnes are minutes that are not called so: "add the peas for the last 5".
var lastOnes = pattern.New(`(?i)\b(for the (?:last|final) (?:\d+|two|three|four|five|ten))([.,;)]|$)`)

// plainCooking is what "cook" means where nothing more is said: in the cooker, the
// fat or the water that stands around it, or stood there last; unsure where it is
// not of this sentence or the one before.
func plainCooking(sentence string, before []string) (how, uses string, plain, unsure bool) {
	whole := strings.Join(append(slices.Clone(before), sentence), " ")
	mixed := fatAround.MatchString(whole) && wetAround.MatchString(whole)
	around := append(slices.Clone(before[max(0, len(before)-mostAround):]), sentence)
	slices.Reverse(around)
	for i, around := range around {
		if cookerAround.MatchString(around) {
			return "own", "nothing", true, i > 1
		}
		switch fat, wet := fatAround.MatchString(around), wetAround.MatchString(around); {
		case fat && !wet:
			return "own", "ring", true, i > 1 || mixed
		case wet && !fat:
			return "boil", "ring", true, i > 1 || mixed
		}
	}
	return "boil", "ring", true, true
}

// mostAround is how many sentences back it is looked for what something cooks in.
const mostAround = 8

// clausesOf parts a sentence before each word that says what to do next.
func clausesOf(sentence string) []string {
	words := strings.Fields(sentence)
	var all []string
	start := 0
	for i := 1; i < len(words); i++ {
		before := strings.ToLower(words[i-1])
		initial, _ := utf8.DecodeRuneInString(words[i])
		if !imperatives()[strings.ToLower(strings.Trim(words[i], ",.;:()"))] || !unicode.IsUpper(initial) && !clauseEnd.MatchString(before) && before != "and" && before != "then" {
			continue
		}
		all = append(all, strings.Join(words[start:i], " "))
		start = i
	}
	return append(all, strings.Join(words[start:], " "))
}

// thingsNamed is an index of what the ingredients are called, but for those that
// go with anything.
func (im *importer) thingsNamed() *phraseIndex[string] {
	index := newPhraseIndex[string]()
	for _, l := range im.result.Lines {
		if l.As != AsOther && l.As != AsCrop || l.Read.Item == "" {
			continue
		}
		item := fold(l.Read.Item)
		last := item[strings.LastIndexByte(item, ' ')+1:]
		for _, name := range []string{item, last} {
			if len(name) > 2 && !basics[item] && !basics[last] {
				index.put(name, name)
			}
		}
	}
	return index
}

// about is what the clauses are speaking of.
type about uint8

const (
	nothingYet about = iota
	thisCrop
	somethingElse
)

// cookingOf reads how a crop is cooked: by the clauses that name it and those
// that go on from them, their minutes added up; where none does, by the whole
// method. loose tells that it is not certain to be said of this crop.
func (im *importer) cookingOf(d *cropDraft) (c Cooking, loose bool) {
	own, free, any, loose := im.cookedAsSaid(d)
	switch {
	case len(own) > 0 && len(free) > 0 && !slices.ContainsFunc(own, func(o cooked) bool { return o.how == free[0].how }):
		loose = true
	case len(own) == 0 && len(free) > 0:
		own, loose = free, true
	case len(own) == 0:
		own, loose = any, true
	}
	return oneWay(own), len(own) > 0 && (loose || im.doubtful(d, own))
}

// cookedAsSaid goes through the clauses: own is what is said of a crop, free what is
// said before anything is named, any all there is.
func (im *importer) cookedAsSaid(d *cropDraft) (own, free, any []cooked, loose bool) {
	names := cropWords(d)
	var at place
	for _, c := range im.clauses() {
		named := namesAny(c.text, names)
		at = at.next(c, named, d, len(own) == 0 && len(any) > 0)
		one := cooked{how: c.how, uses: c.uses, minutes: c.minutes, until: c.until}
		if c.how == "" {
			own, loose = goOn(own, any, c, at.of, named || at.joins && !c.last, loose)
			continue
		}
		any = append(any, one)
		switch {
		case c.last && named && firstNamed(c, names):
			own = []cooked{one}
		case c.last && at.of == thisCrop: // of something else that joins it
		case at.of == thisCrop:
			own = append(own, one)
			loose = loose || c.unsure || (at.joined || c.plain) && !named && waysOf(own) > 1
		case at.of == nothingYet:
			free = append(free, one)
		}
	}
	return own, free, any, loose
}

// place is how far one has come in the clauses, for one crop.
type place struct {
	of     about
	joins  bool // the crop was put to what cooks already
	joined bool // something else was put to it
}

// next is the place a clause leads to; late tells that something else cooks already,
// and the crop does not.
func (p place) next(c clause, named bool, d *cropDraft, late bool) place {
	p.of = turnTo(p.of, c, named, d)
	this := p.of == thisCrop
	p.joins = this && (p.joins || named && joining()[firstVerb(c.text)] && late)
	p.joined = this && (p.joined || c.joinsOther(named))
	return p
}

// joinsOther tells a clause that puts something else to what cooks.
func (c clause) joinsOther(named bool) bool {
	return !named && len(c.things) > 0 && joining()[firstVerb(c.text)]
}

// waysOf counts the ways of cooking of what was done.
func waysOf(own []cooked) int {
	ways := map[string]bool{}
	for _, one := range own {
		ways[one.how] = true
	}
	return len(ways)
}

// turnTo is what a clause speaks of, coming from what the one before did.
func turnTo(of about, c clause, named bool, d *cropDraft) about {
	first := firstVerb(c.text)
	others := slices.ContainsFunc(c.things, func(thing string) bool { return !slices.Contains(cropWords(d), thing) })
	switch {
	case named:
		return thisCrop
	case c.apart, othersLeft.MatchString(c.text):
		return somethingElse
	case others && movedOn.MatchString(c.text):
		return of
	case others && joining()[first] && !newPan.MatchString(c.text) && !c.elsewhere:
		return of
	case others:
		return somethingElse
	case wholeLot.MatchString(c.text):
		return thisCrop
	}
	return of
}

// firstVerb is the word that says what a clause does.
func firstVerb(clause string) string {
	word, _, _ := strings.Cut(clause, " ")
	return strings.ToLower(strings.Trim(word, ",.;:"))
}

// goOn takes the minutes of a clause that names no way of cooking: they go on with
// the one before, or they are no cooking at all; loose where it is not clear.
func goOn(own, any []cooked, c clause, of about, named, loose bool) ([]cooked, bool) {
	switch {
	case c.minutes == 0 || of != thisCrop || noHeat.MatchString(c.text):
	case named && (c.last || len(own) == 0) && len(any) > 0: // it goes into what cooks already
		before := any[len(any)-1]
		return []cooked{{how: before.how, uses: before.uses, minutes: c.minutes, until: c.until}}, loose
	case c.last:
	case len(own) == 0:
		loose = true
	case own[len(own)-1].minutes == 0:
		own[len(own)-1].minutes = c.minutes
	case c.more || goingOn.MatchString(c.text):
		own[len(own)-1].minutes += c.minutes
	default:
		return own, true
	}
	return own, loose
}

// firstNamed tells whether a crop is what a clause names first.
func firstNamed(c clause, names []string) bool {
	if len(c.things) == 0 {
		return true
	}
	return namesAny(c.things[0], names)
}
