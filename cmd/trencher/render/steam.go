package render

import (
	"fmt"
	"io"
	"math"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/heat"
)

// SteamText writes a steaming answer at 80 columns, the minutes first.
func SteamText(w io.Writer, a ask.SteamAnswer, why bool) error {
	var p page
	if a.Found != nil {
		p.wrapped("", fmt.Sprintf("Written down in %s: %s.", a.Found.File, TestWords(*a.Found)))
		p.gap()
	}
	steamParts(&p, a)
	learnedPart(&p, a)
	p.gap()
	for _, text := range a.Cautions {
		p.wrapped("! ", text)
	}
	if len(a.Assumed) > 0 && why {
		p.heading("Assumed")
		for _, text := range a.Assumed {
			p.wrapped("  ", text)
		}
	}
	reasons(&p, a.Reasons(), why)
	return p.writeTo(w)
}

// steamParts writes what was asked for of an answer, one after another.
func steamParts(p *page, a ask.SteamAnswer) {
	if a.Estimate != nil {
		estimatePart(p, *a.Estimate, "")
	}
	if a.Estimate != nil && a.Load == nil {
		p.wrapped("  ", fmt.Sprintf("Reckoned for %.0f g in the steamer; --load for another weight.", heat.DefaultLoadGrams))
	}
	if len(a.Whole) > 0 {
		wholePart(p, a.Whole)
	}
	if a.Load != nil {
		loadPart(p, *a.Load)
	}
	if a.Load != nil && a.Load.Series != nil {
		tiersPart(p, *a.Load.Series)
	}
	if a.Plan != nil {
		cutsPart(p, *a.Plan)
	}
	if len(a.Table) > 0 {
		sizesPart(p, a.Table)
	}
	if a.Cooling != nil {
		coolingPart(p, *a.Cooling)
	}
}

// estimatePart says how long; how is the way of cooking where it is not steam:
// "boiled ".
func estimatePart(p *page, e heat.Estimate, how string) {
	p.wrapped("", fmt.Sprintf("%s, %s, %suntil %s", capital(e.Crop.Title()), e.Cut, how, e.Doneness))
	for _, text := range timeWords(e) {
		p.wrapped("  ", text)
	}
	p.wrapped("  ", styleWords(e.Doneness))
	if text := outerWords(e); text != "" {
		p.wrapped("  ", text)
	}
	for _, text := range e.Outside {
		p.wrapped("  outside the checked range: ", text)
	}
	for _, text := range e.Notes {
		p.wrapped("  ", capital(text)+".")
	}
}

// timeWords are how long, by the clock there is, and what else a cook may want to
// know of it.
func timeWords(e heat.Estimate) []string {
	minutes, low, high := e.Clock()
	answer := fmt.Sprintf("%s from %s. Test with a knife from %s; it may take %s.", minutesFine(minutes), sinceWords(e), knifeFromFine(low), upToFine(high))
	when := "Full steam comes %s after putting them in"
	medium := "Steam at"
	switch {
	case e.Simmering:
		when, medium = "The water simmers again %s after putting them in", "Water at"
	case e.Method == heat.Boiling:
		when, medium = "The water boils again %s after putting them in", "Water at"
	}
	rest := ""
	if e.FreeFirst {
		soon := minutesFine(e.ComeUp)
		if e.ComeUp < atOnceMinutes {
			soon = "less than half a minute"
		}
		rest = fmt.Sprintf(when+": %s in all, %s to %s. ", soon, minutesFine(e.FromLoading), knifeFromFine(e.FromLoadingLow), upToFine(e.FromLoadingHigh))
	}
	rest += fmt.Sprintf("%s %.1f °C, the centre at %.0f °C when done. A piece 1 mm thicker takes %.1f min more.", medium, e.SteamC, e.CentreC, e.PerMM)
	return []string{answer, rest}
}

// atOnceMinutes is what rounds to no half minute.
const atOnceMinutes = 0.25

