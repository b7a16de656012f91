package meal

import "trencher/recipes/heat"

// reckoned remembers what heat said for the length of one question: one that
// tries changes asks for nearly all of it again. Without one everything is
// reckoned anew.
type reckoned struct{ answers map[any]any }

func newReckoned() *reckoned { return &reckoned{map[any]any{}} }

// remembered is what was said when the same was asked before, else what reckon
// says now. The question is a comparable value that holds everything the answer
// rests on.
func remembered[T any](r *reckoned, question any, reckon func() (T, error)) (T, error) {
	if r == nil {
		return reckon()
	}
	if known, ok := r.answers[question].(T); ok {
		return known, nil
	}
	answer, err := reckon()
	if err == nil {
		r.answers[question] = answer
	}
	return answer, err
}

// asked is one question to heat. What it asks for is told by the answer's type,
// which [remembered] looks at.
type asked[T any] struct {
	crop      heat.Crop
	cut       heat.Cut
	until     heat.Doneness
	grams     float64
	classes   any
	around    around
	equipment heat.Equipment
	spread    heat.Spread
	airC      float64
}

// around are conditions as a value.
type around struct {
	heat.Conditions
	startC float64
	given  bool
}

func conditionsOf(c heat.Conditions) around {
	a := around{Conditions: c}
	if c.StartC != nil {
		a.startC, a.given = *c.StartC, true
	}
	a.StartC = nil
	return a
}

// link is one element of a list and those before it.
type link[T comparable] struct {
	one    T
	before any
}

// listed is a list as a comparable value.
func listed[T comparable](list []T) (value any) {
	for _, one := range list {
		value = link[T]{one, value}
	}
	return value
}

func (k *kitchen) loadPlan(piece Piece, c heat.Conditions) (heat.Load, error) {
	question := asked[heat.Load]{crop: piece.Crop, cut: piece.Sized, until: piece.Until, grams: piece.Grams, equipment: k.equipment, around: conditionsOf(c)}
	return remembered(k.reckoned, question, func() (heat.Load, error) {
		return heat.LoadPlan(piece.Crop, piece.Sized, piece.Until, piece.Grams, k.equipment, c)
	})
}

func (k *kitchen) steam(piece Piece, c heat.Conditions) (heat.Estimate, error) {
	question := asked[heat.Estimate]{crop: piece.Crop, cut: piece.Sized, until: piece.Until, around: conditionsOf(c)}
	return remembered(k.reckoned, question, func() (heat.Estimate, error) {
		return heat.Steam(piece.Crop, piece.Sized, piece.Until, c)
	})
}

func (k *kitchen) boilPlan(piece Piece) (heat.Boiled, error) {
	question := asked[heat.Boiled]{crop: piece.Crop, cut: piece.Sized, until: piece.Until, grams: piece.Grams, equipment: k.equipment, around: conditionsOf(k.conditions)}
	return remembered(k.reckoned, question, func() (heat.Boiled, error) {
		return heat.BoilPlan(piece.Crop, piece.Sized, piece.Until, piece.Grams, k.equipment, heat.Water{}, k.conditions)
	})
}

func (k *kitchen) blanch(piece Piece) (heat.Blanched, error) {
	question := asked[heat.Blanched]{crop: piece.Crop, cut: piece.Sized, grams: piece.Grams, equipment: k.equipment, around: conditionsOf(k.conditions)}
	return remembered(k.reckoned, question, func() (heat.Blanched, error) {
		return heat.Blanch(piece.Crop, piece.Sized, piece.Grams, k.equipment, k.conditions)
	})
}

func (k *kitchen) planCuts(piece Piece, c heat.Conditions) (heat.CutPlan, error) {
	question := asked[heat.CutPlan]{crop: piece.Crop, cut: piece.Cut, until: piece.Until, classes: listed(piece.Classes), around: conditionsOf(c)}
	return remembered(k.reckoned, question, func() (heat.CutPlan, error) {
		return heat.PlanCuts(piece.Crop, piece.Classes, heat.Wish{Cut: piece.Cut, Until: piece.Until, Sparing: true}, c)
	})
}

func (k *kitchen) steamTiers(loads []heat.TierLoad, c heat.Conditions) (heat.Tiers, error) {
	question := asked[heat.Tiers]{classes: listed(loads), around: conditionsOf(c)}
	return remembered(k.reckoned, question, func() (heat.Tiers, error) { return heat.SteamTiers(loads, c) })
}

func (r *reckoned) cool(crop heat.Crop, piece heat.Cut, spread heat.Spread, airC float64) (heat.Cooling, error) {
	question := asked[heat.Cooling]{crop: crop, cut: piece, spread: spread, airC: airC}
	return remembered(r, question, func() (heat.Cooling, error) { return heat.Cool(crop, piece, spread, airC) })
}

// learnFrom is what this kitchen's knife tests say of a crop; the tests are the same
// for the length of one question.
func (k *kitchen) learnFrom(crop heat.Crop, c heat.Conditions) heat.Learned {
	learned, _ := remembered(k.reckoned, asked[heat.Learned]{crop: crop, around: conditionsOf(c)}, func() (heat.Learned, error) {
		learned, _ := heat.LearnFrom(k.tests, crop, c)
		return learned, nil
	})
	return learned
}
