package render

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// heatName says what is cooked how, until when.
func heatName(h meal.ReckonedHeat, cut string) string {
	how := map[string]string{"steam": "steamed", "boil": "boiled", "blanch": "blanched"}[h.Line.Cook]
	until := ""
	if h.Line.Cook != "blanch" && h.Line.Until != "" {
		until = strings.ReplaceAll(h.Line.Until, "-", " ")
	}
	name := capital(joinNonEmpty(", ", h.Crop.Title(), cut, joinNonEmpty(" ", how, until)))
	if h.AtLeast > 0 && !h.Line.IsInWater() {
		name += fmt.Sprintf("; not safe so: boil them %d min", int(h.AtLeast.Minutes()))
	}
	return name
}

// addHeat adds the minutes by size, unless they stand there, and what loads take.
func (view *reckonerView) addHeat(h meal.ReckonedHeat) {
	if len(h.Sizes) == 0 {
		if own := ownTimeWords(h.Line); own != "" {
			view.Own = append(view.Own, fmt.Sprintf("%s for %s: %s, your own minutes.", capital(h.Line.Crop), listed(h.Dishes), own))
		}
		return
	}
	var sizes []string
	row := timesRow{What: heatName(h, shapeOf(h))}
	for _, size := range h.Sizes {
		sizes = append(sizes, fmt.Sprintf("%g", size.SizeMM))
		row.Cells = append(row.Cells, timeCellOf(h, size))
	}
	view.addTimes(sizes, row)
	loads := loadsView{What: heatName(h, h.Line.Cut)}
	view.LoadHeads = nil
	for _, load := range h.Loads {
		view.LoadHeads = append(view.LoadHeads, fmt.Sprintf("%g kg", load.Grams/1000))
		loads.Cells = append(loads.Cells, loadCellOf(h, load))
	}
	view.Loads = append(view.Loads, loads)
}

func (view *reckonerView) addTimes(sizes []string, row timesRow) {
	for i := range view.Times {
		times := &view.Times[i]
		if !slices.Equal(times.Sizes, sizes) {
			continue
		}
		if !slices.ContainsFunc(times.Rows, func(o timesRow) bool { return o.What == row.What }) {
			times.Rows = append(times.Rows, row)
		}
		return
	}
	view.Times = append(view.Times, timesView{sizes, []timesRow{row}})
}

// shapeOf is the cut without its size.
func shapeOf(h meal.ReckonedHeat) string {
	if cut, err := heat.ParseCut(h.Line.Cut); err == nil {
		return cut.Shape.String()
	}
	return ""
}

// timeCellOf is the usual time over the range of the knife; a star stands at those
// that count from putting in.
func timeCellOf(h meal.ReckonedHeat, size meal.SizeHeat) timeCell {
	if b := size.Blanched; b != nil {
		return timeCell{Usual: fmt.Sprint(about(b.Minutes))}
	}
	usual, low, high := h.AtLeastFor(size.Estimate.Clock())
	cell := timeCell{fmt.Sprint(about(usual)), fmt.Sprintf("%d–%d", knifeFrom(low), upTo(high))}
	if !size.Estimate.FreeFirst {
		cell.Usual += "*"
	}
	return cell
}

// loadCellOf is what a weight takes: minutes from putting in, water and gas.
func loadCellOf(h meal.ReckonedHeat, l meal.LoadHeat) loadCell {
	var e heat.Estimate
	var water, gas, most float64
	rounds := 1
	switch {
	case l.Steamed != nil:
		e, water, gas, most, rounds = l.Steamed.Estimate, l.Steamed.WaterML, l.Steamed.GasG, l.Steamed.GasLongestG, l.Steamed.Rounds
	case l.Boiled != nil:
		e, water, gas, most, rounds = l.Boiled.Estimate, l.Boiled.WaterML, l.Boiled.GasG, l.Boiled.GasG, l.Boiled.Rounds
	case l.Blanched != nil:
		b := l.Blanched
		return loadCell{fillings(b.Rounds) + fmt.Sprint(about(b.FromLoading)), waterAndGas(b.WaterML, b.GasG, b.GasG)}
	}
	usual, low, high := e.FromLoading, e.FromLoadingLow, e.FromLoadingHigh
	if h.AtLeast > 0 && e.FreeFirst {
		usual, low, high = h.AtLeastFor(e.Clock())
		usual, low, high = usual+e.ComeUp, low+e.ComeUp, high+e.ComeUp
	}
	return loadCell{fillings(rounds) + fmt.Sprintf("%d (%d–%d)", about(usual), knifeFrom(low), upTo(high)), waterAndGas(water, gas, most)}
}

