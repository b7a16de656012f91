package units_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A value that cannot be used is told with its field; a command calls the
// field by its flag.
func ExampleWrongField() {
	err := units.WrongField("limit", "butter=abc", "no amount", "an item and an amount: butter=150 g")
	fmt.Println(err)
	fmt.Println(err.In("--limit"))
	fmt.Println("hint:", err.Hint())
	// Output:
	// limit "butter=abc": no amount
	// --limit "butter=abc": no amount
	// hint: write an item and an amount: butter=150 g
}

type advising struct{ error }

func (advising) Hint() string { return "weigh it" }

func TestInField(t *testing.T) {
	_, parse := units.Parse("3 stonez", units.Metric)
	require.Error(t, parse)
	for _, c := range []struct {
		name        string
		err         error
		says, hints string
	}{
		{"an amount that does not read", parse, `seed "3 stonez": unknown unit "stonez"`, "write "},
		{"a field's error keeps its field", units.WrongField("air", "90 C", "too hot", "less"), `air "90 C": too hot`, "write less"},
		{"an error without a field gets one", units.WrongField("", "", "too hot", "less"), `seed "3 stonez": too hot`, "write less"},
		{"advice behind it is passed on", advising{errors.New("no measure")}, `seed "3 stonez": no measure`, "weigh it"},
		{"a plain error", errors.New("no"), `seed "3 stonez": no`, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := units.InField("seed", "3 stonez", c.err)
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, c.says, err.Error())
			assert.True(t, strings.HasPrefix(wrong.Hint(), c.hints), wrong.Hint())
			assert.Equal(t, c.hints == "", wrong.Hint() == "")
		})
	}
	assert.NoError(t, units.InField("seed", "", nil))
	assert.ErrorIs(t, units.InField("seed", "x", parse), parse)
}

func TestFieldErrorText(t *testing.T) {
	assert.Equal(t, "food: missing", units.WrongField("food", "", "missing", "").Error())
	assert.Equal(t, "missing", units.WrongField("", "", "missing", "").Error())
	long := units.WrongField("limit", strings.Repeat("é", 100), "too long", "")
	assert.Equal(t, `limit "`+strings.Repeat("é", 28)+`...": too long`, long.Error())
}

// A field's error is told whole, whatever it was made of; errors side by side
// are told one by one.
func TestSeveral(t *testing.T) {
	joined := errors.Join(errors.New("no room"), errors.New("not closed"))
	field := &units.FieldError{Problem: "not written", Accepted: "it again", Cause: joined}
	for name, test := range map[string]struct {
		err  error
		want int
	}{
		"nothing":         {nil, 0},
		"one":             {errors.New("one"), 0},
		"joined":          {joined, 2},
		"wrapped":         {fmt.Errorf("reading: %w", joined), 2},
		"a field's cause": {field, 0},
		"fields joined":   {errors.Join(field, field, field), 3},
	} {
		assert.Len(t, units.Several(test.err), test.want, name)
	}
}
