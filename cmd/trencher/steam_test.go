package main

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// steamPlot is a plot folder with a kitchen.
func steamPlot(t *testing.T, kitchen string) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte("measures: metric\n"+kitchen), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "plantings.yaml"), []byte("[]\n"), 0o644))
	return dir
}

// Answers as printed. `go test ./cmd/trencher -run Steam -update` rewrites the
// files; read the difference before committing it.
func TestSteamGolden(t *testing.T) {
	folder, err := filepath.Abs("../../testdata/steaming/answers")
	require.NoError(t, err)
	for name, args := range map[string]string{
		"cube.txt":      `steam --crop potato|--cut|cube 25 mm`,
		"why.txt":       `steam --demo --crop potato|--cut|cube 25 mm|--why`,
		"load.txt":      `steam --demo|--cut|cube 25 mm|--load|2.4 kg|--cool|bowl 60 mm`,
		"load.json":     `steam --demo|--cut|cube 25 mm|--load|1.2 kg|--cool|tray|--json`,
		"heaped.txt":    `steam --demo|--cut|cube 25 mm|--load|2.4 kg|--heaped`,
		"lots.txt":      `steam --until tender --lot|20-45 mm|--lot|45-65 mm 1.2 kg`,
		"halves.json":   `steam --cut|halves|--lot|30-50 mm|--json`,
		"sizes.txt":     `steam --crop carrot --cut slice --sizes 6..20:2`,
		"sizes.json":    `steam --sizes 15..60 --kind floury --json`,
		"weight.json":   `steam --cut|whole|--tuber|120 g|--until|tender|--json`,
		"counted.txt":   `steam --crop beetroot --until tender --lot|900 g 6`,
		"slices.txt":    `steam --cut|slice 12 mm|--lot|10-65 mm`,
		"peas.txt":      `steam --crop peas --until tender`,
		"mountain.txt":  `steam --cut|whole 60 mm|--altitude|3500 m|--start|4 C`,
		"thin.txt":      `steam --crop courgette --cut|slice 5 mm`,
		"imperial.json": `steam --cut|cube 1 in|--start|59 F|--altitude|200 ft|--json`,
	} {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			out, errs, status := trencher("", words(args)...)
			require.Equal(t, statusDone, status, errs)
			file := filepath.Join(folder, name)
			if *update {
				require.NoError(t, os.MkdirAll(folder, 0o755))
				require.NoError(t, os.WriteFile(file, []byte(out), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), out)
			if strings.HasSuffix(name, ".txt") {
				requireNarrow(t, out)
				for _, word := range []string{"knife", "Steam burns", "boiling dry", "carbon monoxide"} {
					assert.Contains(t, out, word)
				}
			}
		})
	}
}

// words splits at spaces, or, from the first bar on, at bars.
func words(args string) []string {
	plain, quoted, _ := strings.Cut(args, "|")
	list := strings.Fields(plain)
	if quoted != "" {
		list = append(list, strings.Split(quoted, "|")...)
	}
	return list
}

// The fields scripts rely on.
func TestSteamFields(t *testing.T) {
	t.Chdir(t.TempDir())
	out, errs, status := trencher("", "steam", "--crop", "potato", "--cut", "cube 25 mm", "--kind", "waxy", "--start", "15 C", "--altitude", "0 m", "--until", "just-tender", "--json")
	require.Equal(t, statusDone, status, errs)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.InDelta(t, 8.6, got["minutes"], 0.05)
	assert.InDelta(t, 5.1, got["low"], 0.05)
	assert.InDelta(t, 13.1, got["high"], 0.05)
	assert.InDelta(t, 2.2, got["come_up_minutes"], 0.11)
	assert.InDelta(t, 100, got["steam_c"], 0.05)
	assert.InDelta(t, 95.2, got["centre_c"], 0.4)
	assert.Equal(t, true, got["in_range"])
	assert.Equal(t, 0.0, got["knife_tests"])

	out, errs, status = trencher("", "steam", "--demo", "--crop", "potato", "--cut", "cube 25 mm", "--load", "1.2 kg", "--json")
	require.Equal(t, statusDone, status, errs)
	clear(got)
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, 2.0, got["layers"])
	assert.Equal(t, 1.0, got["rounds"])
	for _, field := range []string{"grams_per_layer", "water_ml", "gas_g", "to_boil_minutes"} {
		assert.Positive(t, got[field], field)
	}
}

