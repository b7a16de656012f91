package render

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// warningWords says what needs attention before starting.
func warningWords(w meal.Warning, p meal.Plan) string {
	switch w.Concern {
	case meal.ClockBroken:
		dish := shortened(w.Dish)
		if w.Apart.Dish != "" {
			dish += ", set apart"
		}
		return fmt.Sprintf("%s: served %s past its limit (%s)", dish, lengthWords(w.Clock.Over()), w.Rule)
	case meal.Late:
		why := fmt.Sprintf("the work would have begun at %s, %s ago", clockOn(w.Late.Start, p.On), lengthWords(w.Late.By))
		if w.Late.Passed {
			why = "the time has passed"
		}
		return fmt.Sprintf("%s cannot be met: %s. The earliest is %s. %s", clock(p.ServeAt), why, clockOn(w.Late.Earliest, p.On), helpWords(w.Late.Helps, p))
	case meal.Waits:
		return fmt.Sprintf("%s waits %s off the heat: keep it warm", w.Dish, lengthWords(w.Waited))
	case meal.NotCold:
		return w.Dish + notColdWords(w, p)
	case meal.MoreRounds:
		return fillingWords(w.Rounds, p)
	case meal.BoxWarms:
		return boxWords(p)
	case meal.CanisterEmpties:
		return fmt.Sprintf("a full canister of %.0f g does not last for all that is on the stove at once: keep the next at hand, let the stove go out before changing it", p.Kitchen.Stove.CanisterG)
	case meal.OutOfWater:
		return fmt.Sprintf("%s of water are needed for the pan, %s are there", litres(p.Supplies.WaterML), litresOf(p.Kitchen.Water.CarriedML))
	case meal.RawUnknown:
		return fmt.Sprintf("%s: whether %s may be eaten raw is not known here", shortened(w.Dish), shortened(w.Crop))
	case meal.Untimed:
		return fmt.Sprintf("how long %s %s is not known here: no time, water or gas is reckoned for it in %s", w.Crop, cooksWord(w, p), w.Dish)
	case meal.SteamIsNotEnough:
		if isInWater(w, p) {
			return fmt.Sprintf("%s: so short a time in boiling water does not make its %ss safe (%s)", shortened(w.Dish), w.Crop, w.Rule)
		}
		return fmt.Sprintf("%s: steam alone does not make its %ss safe (%s)", shortened(w.Dish), w.Crop, w.Rule)
	case meal.AskGuest:
		return fmt.Sprintf("ask the guest (%s): %s", w.Guest.Label(), w.Says)
	case meal.SetApart:
		return setApartWords(w)
	case meal.CutSmall:
		return fmt.Sprintf("%s is cut small for the guest (%s): it %s", w.Dish, w.Guest.Label(), w.Says)
	case meal.Poisonous:
		return poisonWords(w)
	case meal.Amiss:
		return joinNonEmpty(": ", w.Dish, "this plan contradicts itself, do not rely on it ("+w.Says+")")
	}
	return w.Says
}

// cooksWord is how a warning's crop cooks: "takes in boiling water", "steams".
func cooksWord(w meal.Warning, p meal.Plan) string {
	if isInWater(w, p) {
		return "takes in boiling water"
	}
	return "steams"
}

// isInWater tells that a warning's crop is boiled or blanched in its dish.
func isInWater(w meal.Warning, p meal.Plan) bool {
	for _, dish := range p.Dishes {
		for _, part := range dish.Parts {
			if dish.Name() == w.Dish && part.Line.Crop == w.Crop && part.Line.IsInWater() {
				return true
			}
		}
	}
	return false
}

