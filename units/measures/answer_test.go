package measures_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// answer asks of a British kitchen, words parted by "|".
func answer(t *testing.T, words, of string) measures.Answer {
	t.Helper()
	kitchen := units.Kitchen{System: units.UK}
	a, err := measures.Default().For(units.UK).Answer(measures.Question{Words: strings.Split(words, "|"), Of: of}, kitchen)
	require.NoError(t, err, words)
	return a
}

// However the words are split and joined, the same is asked.
func TestQuestionsAreRead(t *testing.T) {
	for words, want := range map[string]string{
		"2 lb 4 oz|kg": "2.25 lb to kilogram of ", "2|lb|4|oz|kg": "2.25 lb to kilogram of ", "2 lb 4 oz|to|kg": "2.25 lb to kilogram of ",
		"2|lb|4|oz|in|kg": "2.25 lb to kilogram of ", "1½ UK pint|into ml": "1.5 pt UK to millilitre of ", "1½ UK pint = ml": "1.5 pt UK to millilitre of ",
		"3 eggs|g": "3 to gram of eggs", "a knob of butter|g": "1 knob to gram of butter", "a knob of|butter|g": "1 knob to gram of butter",
		"2 tbsp mayonnaise|g": "2 tbsp metric to gram of mayonnaise", "1 glug of moonshine|ml": "1 glug to millilitre of moonshine",
		"3 eggs": "3 to gram of eggs", "1 pint": "1 pt UK to millilitre of ", "3 ft": "3 ft to centimetre of ", "2 sq yd": "2 sq yd to square metre of ",
		"350 F": "350 F to degree Celsius of ", "1 kW": "1 kW to watt of ", "2 h": "2 h to minute of ", "1 kcal": "1 kcal to kilojoule of ",
		"1 bar": "1 bar to pascal of ", "5 lb": "5 lb to gram of ",
		"2 tbsp|flour": "2 tbsp metric to gram of flour", "2|tbsp|plain flour": "2 tbsp metric to gram of plain flour", "1 glug of moonshine": "1 glug to millilitre of moonshine",
	} {
		asked, err := measures.Default().Read(measures.Question{Words: strings.Split(words, "|")}, units.UK)
		require.NoError(t, err, words)
		assert.Equal(t, want, asked.Amount.String()+" to "+asked.To.Name()+" of "+asked.Of, words)
	}
}

// What cannot be read is refused for its own reason, by the last way of
// splitting the words.
func TestQuestionsThatCannotBeRead(t *testing.T) {
	for words, says := range map[string]string{
		"1 tin of gravel|g": `of "gravel": no row says what a measure of it weighs`,
		"1 oz moonrock|g":   `unknown unit "oz moonrock"`,
		"2 tbsp|smoots":     `"smoots": unknown unit`,
		"to|g":              `"to": it does not begin with a number`,
		"butter":            `"butter": it does not begin with a number`,
		"2 kg = moonbeams":  `"moonbeams": unknown unit`,
		"3 unicorns|g":      `unknown unit "unicorns"`,
		"1 heaped|g":        "heaped what?",
		"a sack of coal|kg": "a container has no fixed size",
	} {
		_, err := measures.Default().Answer(measures.Question{Words: strings.Split(words, "|")}, units.Kitchen{System: units.UK})
		require.ErrorContains(t, err, says, words)
	}
	_, err := measures.Default().Answer(measures.Question{Words: []string{"3 eggs", "g"}, Of: "butter"}, units.Kitchen{})
	require.ErrorContains(t, err, "unknown unit", "an ingredient named apart is not looked for in the amount")
}

// The remarks on an answer, by kind and in order.
func TestRemarks(t *testing.T) {
	for _, row := range []struct {
		words, of string
		kinds     []measures.RemarkKind
	}{
		{"2 lb|kg", "", nil},
		{"180 C|gas mark", "", []measures.RemarkKind{measures.OffTheDial}},
		{"1 T|ml", "", []measures.RemarkKind{measures.LetterRead}},
		{"5 oz|ml", "water", []measures.RemarkKind{measures.OunceIsWeight, measures.Basis}},
		{"1 gill|ml", "", []measures.RemarkKind{measures.Caution}},
		{"1 pinch|ml", "", []measures.RemarkKind{measures.Caution, measures.Rough}},
		{"3|g", "eggs", []measures.RemarkKind{measures.Assumed, measures.Basis}},
		{"2|cup us", "onions, chopped", []measures.RemarkKind{measures.Assumed, measures.Basis, measures.Basis}},
		{"a handful|g", "walnuts", []measures.RemarkKind{measures.Rough, measures.Basis}},
	} {
		a := answer(t, row.words, row.of)
		var kinds []measures.RemarkKind
		for _, r := range a.Remarks {
			kinds = append(kinds, r.Kind)
			assert.Equal(t, r.Kind == measures.Basis, r.Row != nil, row.words)
			assert.Equal(t, r.Kind == measures.OffTheDial, r.Off != nil, row.words)
			assert.Equal(t, r.Kind == measures.LetterRead || r.Kind == measures.Caution, r.Unit.IsValid(), row.words)
		}
		assert.Equal(t, row.kinds, kinds, row.words)
	}
	assert.Equal(t, "T", answer(t, "1½T|ml", "").Remarks[0].Letter)
	assert.Equal(t, units.Tablespoon, answer(t, "1 T|ml", "").Remarks[0].Unit)
	assert.Equal(t, "gas mark 4", answer(t, "180 C|gas mark", "").Given.String())
}