// styleWords is what the doneness means: who prints such minutes.
func styleWords(d heat.Doneness) string {
	switch d {
	case heat.Tender:
		return "Tender as household bulletins print it; leaflets of today stop sooner, tables of 1940 to 1975 go on longer."
	case heat.Soft:
		return "Soft as home-economics tables of 1940 to 1975 and catering cards print it; leaflets of today stop much sooner."
	}
	return "Just tender as leaflets of today print it; household bulletins go on longer (--until tender)."
}

// outerWords is how the outside fares; "" where there is nothing to mind.
func outerWords(e heat.Estimate) string {
	switch e.Outer.Says {
	case heat.Softer:
		return "The outside will be softer than the middle."
	case heat.PastSoft:
		if e.Simmering {
			return "The outside will be well past soft: halve them."
		}
		return "The outside will be well past soft: halve them, or boil them at 92 to 95 °C (trencher boil --simmer)."
	case heat.CutIt:
		return "The outside will be far past soft before the middle is done: cut them."
	}
	return ""
}

// tiersPart says when each tier is done.
func tiersPart(p *page, t heat.Tiers) {
	p.heading("Tier by tier, from putting in")
	for i, e := range t.Estimates {
		p.row("  ", 14, tierName(i, len(t.Estimates)), fmt.Sprintf("%s (%s to %s)", minutesFine(e.FromLoading), knifeFromFine(e.FromLoadingLow), upToFine(e.FromLoadingHigh)))
	}
	p.wrapped("  ", "The steam comes to the lowest first: put the larger pieces there, or take that tier out when it is done.")
	if t.SwapAt > 0 {
		p.wrapped("  ", fmt.Sprintf("Or let the lowest and the uppermost change places after %s: then both end together.", minutesFine(t.SwapAt)))
	}
}

func tierName(i, of int) string {
	switch i {
	case 0:
		return "1, lowest"
	case of - 1:
		return fmt.Sprintf("%d, uppermost", of)
	}
	return fmt.Sprint(i + 1)
}

// wholePart says up to which size they may stay whole.
func wholePart(p *page, sizes []heat.WholeSize) {
	var words []string
	for _, size := range sizes {
		if size.LargestMM > 0 {
			words = append(words, fmt.Sprintf("%s up to %.0f mm", donenessWords(size.Doneness), size.LargestMM))
		}
	}
	if len(words) > 0 {
		p.wrapped("  ", "Whole ones stay even, inside and out: "+listed(words)+".")
	}
}

// loadPart says what a load takes.
func loadPart(p *page, l heat.Load) {
	p.heading(fmt.Sprintf("%.0f g in this steamer", l.Grams))
	p.wrapped("  ", layersWords(l))
	p.wrapped("  ", fmt.Sprintf("Water %s, %s to the boil. %s in all.", millilitres(l.WaterML), minutes(l.ToBoil), capital(minutes(l.TotalMinutes))))
	if l.Rounds > 1 {
		p.wrapped("  ", "The water is for all rounds; if the pan holds less, top up with boiling water between them.")
	}
	if l.GasG > 0 {
		p.wrapped("  ", fmt.Sprintf("Gas: about %.0f g of %s, up to %.0f g if it takes its longest. A canister fades when it is cold.", l.GasG, l.Fuel, l.GasLongestG))
	}
}

func layersWords(l heat.Load) string {
	text := fmt.Sprintf("%s, %s. One layer holds %.0f g (%s).", count(l.Layers, "layer", "layers"),
		count(l.Rounds, "round", "rounds"), l.GramsPerLayer, count(l.PiecesPerLayer, "piece", "pieces"))
	switch {
	case l.Heaped:
		text += " Heaped: the last pieces see steam late and touch, so all of it takes longer and cooks unevenly."
	case l.Rounds > 1:
		text += fmt.Sprintf(" Fill %.0f g a round, over %s.", l.GramsPerRound, count(l.Tiers, "tier", "tiers"))
	case l.Layers > 1:
		text += fmt.Sprintf(" Spread %.0f g on each.", l.GramsOnEach)
	}
	return text
}

