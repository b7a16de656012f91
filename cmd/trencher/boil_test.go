package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The fields that scripts read of boiling and blanching.
func TestBoilAndBlanchFields(t *testing.T) {
	t.Chdir(t.TempDir())
	answer := func(args ...string) map[string]any {
		out, errs, status := trencher("", append(args, "--json")...)
		require.Equal(t, statusDone, status, errs)
		var got map[string]any
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		return got
	}
	boil := answer("boil", "--crop", "potato", "--cut", "cube 25 mm", "--until", "tender", "--load", "500 g")
	for _, field := range []string{"minutes", "from_loading", "low", "high", "back_to_boil_minutes", "water_ml", "gas_g", "centre_c"} {
		assert.Positive(t, boil[field], field)
	}
	assert.InDelta(t, boil["from_loading"], boil["minutes"].(float64)+boil["back_to_boil_minutes"].(float64), 0.11)
	blanch := answer("blanch", "--crop", "peas", "--cut", "whole", "--load", "1 kg")
	for _, field := range []string{"minutes", "printed_minutes", "log_reduction", "ice_g", "cool_minutes", "water_ml", "centre_c"} {
		assert.Positive(t, blanch[field], field)
	}
	assert.Equal(t, 1.5, blanch["printed_minutes"])
	require.NotEmpty(t, blanch["freezing"], "what keeping says of the freezer")
	assert.Contains(t, blanch["freezing"].([]any)[0].(map[string]any)["rules"], "freezer-18c")

	steam := answer("steam", "--cut", "cube 25 mm", "--load", "1.2 kg")
	tiers := steam["tiers"].([]any)
	require.Len(t, tiers, 2)
	assert.Equal(t, 1.0, tiers[0].(map[string]any)["tier"])
	assert.Equal(t, "even", steam["surface"])
	assert.Equal(t, "just-tender", steam["style"])
	assert.Positive(t, steam["from_loading_low"])
	weak := answer("steam", "--cut", "cube 10 mm", "--demo", "--load", "1.4 kg", "--heaped")
	assert.Positive(t, weak["from_loading"])
}

// Answers of a pot as printed; -update writes the files anew.
func TestPotGolden(t *testing.T) {
	folder, err := filepath.Abs("../../testdata/steaming/answers")
	require.NoError(t, err)
	for name, args := range map[string]string{
		"boiled.txt":   `boil --demo|--cut|cube 25 mm|--load|2 kg`,
		"simmered.txt": `boil --demo --until tender --cut|whole 80 mm|--simmer|93 C`,
		"blanched.txt": `blanch --demo --crop|green beans|--load|800 g`,
	} {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			out, errs, status := trencher("", words(args)...)
			require.Equal(t, statusDone, status, errs)
			file := filepath.Join(folder, name)
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(out), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), out)
			requireNarrow(t, out)
			for _, word := range []string{"Boiling water and its steam burn", "carbon monoxide"} {
				assert.Contains(t, out, word)
			}
		})
	}
}

// Wrong words about a pot name their flag.
func TestBoilWrongInputs(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, row := range []struct {
		args []string
		says string
	}{
		{[]string{"boil"}, "--cut"},
		{[]string{"boil", "--cut", "cube 25 mm", "--simmer", "50 C"}, `--simmer "50 C": no simmer`},
		{[]string{"boil", "--cut", "cube 25 mm", "--simmer", "warm"}, "--simmer"},
		{[]string{"boil", "--cut", "cube 25 mm", "--water", "999 l"}, `--water "999 l": out of reach`},
		{[]string{"boil", "--cut", "cube 25 mm", "--water", "0 l"}, "--water \"0 l\": not above nought\nhint: write an amount, as 2 l"},
		{[]string{"boil", "--cut", "cube 25 mm", "--simmer", "0 C"}, "--simmer \"0 C\": not above nought\nhint: write a temperature, as 94 C"},
		{[]string{"boil", "--cut", "cube 25 mm", "--water", "-1 l"}, "--water"},
		{[]string{"boil", "--cut", "halves"}, "--cut"},
		{[]string{"boil", "--crop", "granite", "--cut", "cube 25 mm"}, "--crop"},
		{[]string{"blanch", "--cut", "cube 25"}, "--cut"},
		{[]string{"blanch", "--crop", "peas", "--load", "0 g"}, "--load"},
	} {
		out, errs, status := trencher("", row.args...)
		assert.Equal(t, statusInput, status, "%v", row.args)
		assert.Empty(t, out)
		assert.Contains(t, errs, row.says, "%v", row.args)
	}
}
