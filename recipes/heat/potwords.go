package heat

import (
	"trencher/units"
	"trencher/units/strict"
)

// PotWords is a question about a pot as a person writes it; "" is not given.
type PotWords struct {
	Words
	Water, Simmer string
	Lidless, Cold bool
}

// PotQuestion asks how a weight of pieces is boiled or blanched.
type PotQuestion struct {
	Question
	Water Water
	Grams float64
}

// ReadPot makes the question of its words in a kitchen, as [Words.Read] does.
func (q PotWords) ReadPot(kitchen Question, system units.System) (question PotQuestion, assumed []string, err error) {
	if question.Question, assumed, err = q.Read(kitchen, system, 0); err != nil {
		return question, nil, err
	}
	if !question.Cut.Sized() {
		return question, nil, units.WrongField("cut", q.Cut, "no size", CutForms)
	}
	question.Grams = DefaultLoadGrams
	if question.Question.Grams != nil {
		question.Grams = *question.Question.Grams
	}
	question.Water = Water{Lidless: q.Lidless, Cold: q.Cold}
	for _, one := range []struct {
		field, text string
		unit        units.Unit
		such        string
		into        *float64
	}{{"water", q.Water, units.Millilitre, "an amount, as 2 l", &question.Water.ML}, {"simmer", q.Simmer, units.Celsius, "a temperature, as 94 C", &question.Water.HeldC}} {
		if one.text == "" {
			continue
		}
		if *one.into, err = strict.FigureField(one.field, one.text, system, one.unit); err != nil {
			return question, nil, err
		}
		if !(*one.into > 0) {
			return question, nil, units.WrongField(one.field, one.text, "not above nought", one.such)
		}
	}
	return question, assumed, nil
}

// AsTyped is [Words.AsTyped], of the water and the simmer too.
func (q PotWords) AsTyped(err error) error {
	return asTyped(q.Words.AsTyped(err, ""), map[string]string{"water": q.Water, "simmer": q.Simmer})
}

// Boil answers the question by [BoilPlan].
func (q PotQuestion) Boil() (Boiled, error) {
	return BoilPlan(q.Crop, q.Cut, q.Until, q.Grams, q.Equipment, q.Water, q.Conditions)
}

// Blanch answers the question by [Blanch].
func (q PotQuestion) Blanch() (Blanched, error) {
	return Blanch(q.Crop, q.Cut, q.Grams, q.Equipment, q.Conditions)
}