// waterAndGas are the amounts a weight takes; of gas the usual and the most.
func waterAndGas(waterML, gasG, mostG float64) string {
	text := litres(waterML)
	switch usual, most := math.Ceil(gasG), math.Ceil(mostG); {
	case gasG <= 0:
	case most > usual:
		text += fmt.Sprintf(", %.0f–%.0f g", usual, most)
	default:
		text += fmt.Sprintf(", %.0f g", usual)
	}
	return text
}

// fillings go before the minutes of each: "2 × ".
func fillings(rounds int) string {
	if rounds < 2 {
		return ""
	}
	return fmt.Sprintf("%d × ", rounds)
}

// standHeads name what the times of standing count.
func standHeads(k recipes.Kitchen) []string {
	heads := []string{fmt.Sprintf("out, at %g °C", k.RoomC), "out, over 32 °C"}
	if k.NoFridge {
		return heads
	}
	return append(heads, "in the fridge", "out again", "stricter rules")
}

func viewStands(k recipes.Kitchen, d meal.ReckonedDish) standsView {
	s := d.Stands
	view := standsView{Dish: d.Recipe.Name, Cells: []string{standingWords(s.Out), standingWords(s.HotOut)}}
	if !k.NoFridge {
		view.Cells = append(view.Cells, standingWords(s.Fridge), standingWords(s.TableOut), standingWords(s.WeakEat))
	}
	return view
}

func standingWords(s meal.Standing) string {
	switch {
	case s.For > 0 && s.Before:
		return "under " + hoursWords(s.For)
	case s.For > 0:
		return hoursWords(s.For)
	case s.Verdict == keeping.Discard:
		return "not at all"
	}
	return "not known"
}

// hoursWords is a limit, rounded down: "2 h", "1 h 30 min".
func hoursWords(d time.Duration) string {
	d = d.Truncate(time.Minute)
	if d%time.Hour == 0 {
		return fmt.Sprintf("%d h", int(d/time.Hour))
	}
	if d < time.Hour {
		return fmt.Sprintf("%d min", int(d/time.Minute))
	}
	return fmt.Sprintf("%d h %d min", int(d/time.Hour), int(d%time.Hour/time.Minute))
}

// heatedWords say how often and how hot leftovers are heated up.
func heatedWords(r meal.Reckoner) string {
	limits := keeping.LimitsOf(keeping.Authority(r.Kitchen.Authority))
	says := "Counted from the heat; eaten by then. "
	if !r.Kitchen.NoFridge {
		says = "Counted from the heat; eaten or in the fridge by then. Out again: from the fridge to the table, all times out added up. Stricter rules: in the fridge, for the pregnant, under 5, over 65 and those of low immunity. "
	}
	return says + fmt.Sprintf("Heat leftovers up %s, to %g °C in the middle, steaming all through.", timesWord(limits.Reheatings.Most), limits.Reheat.C)
}

func timesWord(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("at most %d times", n)
}

// careWords are the cautions, each in a line or two.
func careWords(r meal.Reckoner) []string {
	says := []string{"Steam scalds: lid up far edge first; a scald, 20 min under cool water."}
	if r.Kitchen.Stove.Gas != "" {
		says = append(says, "Gas stove outdoors only, lit or warm: carbon monoxide cannot be smelt.")
	}
	if slices.ContainsFunc(r.Heats, func(h meal.ReckonedHeat) bool { return h.Line.IsInWater() }) {
		says = append(says, "Boiling water burns: lower the pieces in with a spoon, pour off away from you.")
	}
	says = append(says, "Green, rotten, bitter or sprouted: out, never into the pot; weigh damaged ones after trimming.",
		"Drinking water for steam, washing and hands; soap before food.")
	return append(says, strings.Join(r.Cautions, " "))
}