// An answer is exact by definitions alone: no row, no pinch, no third.
func TestExactAnswers(t *testing.T) {
	for words, exact := range map[string]bool{
		"1½ UK pint|ml": true, "100 g|oz": false, "1-2 oz|g": true, "10-20 g|oz": false, "212 F|C": true, "gas mark 6|C": false,
		"180 C|gas mark": false, "1 pinch|ml": false, "2 tbsp of mayonnaise|g": false, "2 dozen|piece": true,
	} {
		assert.Equal(t, exact, answer(t, words, "").Exact, words)
	}
	assert.Empty(t, answer(t, "1 pottle of strawberries|l", "").Of, "no ingredient where none was needed")
	assert.Equal(t, "mayonnaise", answer(t, "2 tbsp of mayonnaise|g", "").Of)
}

// What the answer is in measures of the kitchen whose unit was asked for:
// nothing where it is that already, or where nobody measures out so much.
func TestAnswersMeasuredOut(t *testing.T) {
	for words, text := range map[string]string{
		"852 ml|ml": "850 ml", "100 g|oz": "3½ oz", "1-2 oz|g": "28 g to 55 g", "250 ml|tbsp us": "1 cup + 1 tbsp", "100 g|kg": "",
		"2 cwt|kg": "", "10 rods|m2": "", "3 ft|cm": "", "6 l|ml": "", "10 eggs|g": "", "2 cloves of garlic|oz": "", "5 cloves of garlic|oz": "½ oz",
	} {
		a := answer(t, words, "")
		if text == "" {
			assert.Empty(t, a.Kitchen.Text, words)
			continue
		}
		assert.Equal(t, text, a.Kitchen.Text, words)
	}
	metric, err := measures.Default().Answer(measures.Question{Words: []string{"100 g", "oz"}}, units.Kitchen{System: units.Metric})
	require.NoError(t, err)
	assert.Equal(t, "3½ oz", metric.Kitchen.Text, "who asks for ounces has scales for them")
}

// Every figure an answer used has its source: the units', once each, and the
// rows'. Grams and millilitres need none.
func TestReasonsForAnAnswer(t *testing.T) {
	for words, figures := range map[string]string{
		"1 lb|oz":                "1 pound; 1 ounce",
		"2 lb|lb":                "1 pound",
		"1 kg|g":                 "1 kilogram",
		"2 cloves of garlic|tsp": "1 clove; 1 teaspoon (metric); 1 clove of garlic, raw, peeled; 1 cup US of garlic, raw, peeled",
	} {
		var list []string
		for _, r := range answer(t, words, "").Reasons {
			assert.NotEmpty(t, r.Source)
			assert.NotEmpty(t, r.KnownBy)
			assert.NotEmpty(t, r.Value)
			list = append(list, r.Figure)
		}
		assert.Equal(t, figures, strings.Join(list, "; "), words)
	}
	water := answer(t, "100 g|ml", "water").Reasons
	require.Len(t, water, 1)
	assert.Contains(t, water[0].Source, "NDB 14429", "the record in the publication")
}

// Only the ingredient leads from a spoon to grams: its field is named.
func TestAnIngredientIsAskedFor(t *testing.T) {
	_, err := measures.Default().Answer(measures.Question{Words: []string{"2 tbsp", "g"}}, units.Kitchen{System: units.Metric})
	var field *units.FieldError
	require.ErrorAs(t, err, &field)
	assert.Equal(t, "of", field.Field)
	var wrong *units.DimensionError
	require.ErrorAs(t, err, &wrong)
	_, err = measures.Default().Answer(measures.Question{Words: []string{"2 m", "g"}}, units.Kitchen{System: units.Metric})
	require.ErrorAs(t, err, &wrong)
	assert.NotErrorAs(t, err, &field, "no ingredient leads from a length to grams")
}

// A kitchen's own pinch is the pinch.
func TestAnswersOfTheKitchensOwnMeasures(t *testing.T) {
	kitchen := units.Kitchen{System: units.Metric, Vague: map[string]units.Quantity{"pinch": units.MustParse("0.5 ml")}}
	a, err := measures.Default().Answer(measures.Question{Words: []string{"2 pinches", "ml"}}, kitchen)
	require.NoError(t, err)
	assert.Equal(t, "1 ml", a.Given.String())
	same, err := measures.Default().Answer(measures.Question{Words: []string{"2 pinches", "pinch"}}, kitchen)
	require.NoError(t, err)
	text, err := json.Marshal(same.Given)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"value":"2"`)
	_, err = measures.Default().Answer(measures.Question{Words: []string{"2 turns", "ml"}}, kitchen)
	assert.Error(t, err, "a turn of the mill has no size of its own")
}