// Knife tests teach one kitchen and no other.
func TestSteamKnifeTests(t *testing.T) {
	mine := steamPlot(t, "stove: {power: 1.6 kW, gas: butane}\n")
	other := steamPlot(t, "stove: {power: 1.6 kW, gas: butane}\n")
	ask := func(dir string, more ...string) map[string]any {
		out, errs, status := trencher("", append([]string{"steam", "--plot", dir, "--cut", "cube 25 mm", "--json"}, more...)...)
		require.Equal(t, statusDone, status, errs)
		var got map[string]any
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		return got
	}
	before := ask(mine)
	for _, found := range []string{"11 min just-tender", "11.5 min just tender", "10 min just-tender"} {
		got := ask(mine, "--found", found)
		assert.NotNil(t, got["found"])
	}
	after := ask(mine)
	assert.Equal(t, 3.0, after["knife_tests"])
	assert.Greater(t, after["minutes"], before["minutes"])
	width := func(m map[string]any) float64 { return m["high"].(float64) / m["low"].(float64) }
	assert.Less(t, width(after), width(before))
	assert.Equal(t, before, ask(other))

	// Another crop's estimate is its own; a voided test is forgotten.
	out, _, _ := trencher("", "steam", "--plot", mine, "--crop", "carrot", "--cut", "slice 10 mm", "--json")
	assert.Contains(t, out, `"knife_tests": 0`)
	entries, err := filepath.Glob(filepath.Join(mine, "journal", "*", "*steamed*"))
	require.NoError(t, err)
	require.Len(t, entries, 3)
	for _, entry := range entries {
		out, errs, status := trencher("", "journal", "void", strings.TrimPrefix(entry, mine+"/"), "--because", "wrong pan", "--plot", mine)
		require.Equal(t, statusDone, status, out+errs)
	}
	assert.Equal(t, before, ask(mine))
}

// A knife test is written down with what it was made under, and what the knife said;
// one of before it was so, with the kitchen's own.
func TestKnifeTestKeepsWhatItWasMadeUnder(t *testing.T) {
	dir := steamPlot(t, "altitude: 410 m\nstove: {power: 1.6 kW, gas: butane}\n")
	run := func(args ...string) string {
		out, errs, status := trencher("", append([]string{"steam", "--plot", dir, "--cut", "cube 25 mm"}, args...)...)
		require.Equal(t, statusDone, status, errs)
		return strings.Join(strings.Fields(out), " ")
	}
	out := run("--found", "13 min not-yet just-tender", "--start", "6 C", "--load", "1.2 kg", "--tier", "1")
	assert.Contains(t, out, "potato, cube 25 mm, not yet just-tender after 13 min")
	entries, err := filepath.Glob(filepath.Join(dir, "journal", "*", "*steamed*"))
	require.NoError(t, err)
	require.Len(t, entries, 1)
	data, err := os.ReadFile(entries[0])
	require.NoError(t, err)
	for _, line := range []string{"said: not-yet\n", "minutes: 13\n", "load: 1200 g\n", "start: 6 C\n", "altitude: 410 m\n", "power: 599 W\n", "tier: 1\n"} {
		assert.Contains(t, string(data), line)
	}
	assert.Contains(t, run(), "Rests on 1 knife test in this kitchen")
	assert.NotContains(t, run(), "made under")

	// An entry of before says nothing of that.
	old := filepath.Join(dir, "journal", "2031", "0713-0909-steamed.yaml")
	require.NoError(t, os.MkdirAll(filepath.Dir(old), 0o755))
	require.NoError(t, os.WriteFile(old, []byte("kind: steamed\ncrop: potato\ncut: cube 25 mm\nuntil: just-tender\nminutes: 11.5\nat: 2031-07-13T14:00:00+01:00\n"), 0o644))
	assert.Contains(t, run(), "1 of them does not say what it was made under: taken as it is here now")
	assert.Contains(t, run("--why"), "taken to have started at 15 °C")

	var got struct {
		Tests    int `json:"knife_tests"`
		Modelled float64
		Learned  struct {
			Tests, Assumed   int
			TestsAssumed     int `json:"tests_assumed"`
			Factor, Doneness float64
			Offset           float64 `json:"offset_minutes"`
		}
		Found struct{ Said, Until string }
	}
	require.NoError(t, json.Unmarshal([]byte(run("--found", "9 min over tender", "--json")), &got))
	assert.Equal(t, "over", got.Found.Said)
	assert.Equal(t, "tender", got.Found.Until)
	assert.Equal(t, 3, got.Learned.Tests)
	assert.Equal(t, 3, got.Tests)
	assert.Equal(t, 1, got.Learned.TestsAssumed)
	assert.Positive(t, got.Learned.Factor)
	assert.Positive(t, got.Learned.Doneness)
	assert.NotZero(t, got.Learned.Offset)
}

