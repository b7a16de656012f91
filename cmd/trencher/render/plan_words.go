package render

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/units"
)

// listed joins words as a sentence does: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// asideWords says why a lot is not planned on.
func asideWords(lot meal.Aside) string {
	switch {
	case lot.Because == meal.PastKeeping:
		return "past keeping: look it over, then weigh it again with `trencher reweigh`, or compost it"
	case lot.Condition == harvest.Green:
		return "green: bitter and poisonous, cooking does not help; throw them out"
	}
	return "rotten: throw them out, and keep them away from the sound ones"
}

// leftAdvice says what to do with what is left of a lot.
func leftAdvice(lot *harvest.Lot) string {
	switch {
	case lot.First:
		return "use today, or compost it"
	case !lot.KeepsUntil.IsZero():
		return "raw until about " + day(lot.KeepsUntil) + ", dark, cool and airy"
	}
	return "keep dark, cool and airy"
}

// Of more dishes than a screen holds, those that are not made for one reason
// stand in one row, by the first of them.
const (
	mostLeftOut = 12
	firstOnes   = 6
)

// leftOutRows are the dishes that are not made, and why.
func leftOutRows(all []meal.LeftOut) (rows []leftOutView) {
	if len(all) <= mostLeftOut {
		for _, out := range all {
			rows = append(rows, leftOutView{out.Dish, leftOutWords(out)})
		}
		return rows
	}
	var reasons []leftOutFor
	of := map[leftOutFor][]meal.LeftOut{}
	for _, out := range all {
		why := leftOutFor{out.Reason, out.Of, out.OnHand}
		if of[why] == nil {
			reasons = append(reasons, why)
		}
		of[why] = append(of[why], out)
	}
	for _, why := range reasons {
		rows = append(rows, leftOutRow(of[why]))
	}
	return rows
}

// leftOutFor is why dishes are not made, whatever each of them is short by.
type leftOutFor struct {
	reason planner.Reason
	of     string
	onHand bool
}

// leftOutRow is one row for dishes that are not made for one reason.
func leftOutRow(same []meal.LeftOut) leftOutView {
	var names []string
	for _, out := range same[:min(firstOnes, len(same))] {
		names = append(names, out.Dish)
	}
	text := strings.Join(names, ", ")
	if more := len(same) - firstOnes; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	out := same[0]
	if short := out.Reason == planner.TooLittle || out.Reason == planner.LimitReached; short && len(same) > 1 {
		return leftOutView{text, "too little " + out.Of + " for their smallest batches"}
	}
	return leftOutView{text, leftOutWords(out)}
}

// leftOutWords says in kitchen words why a dish is not made.
func leftOutWords(out meal.LeftOut) string {
	batch := fmt.Sprintf("its smallest batch, %s, wants %s more %s", portions(out.Smallest), shortWords(out), out.Of)
	switch out.Reason {
	case planner.NoLot:
		if out.OnHand {
			return "no " + out.Of + " on hand of the kind and sizes it wants"
		}
		return "no " + out.Of + " on hand"
	case planner.TooLittle:
		return batch
	case planner.LimitReached:
		return batch + " than the limit"
	case planner.SuitsNobody:
		return "suits nobody who eats"
	case planner.NoRoom:
		return "its smallest batch does not fit the steamer"
	case planner.NotNeeded:
		return "not needed: as many are fed, as well, without it"
	case planner.EnoughDishes:
		return "enough dishes without it"
	}
	return "what there is goes further without it"
}

// shortWords is what is short, up to what a kitchen weighs.
func shortWords(out meal.LeftOut) string {
	if out.Short == nil {
		return "some"
	}
	return amountWords(units.CeilTo(out.Short, big.NewRat(1, 1)), out.Unit)
}

// amountWords writes an amount with its unit; without one it is in grams.
func amountWords(amount *big.Rat, unit string) string {
	word := "g"
	if unit != "" {
		word = units.KitchenWord(unit)
	}
	if unit == pieceCode {
		word = "pieces"
	}
	return units.DecimalOf(amount).String() + " " + word
}

const pieceCode = "{piece}"