// cutsPart says how to cut sizes for one time.
func cutsPart(p *page, plan heat.CutPlan) {
	p.heading(fmt.Sprintf("Cut so that all end together: %s from full steam (%s to %s)", minutesFine(plan.Minutes), knifeFromFine(plan.Low), upToFine(plan.High)))
	cutRules(p, plan.Rules)
	if plan.Even {
		p.wrapped("  ", "All within a tenth of each other.")
	}
	for _, note := range plan.Notes {
		p.wrapped("  ", capital(note)+".")
	}
	if len(plan.Quick) > 1 && !plan.QuickEven.Even {
		p.line("  " + fmt.Sprintf("Quicker, less even (-%.0f to +%.0f %%):", plan.QuickEven.Early, plan.QuickEven.Late))
		cutRules(p, plan.Quick)
	}
	if !plan.Even && len(plan.Close) > 0 && len(plan.Rules) > 1 {
		var close []string
		for _, rule := range plan.Close {
			close = append(close, fmt.Sprintf("%.0f-%.0f mm %s", rule.FromMM, rule.ToMM, doneWords(rule.Cut)))
		}
		p.wrapped("  ", "Even within a tenth: "+listed(close)+".")
	}
}

func cutRules(p *page, rules []heat.CutRule) {
	for _, rule := range rules {
		p.row("  ", 14, fmt.Sprintf("%.0f to %.0f mm", rule.FromMM, rule.ToMM),
			fmt.Sprintf("%s (%s)", orderWords(rule.Cut), spanWords(minutesFine(rule.Shortest), minutesFine(rule.Longest))))
	}
}

// spanWords is a span from one time to another, or the one time.
func spanWords(from, to string) string {
	if from == to {
		return from
	}
	return from + " to " + to
}

// orderWords is what to do to a tuber; a cut to a size is its own order.
func orderWords(c heat.Cut) string {
	switch c.Shape {
	case heat.Whole:
		return "leave whole"
	case heat.Halves:
		return "halve"
	case heat.HalvesAcross:
		return "halve across"
	case heat.Quarters:
		return "quarter"
	case heat.Eighths:
		return "quarter, then cut across"
	case heat.Wedges:
		return "cut in eight wedges"
	}
	return c.String()
}

// doneWords is what has been done to it.
func doneWords(c heat.Cut) string {
	switch c.Shape {
	case heat.Halves:
		return "halved"
	case heat.Quarters:
		return "quartered"
	case heat.Eighths:
		return "in eighths"
	}
	return c.Shape.String()
}

// sizesPart is the table by size.
func sizesPart(p *page, rows []heat.SizeRow) {
	first := rows[0].By[0]
	p.heading(fmt.Sprintf("%s, %s, minutes from full steam (from - to)", capital(first.Crop.Title()), first.Cut.Shape))
	p.line("  " + pad("size", 8) + padLeft("just tender", 17) + padLeft("tender", 17) + padLeft("soft", 17) + padLeft("full steam", 13))
	for _, row := range rows {
		line := "  " + padLeft(whole(row.SizeMM)+" mm", 8)
		for _, e := range row.By {
			expected, from, to := MinutesCell(e)
			line += padLeft(fmt.Sprintf("%d (%d-%d)", expected, from, to), 17)
		}
		p.line(line + padLeft(fmt.Sprintf("+%.1f", row.By[0].ComeUp), 13))
	}
}