// Not yet makes the next answer longer, over makes it shorter.
func TestNotYetAndOverTeach(t *testing.T) {
	minutes := func(dir string, more ...string) float64 {
		out, errs, status := trencher("", append([]string{"steam", "--plot", dir, "--cut", "cube 25 mm", "--json"}, more...)...)
		require.Equal(t, statusDone, status, errs)
		var got struct{ Minutes float64 }
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		return got.Minutes
	}
	hard, soft := steamPlot(t, ""), steamPlot(t, "")
	before := minutes(hard)
	assert.Greater(t, minutes(hard, "--found", "11 min not-yet just-tender"), before)
	assert.Less(t, minutes(soft, "--found", "7 min over just-tender"), before)
}

// A knife test that finds just what was told for a full steamer teaches next
// to nothing, whatever the load: it is weighed with what was in the steamer.
func TestKnifeTestCountsForItsLoad(t *testing.T) {
	minutes := func(dir string, more ...string) float64 {
		out, errs, status := trencher("", append([]string{"steam", "--plot", dir, "--cut", "cube 25 mm", "--json"}, more...)...)
		require.Equal(t, statusDone, status, errs)
		var got struct{ Minutes float64 }
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		return got.Minutes
	}
	for _, load := range []string{"0.3 kg", "1.2 kg", "3 kg"} {
		dir := steamPlot(t, "stove: {power: 1.6 kW, gas: butane}\n")
		told := minutes(dir, "--load", load)
		before := minutes(dir)
		minutes(dir, "--load", load, "--found", fmt.Sprintf("%.1f min just-tender", told))
		assert.InDelta(t, before, minutes(dir), 0.15, "what a load of %s teaches", load)
	}
}

func TestSteamChart(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "chart.svg")
	_, errs, status := trencher("", "steam", "--cut", "cube 25 mm", "--chart", file)
	require.Equal(t, statusDone, status, errs)
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	decoder := xml.NewDecoder(strings.NewReader(string(data)))
	for {
		if _, err := decoder.Token(); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
	}
	for _, word := range []string{"centre", "surface", "full steam", "test with a knife", "cube 25 mm"} {
		assert.Contains(t, string(data), word)
	}
	_, _, status = trencher("", "steam", "--cut", "cube 25", "--chart", filepath.Join(dir, "never.svg"))
	require.Equal(t, statusInput, status)
	assert.NoFileExists(t, filepath.Join(dir, "never.svg"))
}