// shortfallWords says who is short, why, and what would mend it.
func shortfallWords(short meal.Shortfall) string {
	who := fmt.Sprintf("%d × %s: %s short", short.People, short.Guest.Label(), count(short.Helpings, "helping", "helpings"))
	if short.Suiting < short.Sides {
		var not []string
		for _, dish := range short.Not {
			not = append(not, dish.Dish+" ("+dish.Why+")")
		}
		if len(not) == 0 {
			return fmt.Sprintf("%s. Only %s there to choose from; another would mend it", who, count(short.Suiting, "dish is", "dishes are"))
		}
		return fmt.Sprintf("%s. Only %s; another dish that does would mend it. Not for them: %s",
			who, count(short.Suiting, "dish suits", "dishes suit"), strings.Join(not, "; "))
	}
	if short.Mend != nil {
		return who + ". " + capital(changeOf(short.Mend.Cause, short.Mend.Amount)) + " would mend it"
	}
	return who + ". No one change would mend it"
}

// mostDanger is how long a danger may be.
const mostDanger = 100

// mostNamed is how much of a dish's name a danger repeats, so that it stays
// within a line and a quarter of a terminal.
const mostNamed = 30

// lengthWords writes a length of time, up to the next minute: "1 h 25 min".
func lengthWords(d time.Duration) string {
	up := int((d + time.Minute - 1) / time.Minute)
	if up < 60 {
		return fmt.Sprintf("%d min", up)
	}
	return fmt.Sprintf("%d h %d min", up/60, up%60)
}

// cutWords says how a size is cut.
func cutWords(part meal.Part, cut meal.Cut) string {
	if cut.AsWritten {
		return part.Line.Cut
	}
	switch cut.Cut.Shape {
	case heat.Whole:
		return "whole"
	case heat.Halves:
		return "halved"
	case heat.Quarters:
		return "quartered"
	case heat.Cube:
		return fmt.Sprintf("diced to %s mm", whole(cut.PieceMM))
	}
	return "in eighths"
}

// unevenWords says how far apart the sizes end, and what would be more even; ""
// where they end together.
func unevenWords(part meal.Part) string {
	if part.IsUntimed() {
		return "how long " + part.Line.Crop + " steams is not known here: try a piece with a knife"
	}
	var words []string
	if early := part.Uneven.EarlyMinutes; early > 0 {
		words = append(words, fmt.Sprintf("the smallest pieces are done %d min early: take them out first", about(early)))
	}
	if late := part.Uneven.LateMinutes; late > 0 {
		words = append(words, fmt.Sprintf("the largest are %d min late", about(late)))
	}
	if dice := part.Uneven.DiceMM; dice > 0 {
		words = append(words, fmt.Sprintf("diced to %s mm, all end together", whole(dice)))
	}
	return strings.Join(words, "; ")
}

// allergenWords names what a dish contains and what it may contain.
func allergenWords(dish meal.Dish) (contains, may []string) {
	sure, perhaps := dish.Makeup.Allergens()
	for _, a := range sure {
		contains = append(contains, a.String())
	}
	if unknown := dish.Makeup.Unknown(); len(unknown) > 0 {
		return contains, []string{"anything (not in our table: " + listed(unknown) + ")"}
	}
	for _, a := range perhaps {
		may = append(may, a.String())
	}
	return contains, may
}

// dishCautions are what to mind with a dish at this size, and on its labels.
func dishCautions(p meal.Plan, dish meal.Dish) []string {
	cautions := append([]string(nil), dish.Scaled.Cautions...)
	cautions = append(cautions, dish.Recipe.Tell()...)
	for _, one := range p.Apart {
		if one.Dish == dish.Name() {
			cautions = append(cautions, portionApart(one))
		}
	}
	if p.Mode != meal.One {
		return cautions
	}
	if !dish.Scaled.Portions.IsInt() {
		cautions = append(cautions, fmt.Sprintf("scaled to all of the crop: %s portions", units.DecimalOf(dish.Scaled.Portions).Round(1)))
	}
	if dish.Portions > dish.Recipe.Largest || dish.Portions < dish.Recipe.Smallest {
		cautions = append(cautions, fmt.Sprintf("the dish file calls %d to %d portions worth making at once", dish.Recipe.Smallest, dish.Recipe.Largest))
	}
	return cautions
}

// tastingWords are the tasting notes on a dish.
func tastingWords(dish meal.Dish) []string {
	var words []string
	for _, note := range dish.Notes {
		words = append(words, day(note.At)+": "+note.Says)
	}
	return words
}

