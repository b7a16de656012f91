package ask

import (
	"fmt"
	"math"
	"strings"

	"trencher/recipes/heat"
)

// tellLoad is the steaming of one crop part.
func tellLoad(load heat.Load) *Steam {
	e := load.Estimate
	steam := &Steam{
		Minutes: e.Minutes, Low: e.Low, High: e.High, ComeUp: e.ComeUp, SteamC: e.SteamC, CentreC: e.CentreC,
		InRange: e.InRange(), Tests: e.KnifeTests, EdgeMM: e.EdgeMM, Layers: load.Layers, Rounds: load.Rounds,
		GramsPerLayer: load.GramsPerLayer, WaterML: load.WaterML, GasG: load.GasG, ToBoil: load.ToBoil,
	}
	steam.Notes = append(steam.Notes, e.Outside...)
	return steam
}

// tellCuts says how each size is cut so that all pieces end together, and
// widens the steaming's band to what the pieces spread.
func (p *Plot) tellCuts(part *CropPart, d steamed) error {
	steam := part.Steam
	if !d.cut.Shape.OfTuber() && d.cut.Shape != heat.Cube {
		part.Cuts = []CutPart{{How: part.Cut, Shape: d.cut.Shape.String(), PieceMM: steam.EdgeMM,
			Minutes: steam.Minutes, Low: steam.Low, High: steam.High}}
		return nil
	}
	c, err := p.steamConditions(d.crop, steam.AtOnce)
	if err != nil {
		return err
	}
	plan, err := heat.PlanCuts(d.crop, d.classes, heat.Wish{Cut: d.cut, Until: d.until, Sparing: true}, c)
	if err != nil {
		return err
	}
	for _, rule := range plan.Rules {
		part.Cuts = append(part.Cuts, cutPart(rule, plan))
	}
	part.CutNote = cutNote(plan, d.cut.Shape == heat.Cube)
	steam.Low = math.Min(steam.Low, plan.Low)
	steam.High = math.Max(steam.High, plan.High)
	return nil
}

// cutPart words one rule of a cutting plan. A tuber too large even for
// eighths is diced.
func cutPart(rule heat.CutRule, plan heat.CutPlan) CutPart {
	told := CutPart{LowMM: int(math.Round(rule.FromMM)), HighMM: int(math.Round(rule.ToMM)), Shape: rule.Cut.Shape.String(),
		PieceMM: plan.PieceMM, Minutes: rule.Longest, Low: plan.Low, High: plan.High}
	switch rule.Cut.Shape {
	case heat.Whole:
		told.How = "whole"
	case heat.Halves:
		told.How = "halved"
	case heat.Quarters:
		told.How = "quartered"
	case heat.Cube:
		told.How, told.PieceMM = fmt.Sprintf("diced to %.0f mm", rule.Cut.SizeMM), rule.Cut.SizeMM
	default:
		told.How = "in eighths"
		if late := rule.Longest - plan.Minutes; late > 0.1*(plan.ComeUp+plan.Minutes) {
			told.How, told.Shape = fmt.Sprintf("diced to %.0f mm", plan.PieceMM), "cube"
		}
	}
	return told
}

// The cubes, in mm, that a cook may be told to dice to instead.
const smallestDice, largestDice = 15, 35

// cutNote says how even a cutting plan is, and what would be more even.
func cutNote(plan heat.CutPlan, diced bool) string {
	if plan.Even {
		return ""
	}
	total := plan.ComeUp + plan.Minutes
	var words []string
	if early := total * plan.Early / 100; early >= 1 {
		words = append(words, fmt.Sprintf("the smallest pieces are done %.0f min early: take them out first", early))
	}
	if late := total * plan.Late / 100; late >= 1 {
		words = append(words, fmt.Sprintf("the largest are %.0f min late", late))
	}
	if len(words) == 0 {
		return ""
	}
	if diced || plan.PieceMM < smallestDice || plan.PieceMM > largestDice {
		return strings.Join(words, "; ")
	}
	return strings.Join(words, "; ") + fmt.Sprintf("; diced to %.0f mm, all end together", plan.PieceMM)
}