// coolingPart says how long to cool.
func coolingPart(p *page, c heat.Cooling) {
	p.heading("Cooling, " + coolingWords(c))
	p.wrapped("  ", fmt.Sprintf("Cool enough to dress (%.0f °C): %s.", c.DressC, untilWords(c.DressExpected, c.DressLatest)))
	text := fmt.Sprintf("Ready for the cold (%.0f °C): %s", c.FridgeC, untilWords(c.FridgeExpected, c.FridgeLatest))
	switch c.Then {
	case heat.FridgeAir:
		text += fmt.Sprintf("; then %s to %.0f °C in the fridge", minutes(c.ChilledLatest), c.ChilledC)
	case heat.BoxAir:
		text += fmt.Sprintf("; then %s to %.0f °C in the box with ice", minutes(c.ChilledLatest), c.ChilledC)
	case heat.IceWater:
		text += fmt.Sprintf("; %s to %.0f °C, still in it", minutes(c.ChilledLatest), c.ChilledC)
	}
	p.wrapped("  ", text+".")
	if c.IceG > 0 {
		p.wrapped("  ", fmt.Sprintf("Ice: %.0f g at least; move them about.", math.Ceil(c.IceG/10)*10))
	}
	for _, note := range c.Notes {
		p.wrapped("  ", capital(note)+".")
	}
}

// coolingWords is what pieces cool in, and how they lie.
func coolingWords(c heat.Cooling) string {
	switch {
	case c.In == heat.ColdWater && c.Deep:
		return "in a bowl that stands in cold water"
	case c.In == heat.ColdWater:
		return "in cold water that runs or is changed"
	case c.In == heat.IceWater && c.Deep:
		return "in a bowl that stands in ice water"
	case c.In == heat.IceWater:
		return "in ice water"
	case c.Deep:
		return "in a heap"
	}
	return "spread in one layer"
}

// untilWords is an expected time and the latest.
func untilWords(expected, latest float64) string {
	if latest-expected < atOnceMinutes {
		return minutes(latest)
	}
	return fmt.Sprintf("%s, at the latest %s", minutes(expected), minutes(latest))
}

// TestWords is a knife test as it was written down, to the minutes as typed.
func TestWords(t ask.WrittenTest) string {
	return fmt.Sprintf("%s, %s, %s after %g min", t.Entry.Crop, t.Entry.Cut, saidWords(*t.Entry), t.Entry.Minutes)
}

// saidWords is what a knife said: "tender", "not yet tender", "over tender".
func saidWords(e harvest.Steamed) string {
	if e.Said == "" {
		return e.Until
	}
	return strings.ReplaceAll(e.Said, "-", " ") + " " + e.Until
}

// learnedPart says how many knife tests the times rest on.
func learnedPart(p *page, a ask.SteamAnswer) {
	p.gap()
	l := a.Learned
	if l.Tests == 0 {
		p.wrapped("", "No knife tests yet: printed times for one piece differ widely, so test with a knife and write it down with --found.")
		return
	}
	p.wrapped("", learnedWords(l))
}

// learnedWords is what this kitchen's knife tests made of the time.
func learnedWords(l heat.Learned) string {
	text := fmt.Sprintf("Rests on %s in this kitchen: it takes %.2f times the reckoned time (%.2f to %.2f), done after %.2f times the usual cooking, by a clock %s.",
		count(l.Tests, "knife test", "knife tests"), l.Factor, l.Low, l.High, l.Doneness, lateWords(l.Offset))
	if l.Assumed > 0 {
		text += fmt.Sprintf(" %s made under: taken as it is here now.", count(l.Assumed, "of them does not say what it was", "of them do not say what they were"))
	}
	return text
}

// lateWords is how a kitchen's clock goes.
func lateWords(minutes float64) string {
	switch {
	case minutes >= 0.05:
		return fmt.Sprintf("%.1f min late", minutes)
	case minutes <= -0.05:
		return fmt.Sprintf("%.1f min early", -minutes)
	}
	return "on time"
}

func millilitres(ml float64) string {
	if ml < 1000 {
		return fmt.Sprintf("%.0f ml", math.Ceil(ml/10)*10)
	}
	return fmt.Sprintf("%.1f l", math.Ceil(ml/100)/10)
}
