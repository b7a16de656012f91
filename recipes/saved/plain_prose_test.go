package saved_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/saved"
)

// Sentences without a list are steps, from the margin to the end of the paragraph;
// a greeting and a farewell are none.
func TestSentencesWithoutAListAreSteps(t *testing.T) {
	for text, want := range map[string]string{
		"Mash\n\nSteam 1 kg potatoes\nwith their skins on for 20 minutes. Mash with\n50 g butter.\n":                        "title Mash; step Steam 1 kg potatoes with their skins on for 20 minutes. Mash with 50 g butter.; ",
		"BEETROOT IN CREAM. Boil 2 lb of beetroot until tender. Stir in a gill of cream.\n":                                 "title BEETROOT IN CREAM; step Boil 2 lb of beetroot until tender. Stir in a gill of cream.; ",
		"Dear Bo,\n\nYou need about 1 kg of carrots and a knob of butter. Steam the carrots.\n\nI hope you are all well.\n": "note Dear Bo,; step You need about 1 kg of carrots and a knob of butter. Steam the carrots.; note I hope you are all well.; ",
		"Mash\n1 kg potatoes\n\nThe weather has been fine and the whole plot is green.\n":                                   "title Mash; ingredient 1 kg potatoes; step The weather has been fine and the whole plot is green.; ",
		"Salad\n\n* 1 kg potatoes\n* squeeze lemon juice\n* handful rocket\n* 25 g nuts\n\nSteam the potatoes.\n":           "title Salad; ingredient 1 kg potatoes; ingredient squeeze lemon juice; ingredient handful rocket; ingredient 25 g nuts; step Steam the potatoes.; ",
		"Salad\n\n1 kg potatoes\n1 lemon\nsqueeze the lemon\nsteam the potatoes\n":                                          "title Salad; ingredient 1 kg potatoes; ingredient 1 lemon; step squeeze the lemon; step steam the potatoes; ",
	} {
		r, err := saved.Read("a.txt", []byte(text), saved.Options{})
		require.NoError(t, err)
		got := ""
		for _, l := range r.Lines {
			got += l.Role.String() + " " + l.Text + "; "
		}
		assert.Equal(t, want, got)
	}
}