// togetherWith names what shares the steamer with a part.
func togetherWith(p meal.Plan, at meal.PartAt) []string {
	var words []string
	for _, run := range p.Runs {
		if len(run.Parts) < 2 || !contains(run.Parts, at) {
			continue
		}
		for _, other := range run.Parts {
			if other != at {
				words = append(words, partOfPlan(p, other).Line.Crop+" for "+p.Dishes[other.Dish].Name())
			}
		}
	}
	return words
}

func contains(parts []meal.PartAt, at meal.PartAt) bool {
	for _, part := range parts {
		if part == at {
			return true
		}
	}
	return false
}

func partOfPlan(p meal.Plan, at meal.PartAt) meal.Part { return p.Dishes[at.Dish].Parts[at.Part] }

// servedWord is how a dish comes to the table.
// What is meant cold and is not by the plan is called cool.
func servedWord(p meal.Plan, dish meal.Dish) string {
	if p.IsNotCold(dish.Name()) {
		return "cool"
	}
	return string(dish.Recipe.Served)
}

// lineWords is one ingredient in the words that every face uses.
type lineWords struct {
	Item     string // with its state: "chives, chopped"
	Measured string
	Exact    string // with its unit, where rounding moved it far enough to say
	Flag     bool   // it moved by more than a tenth
	Instead  []string
	Optional bool
	Advice   string
	FromPlot bool
	Dishes   []string // of a sum over the dishes
}

func scaledWords(line recipes.ScaledLine) lineWords {
	words := lineWords{Item: itemWords(line.Item, line.State), Measured: line.Measured.Text, Flag: line.Measured.Flag,
		Optional: line.Optional, FromPlot: line.FromPlot, Advice: joinNonEmpty("; ", line.Advice, line.Measured.Alternative)}
	if words.Measured == "" {
		words.Measured = line.Exact.String()
	}
	if line.Measured.Note || line.Measured.Flag {
		words.Exact = exactWords(asMeasured(line))
	}
	for _, instead := range line.Instead {
		words.Instead = append(words.Instead, instead.Measured.Text+" "+instead.Item)
	}
	return words
}

// asMeasured is the exact amount in the kitchen's own unit where its own is another
// of the same name: half a US cup beside cups of 250 ml.
func asMeasured(line recipes.ScaledLine) units.Quantity {
	own, kitchens := line.Exact.Unit(), line.Measured.Value.Unit()
	if own == kitchens || units.KitchenWord(own.Code()) != units.KitchenWord(kitchens.Code()) {
		return line.Exact
	}
	if same, err := line.Exact.In(kitchens); err == nil {
		return same
	}
	return line.Exact
}

func wantWords(want meal.Want) lineWords {
	words := lineWords{Item: itemWords(want.Item, want.State), Measured: want.Have.Text, Optional: want.Optional, Dishes: want.Dishes}
	if want.Exact.IsToTaste() {
		words.Measured = want.Exact.String()
	}
	if want.AndTaste {
		words.Measured += " and to taste"
	}
	return words
}

// itemWords names an ingredient with its state, unless its name says it.
func itemWords(item, state string) string {
	if strings.Contains(item, state) {
		return item
	}
	return item + ", " + state
}

// exactDigits are the digits of an exact amount, of a range both ends, and its
// unit's code; "" of what is to taste.
func exactDigits(q units.Quantity) (exact, low, high, unit string) {
	if !q.IsValid() || q.IsToTaste() {
		return "", "", "", ""
	}
	from, to := q.Ends()
	unit = q.Unit().Code()
	if q.IsRange() {
		return "", units.DecimalOf(from).String(), units.DecimalOf(to).String(), unit
	}
	return units.DecimalOf(from).String(), "", "", unit
}

// exactWords writes an exact amount as people say it: to two significant
// figures, from a hundred on to the whole unit. Its digits are for scripts.
func exactWords(q units.Quantity) string {
	_, low, _, unit := exactDigits(q)
	from, to := q.Ends()
	exact := peoplesNumber(from)
	if low != "" {
		exact += "–" + peoplesNumber(to)
	}
	return joinNonEmpty(" ", exact, units.KitchenWord(unit))
}

// asLifted is the preparation of a crop to which nothing is done.
const asLifted = recipes.AsLifted

// peoplesNumber writes a number to two significant figures, from ten on to the
// whole.
func peoplesNumber(r *big.Rat) string {
	x, _ := r.Float64()
	if math.Abs(x) >= 10 || x == 0 {
		return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-1)
	return strconv.FormatFloat(math.Round(x/step)*step, 'g', 2, 64)
}