// fillingWords says how often the steamer is filled, and with what, where it was to
// be filled so many times at most.
func fillingWords(most int, p meal.Plan) string {
	var fillings []string
	for i, run := range p.Runs {
		var names []string
		for _, part := range run.Parts {
			if name := p.Dishes[part.Dish].Name(); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		fillings = append(fillings, fmt.Sprintf("%d. %s", i+1, strings.Join(names, " and ")))
	}
	return fmt.Sprintf("the steamer is filled %s, not %s at most as you asked (%s): in fewer, food would be past its limits or not fit",
		times(len(p.Runs)), times(most), strings.Join(fillings, ", "))
}

func times(n int) string { return count(n, "time", "times") }

// poisonWords says what in a dish can poison: of a danger why, with what mends it
// said apart; of a thing to mind both.
func poisonWords(w meal.Warning) string {
	if !w.Poison.Grave {
		return fmt.Sprintf("%s: %s. %s", w.Poison.Words, w.Poison.Says, w.Poison.Mend)
	}
	says := fmt.Sprintf("%s: %s; %s (%s)", shortened(w.Dish), w.Poison.Words, w.Poison.Says, w.Rule)
	if len([]rune(says)) > mostDanger {
		says = fmt.Sprintf("%s: %s can poison (%s)", shortened(w.Dish), w.Poison.Words, w.Rule)
	}
	return says
}

// notColdWords say why a dish meant cold is not.
func notColdWords(w meal.Warning, p meal.Plan) string {
	fridge := fmt.Sprintf("%g °C", p.Kitchen.FridgeC)
	because := map[meal.NotColdCause]string{
		meal.NotInTime:          "it cannot be cool enough for the fridge in time",
		meal.NoColdPlace:        "there is no cold place for it",
		meal.OnlyABox:           "a cold box keeps cold what is cold and chills nothing",
		meal.FridgeTooWarm:      "the fridge, at " + fridge + ", makes nothing cold",
		meal.FridgeKeepsNothing: "the fridge, at " + fridge + ", is too warm to keep it in, so its time runs on there",
	}
	return " is served cool, not cold: " + because[w.NotCold]
}

// boxWords say that the cold box does not stay cold.
func boxWords(p meal.Plan) string {
	if p.Box.IceG == 0 {
		return "nothing is kept in the cold box: kitchen.yaml does not say how much ice is in it (cold-box: {ice: 2 kg})"
	}
	return fmt.Sprintf("nothing is kept in the cold box: its %s of ice last about %s, %s are needed", grams(decimal.NewFromFloat(p.Box.IceG)), minutes(p.Box.Lasts), minutes(p.Box.Needed))
}

func shortened(name string) string {
	letters := []rune(name)
	if len(letters) <= mostNamed {
		return name
	}
	return strings.TrimRight(string(letters[:mostNamed-1]), " ") + "…"
}

// mendWords says what would mend a danger; "" where nothing can be said.
func mendWords(w meal.Warning, p meal.Plan) string {
	if w.Concern == meal.Poisonous && w.Poison.Grave {
		return w.Poison.Mend
	}
	if w.Concern == meal.SteamIsNotEnough {
		if isInWater(w, p) {
			return fmt.Sprintf("Boil them in water for %s; or leave the dish out.", lengthWords(w.Boil))
		}
		return fmt.Sprintf("Boil them in water for %s, whatever the steaming time; or leave the dish out.", lengthWords(w.Boil))
	}
	if w.Concern == meal.RawUnknown {
		return "Some crops poison raw: cook it, or ask a food authority first."
	}
	if w.Concern != meal.ClockBroken {
		return ""
	}
	limit := limitWords(w.Clock, p)
	if w.Clock.History.ChilledAt.IsZero() {
		return "Serve it " + limit + ", or cook it later; else throw it out then."
	}
	if chillings(w.Dish, p) > 1 {
		return "Dress and serve it " + limit + ", or make less, so that the last filling is in the fridge sooner; else throw it out then."
	}
	return "Dress and serve it " + limit + ", or cook it later and chill it sooner; else throw it out then."
}

// chillings counts how often something of a dish goes into the fridge.
func chillings(dish string, p meal.Plan) (count int) {
	for _, step := range p.Steps {
		if step.Kind == schedule.Chill && slices.Contains(step.Dishes, dish) {
			count++
		}
	}
	return count
}

// limitWords is until when a dish may be eaten: "by 19:28", or "before 20:10"
// where that minute is too late.
func limitWords(clock meal.Clock, p meal.Plan) string {
	at, before := clock.Deadline.Clock()
	if before {
		return "before " + clockOn(at, p.On)
	}
	return "by " + clockOn(at, p.On)
}

// helpWords names what would bring the start later.
func helpWords(helps []meal.Change, p meal.Plan) string {
	if len(helps) == 0 {
		return "Serve later."
	}
	var words []string
	for _, change := range helps {
		words = append(words, fmt.Sprintf("%s: %s, %s sooner", changeWords(change), clockOn(change.Serve, p.On), lengthWords(change.Saves)))
	}
	return "Sooner by one of these: " + strings.Join(words, "; ") + "."
}

func changeWords(change meal.Change) string {
	switch change.Kind {
	case meal.MoreHands:
		return "one more to help"
	case meal.ServeWarm:
		return "serving " + change.Dish + " warm"
	case meal.CutSmaller:
		return fmt.Sprintf("cutting %s to %s mm", change.Dish, whole(change.SizeMM))
	}
	return "leaving " + change.Dish + " out"
}
