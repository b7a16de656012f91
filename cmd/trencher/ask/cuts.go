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
	part.CutNote = cutNote(plan)
	steam.Low = math.Min(steam.Low, plan.Low)
	steam.High = math.Max(steam.High, plan.High)
	return nil
}

// cutPart words one rule of a cutting plan.
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
	}
	return told
}

// cutNote says how even a cutting plan is, and what would be more even.
func cutNote(plan heat.CutPlan) string {
	if plan.Even {
		return ""
	}
	var words []string
	if plan.EarlyMinutes > 0 {
		words = append(words, fmt.Sprintf("the smallest pieces are done %.0f min early: take them out first", plan.EarlyMinutes))
	}
	if plan.LateMinutes > 0 {
		words = append(words, fmt.Sprintf("the largest are %.0f min late", plan.LateMinutes))
	}
	if len(words) > 0 && plan.DiceMM > 0 {
		words = append(words, fmt.Sprintf("diced to %.0f mm, all end together", plan.DiceMM))
	}
	return strings.Join(words, "; ")
}
