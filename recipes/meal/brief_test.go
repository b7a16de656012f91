package meal_test

import (
	"fmt"
	"strings"

	"trencher/recipes/meal"
	"trencher/units/spelled"
)

// brief is a plan in a few lines: who cooks what of which lots, what it takes, when,
// and what there is to mind.
func brief(p meal.Plan) string {
	var out strings.Builder
	line := func(format string, values ...any) { fmt.Fprintf(&out, format+"\n", values...) }
	spell := func(value any) string { return spelled.Line(value, named) }
	line("serve %s after %s, took %d, cost %s bound %s, earliest %s", p.ServeAt.Format("02 15:04"), p.Allow, p.Took, spell(p.Timing.Cost), spell(p.Timing.Bound), p.EarliestServeAt.Format("02 15:04"))
	line("levels %s; bounds %s partly %v", spell(p.Levels), spell(p.Bounds), p.Partly)
	for _, d := range p.Dishes {
		line("%s: %d", d.Name(), d.Portions)
		for _, part := range d.Parts {
			line("  %s %s g of %s, cuts %s, uneven %s", part.Line.Crop, part.Prepared, spell(part.From), spell(part.Cuts), spell(part.Uneven))
			if s := part.Steam; s != nil {
				line("    steam %.3g %.3g-%.3g in %v, %.3g g at once", s.Minutes, s.Low, s.High, s.Runs, s.AtOnceG)
			}
			if pot := part.Pot; pot != nil {
				line("    pot %.3g %.3g-%.3g in %d of %.3g g, %s, ice %.3g g", pot.Minutes, pot.Low, pot.High, pot.Rounds, pot.GramsPerRound, pot.AtLeast, pot.IceG)
			}
		}
	}
	line("left out %s; left %s; plates %s; short %s", spell(p.LeftOut), spell(p.Left), spell(p.Plates), spell(p.Short))
	line("loads %s, rounds %d, runs %s", spell(p.Loads), p.Rounds, spell(p.Runs))
	for _, s := range p.Steps {
		line("  %s %s %s+%.0f hands %d ring %d tier %d tray %d %s %v after %v %s %s", s.At.Format("15:04"), s.ID, s.Kind, s.Length.Minutes(), s.Hands, s.Ring, s.Tier, s.Tray, s.Run, s.Parts, s.After, s.AtOnce, s.Beside)
		line("    %s: %v %s steamer %v place %s offset %.0f soon %v", s.Crop, s.Dishes, s.Do, s.Steamer, s.Place, s.Offset.Minutes(), s.Soon)
	}
	line("supplies %s; box %s", spell(p.Supplies), spell(p.Box))
	line("pick %s; buy %s; set aside %s", spell(p.Pick), spell(p.Buy), spell(p.SetAside))
	line("apart %s", spell(p.Apart))
	line("keep %s", spell(p.Keep))
	line("rests on %s", spell(p.Reasons))
	for _, c := range p.Clocks {
		line("  %s from %s by %s %s %v", c.Dish, c.History.CookedAt.Format("15:04"), c.LimitAt.Format("02 15:04"), c.Rule, c.Holds)
		line("    %s %v chilled %s dressed %s out %s weak %v", c.History.Food, c.History.Also, c.History.ChilledAt.Format("15:04"), c.DressedAt.Format("15:04"), spell(c.History.Out), c.History.Vulnerable)
	}
	for _, w := range p.Warnings {
		line("  ! %s %d %s %s %s %s", w.Severity, w.Concern, w.Dish, w.Crop, spell(w.Late), w.Waited)
	}
	return out.String()
}