// Wrong input: nothing on standard output, what is wrong and what is accepted
// on standard error.
func TestSteamRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	for args, says := range map[string][2]string{
		"steam":                                              {"no cut given", "cube 25 mm"},
		"steam --cut|cube":                                   {"no size", "cube 25 mm"},
		"steam --cut|cube 25":                                {"no unit of length", "cube 25 mm"},
		"steam --cut|cube 0 mm":                              {"no size for a piece", "2 to 200 mm"},
		"steam --cut|cube -25 mm":                            {"below zero", "cube 25 mm"},
		"steam --cut|julienne":                               {"not a cut", "cube 25 mm"},
		"steam --cut|halves":                                 {"no size", "halves 45 mm"},
		"steam --cut|cube 60 mm|--tuber|45 mm":               {"larger than the tuber", "at most 45 mm"},
		"steam --cut|cube 25 mm|--tuber|-45 mm":              {"--tuber", "mm"},
		"steam --cut|whole|--tuber|2 l":                      {"--tuber", "mm"},
		"steam --crop Rhubarb --cut|cube 25 mm":              {`--crop "Rhubarb": no figures for it in steam`, "potato, beetroot"},
		"steam --kind purple --cut|cube 25 mm":               {"no such kind", "waxy or floury"},
		"steam --until mushy --cut|cube 25 mm":               {"not known", "just-tender, tender or soft"},
		"steam --cut|cube 25 mm|--start|-5 C":                {`--start "-5 C": frozen`, "thaw"},
		"steam --cut|cube 25 mm|--start|90 C":                {"out of reach", "0 to 60"},
		"steam --cut|cube 25 mm|--start|15":                  {"--start", "C"},
		"steam --cut|cube 25 mm|--altitude|9000 m":           {"out of reach", "5500"},
		"steam --cut|cube 25 mm|--load|0 kg":                 {`--load "0 kg": out of reach`, "1 to"},
		"steam --cut|cube 25 mm|--load|2 l":                  {"--load", "g"},
		"steam --cut|cube 25 mm|--cool|bucket":               {"not a way", "tray, bowl"},
		"steam --cut|cube 25 mm|--room|80 C|--cool|tray":     {"out of reach", "-10 to 45"},
		"steam --cut|whole 200 mm|--until|soft":              {"not done after three hours", ""},
		"steam --sizes 60..15":                               {"not a span", "15..60"},
		"steam --sizes 0..15":                                {"no sizes for a piece", "15..60"},
		"steam --lot|45-20 kg":                               {"--lot", "20-45 mm"},
		"steam --lot|60":                                     {"--lot", "20-45 mm"},
		"steam --lot|20-45 foo":                              {`--lot "20-45 foo": unknown unit "foo"`, "20-45 mm"},
		"steam --lot|20-45 mm 3.5 pieces":                    {`--lot "20-45 mm 3.5 pieces": not a whole count`, "820 g 9"},
		"steam --cut|cube 25 mm|--cool|bowl 900 mm":          {`--cool "bowl 900 mm": out of reach`, "0 to 400 mm"},
		"steam --sizes|5..40|--cool|tray":                    {"--cut: none given", "cube 25 mm"},
		"steam --sizes|5..40|--chart|never.svg":              {"--chart: a chart is of one cut", "cube 25 mm"},
		"steam --lot|900 g":                                  {`--lot "900 g": neither sizes nor a weight and a count`, "20-45 mm"},
		"steam --lot|1-500 mm":                               {`--lot "1-500 mm": out of reach`, "2 to 200 mm"},
		"steam --cut|cube 25 mm|--found|9 min just-tender":   {"no plot here", "--plot DIR"},
		"steam --demo --cut|cube 25 mm|--found|9 min tender": {"read-only", "trencher begin DIR"},
		"steam --plot nowhere --cut|cube 25 mm":              {"nowhere", ""},
	} {
		out, errs, status := trencher("", words(args)...)
		assert.Equal(t, statusInput, status, args)
		assert.Empty(t, out, args)
		assert.Contains(t, errs, says[0], args)
		assert.Contains(t, errs, says[1], args)
	}
	plot := steamPlot(t, "")
	for _, tier := range []string{"0", "7", "two", "-1"} {
		_, errs, status := trencher("", "steam", "--cut", "cube 25 mm", "--found", "9 min tender", "--tier", tier)
		assert.Equal(t, statusInput, status, tier)
		assert.Contains(t, errs, `--tier "`+tier+`": no tier of a steamer`+"\n"+`hint: write 1, the lowest, to 6`, tier)
	}
	_, errs, status := trencher("", "steam", "--plot", plot, "--cut", "cube 25 mm", "--tier", "2", "--found", "9 min tender")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, `--tier "2": nothing lies so high`)
	for _, found := range []string{"9", "9 min", "9 min raw", "9 min over", "9 min under tender", "-9 min tender", "9 kg tender", "900 min tender", "tender 9 min"} {
		out, errs, status := trencher("", "steam", "--plot", plot, "--cut", "cube 25 mm", "--found", found)
		assert.Equal(t, statusInput, status, found)
		assert.Empty(t, out, found)
		assert.Contains(t, errs, "--found", found)
	}
	assert.NoDirExists(t, filepath.Join(plot, "journal"))
	_, _, status = trencher("", "steam", "--broil")
	assert.Equal(t, statusUsage, status)
}

// What a kitchen's knife tests teach goes into the plans of its dishes.
func TestPlansRestOnKnifeTests(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plot")
	_, errs, status := trencher("", "begin", dir)
	require.Equal(t, statusDone, status, errs)
	minutes := func() float64 {
		out, errs, status := trencher("", "dish", "Crushed potatoes with chives", "--plot", dir, "--portions", "4", "--json")
		require.Equal(t, statusDone, status, errs)
		var plan struct {
			Dishes []struct {
				Crops []struct {
					Steam struct {
						Minutes float64 `json:"minutes"`
					} `json:"steam"`
				} `json:"crops"`
			} `json:"dishes"`
		}
		require.NoError(t, json.Unmarshal([]byte(out), &plan))
		return plan.Dishes[0].Crops[0].Steam.Minutes
	}
	before := minutes()
	for range 4 {
		_, errs, status := trencher("", "steam", "--plot", dir, "--cut", "cube 25 mm", "--found", "11 min just-tender")
		require.Equal(t, statusDone, status, errs)
	}
	assert.Greater(t, minutes(), before*1.15)
}
