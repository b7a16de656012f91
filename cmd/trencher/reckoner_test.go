package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Dishes that are boiled, blanched and cooked the grower's own way, beside the
// demo's, which are steamed. Invented.
const (
	boiledDish = `name: Boiled carrots
portions: 4
served: hot
smallest: 2
largest: 6
crops:
  - {crop: carrot, amount: 500 g, prepared: peeled, cut: slice 10 mm, cook: boil, until: tender}
others:
  - {item: butter, amount: 30 g}
`
	bakedDish = `name: Baked potatoes
portions: 2
served: hot
smallest: 1
largest: 4
crops:
  - {crop: potato, amount: 500 g, prepared: scrubbed, cut: whole, cook: own, takes: 60 min, uses: oven}
`
)

// table is a table of the reckoner: its heads and its rows, the first column by name.
type table struct {
	heads []string
	rows  [][]string
}

var (
	tableOf = regexp.MustCompile(`(?s)<table class="(\w+)">(.*?)</table>`)
	rowOf   = regexp.MustCompile(`(?s)<tr[^>]*>(.*?)</tr>`)
	cellOf  = regexp.MustCompile(`(?s)<t[hd][^>]*>(.*?)</t[hd]>`)
	tags    = regexp.MustCompile(`<[^>]+>`)
)

// tablesOf takes the tables of a kind off a reckoner. A cell of two parts has a space
// between them.
func tablesOf(page, class string) (all []table) {
	for _, found := range tableOf.FindAllStringSubmatch(page, -1) {
		if found[1] != class {
			continue
		}
		var one table
		for i, row := range rowOf.FindAllStringSubmatch(found[2], -1) {
			var cells []string
			for _, cell := range cellOf.FindAllStringSubmatch(row[1], -1) {
				text := tags.ReplaceAllString(strings.ReplaceAll(cell[1], "</b>", " "), "")
				cells = append(cells, strings.ReplaceAll(strings.TrimSpace(text), "&#43;", "+"))
			}
			if i == 0 {
				one.heads = cells
				continue
			}
			one.rows = append(one.rows, cells)
		}
		all = append(all, one)
	}
	return all
}

func reckonedPlot(t *testing.T) (page string) {
	t.Helper()
	onDemoCopy(t)
	require.NoError(t, os.WriteFile("dishes/boiled.yaml", []byte(boiledDish), 0o644))
	require.NoError(t, os.WriteFile("dishes/baked.yaml", []byte(bakedDish), 0o644))
	out := filepath.Join(t.TempDir(), "shed.html")
	tell(t, fmt.Sprintf(`reckoner %q "Beetroot and potato with horseradish" "Cold potato salad with yoghurt" "Boiled carrots" "Baked potatoes"`, out))
	data, err := os.ReadFile(out)
	require.NoError(t, err)
	return string(data)
}

// everyFigure tells that all columns are compared, and not every third.
func everyFigure() bool { return os.Getenv("TRENCHER_LONG") != "" }

// answer asks one command and reads its JSON.
func answer[T any](t *testing.T, line string) (read T) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(tell(t, line+" --json")), &read), line)
	return read
}

// Every weight and measure on it is what `dish` says of that number of portions.
func TestReckonerMeasuresAsDishDoes(t *testing.T) {
	page := reckonedPlot(t)
	names := regexp.MustCompile(`<h2>([^<]+) <small>`).FindAllStringSubmatch(page, -1)
	tables := tablesOf(page, "dish")
	require.Len(t, names, 4)
	require.Len(t, tables, 4)
	compared := 0
	for i, name := range names {
		for column, portions := range tables[i].heads[1:] {
			if column%3 != 0 && !everyFigure() {
				continue
			}
			plan := answer[struct {
				Dishes []struct {
					Portions int
					Crops    []struct {
						Crop   string
						Lifted string `json:"lifted_g"`
					}
					Others []struct{ Item, Measured, Exact string }
				}
			}](t, fmt.Sprintf("dish %q --portions %s", name[1], portions))
			dish := plan.Dishes[0]
			for line, crop := range dish.Crops {
				grams, err := strconv.ParseFloat(crop.Lifted, 64)
				require.NoError(t, err)
				assert.Equal(t, weighed(grams), tables[i].rows[line][column+1], "%s of %s for %s", crop.Crop, name[1], portions)
				compared++
			}
			for _, other := range dish.Others {
				for _, row := range tables[i].rows[len(dish.Crops):] {
					if strings.HasPrefix(row[0], other.Item) {
						assert.Equal(t, other.Measured, strings.TrimPrefix(row[column+1], "≈ "), "%s for %s of %s", other.Item, portions, name[1])
						compared++
					}
				}
			}
		}
	}
	assert.Greater(t, compared, 20)
}

// weighed is a weight as every face shows it.
func weighed(grams float64) string {
	if math.Round(grams) < 1000 {
		return fmt.Sprintf("%.0f g", grams)
	}
	return fmt.Sprintf("%.2f kg", math.Round(grams/10)/100)
}

// rounded is what the JSON's figures to one place may be off by.
const rounded = 0.05 + 1e-6

type heated struct {
	Minutes, Low, High float64
	FromLoading        float64 `json:"from_loading"`
	FromLoadingLow     float64 `json:"from_loading_low"`
	FromLoadingHigh    float64 `json:"from_loading_high"`
	WaterML            float64 `json:"water_ml"`
	GasG               float64 `json:"gas_g"`
	Rounds             int
}

// Minutes by size, and what a weight takes, are what `steam` and `boil` say.
func TestReckonerHeatsAsSteamAndBoilDo(t *testing.T) {
	page := reckonedPlot(t)
	ways := regexp.MustCompile(`^(\w+)(?: \((\w+)\))?, (\w+)(?: ([\d ]+mm))?, (steamed|boiled) (just tender|tender|soft)$`)
	command := func(words []string, cut string) string {
		line := map[string]string{"steamed": "steam", "boiled": "boil"}[words[5]] + " --crop " + words[1] + fmt.Sprintf(" --cut %q --until ", cut) + strings.ReplaceAll(words[6], " ", "-")
		if words[2] != "" {
			line += " --kind " + words[2]
		}
		return line
	}
	sizes, loads := 0, 0
	for _, times := range tablesOf(page, "times") {
		for _, row := range times.rows {
			words := ways.FindStringSubmatch(row[0])
			require.NotNil(t, words, row[0])
			for i, cell := range row[1:] {
				if i%3 != 1 && !everyFigure() {
					continue
				}
				said := answer[heated](t, command(words, words[3]+" "+times.heads[i+1]+" mm"))
				var usual, low, high float64
				_, err := fmt.Sscanf(cell, "%f %f–%f", &usual, &low, &high)
				require.NoError(t, err, cell)
				about := fmt.Sprintf("%s, %s mm", row[0], times.heads[i+1])
				assert.InDelta(t, said.Minutes, usual, 0.5+rounded, about)
				assert.LessOrEqual(t, low, max(1, said.Low+rounded), "the knife goes in no later: "+about)
				assert.Greater(t, low, said.Low-1-rounded, about)
				assert.GreaterOrEqual(t, high, said.High-rounded, "nobody gives up sooner: "+about)
				assert.Less(t, high, said.High+1+rounded, about)
				sizes++
			}
		}
	}
	weights := tablesOf(page, "loads")
	require.Len(t, weights, 1)
	for _, row := range weights[0].rows {
		words := ways.FindStringSubmatch(row[0])
		require.NotNil(t, words, row[0])
		for i, cell := range row[1:] {
			said := answer[heated](t, command(words, words[3]+" "+words[4])+fmt.Sprintf(" --load %q", weights[0].heads[i+1]))
			fillings, minutes, several := strings.Cut(cell, " × ")
			if !several {
				fillings, minutes = "1", cell
			}
			assert.Equal(t, fmt.Sprint(said.Rounds), fillings, row[0])
			var usual, low, high float64
			_, err := fmt.Sscanf(minutes, "%f (%f–%f)", &usual, &low, &high)
			require.NoError(t, err, cell)
			assert.InDelta(t, said.FromLoading, usual, 0.5+rounded, row[0])
			if said.FromLoadingHigh > 0 {
				assert.InDelta(t, said.FromLoadingLow-0.5, low, 0.5+rounded, row[0])
				assert.InDelta(t, said.FromLoadingHigh+0.5, high, 0.5+rounded, row[0])
			}
			assert.Contains(t, cell, fmt.Sprintf(", %.0f", math.Ceil(said.GasG)), row[0])
			water := regexp.MustCompile(`([\d.]+) (l|ml),`).FindStringSubmatch(cell)
			require.NotNil(t, water, cell)
			ml, err := strconv.ParseFloat(water[1], 64)
			require.NoError(t, err)
			if water[2] == "l" {
				ml *= 1000
			}
			assert.GreaterOrEqual(t, ml, said.WaterML-1e-6, "never too little")
			assert.LessOrEqual(t, ml, said.WaterML+100, row[0])
			loads++
		}
	}
	assert.GreaterOrEqual(t, sizes, 8)
	assert.Equal(t, 12, loads)
	assert.Contains(t, page, "Potato for Baked potatoes: 60 min in the oven, your own minutes.")
}

// How long a bowl may stand is what `keep` says of that history.
func TestReckonerKeepsAsKeepDoes(t *testing.T) {
	page := reckonedPlot(t)
	stands := tablesOf(page, "stands")
	require.Len(t, stands, 1)
	histories := map[int]string{
		1: `--cooked-at 2031-07-19T12:00 --air "21 C" --now 2031-07-19T%s`,
		2: `--cooked-at 2031-07-19T12:00 --air "33 C" --now 2031-07-19T%s`,
	}
	for _, row := range stands[0].rows {
		foods := answer[struct{ Food string }](t, fmt.Sprintf("keep --dish %q", row[0]))
		for column, history := range histories {
			within, err := time.ParseDuration(strings.ReplaceAll(strings.TrimPrefix(row[column], "under "), " ", ""))
			require.NoError(t, err, row)
			noon := time.Date(2031, 7, 19, 12, 0, 0, 0, time.UTC)
			for at, good := range map[time.Time]bool{noon.Add(within - time.Minute): true, noon.Add(within + time.Minute): false} {
				line := fmt.Sprintf("keep --food %q ", foods.Food) + fmt.Sprintf(history, at.Format("15:04"))
				verdict := answer[struct{ Verdict string }](t, line).Verdict
				assert.Equal(t, good, verdict != "discard", "%s: %s", line, verdict)
			}
		}
		for column, eater := range map[int]string{3: "", 5: " --eater vulnerable"} {
			var hours int
			_, err := fmt.Sscanf(row[column], "%d h", &hours)
			require.NoError(t, err, row)
			said := answer[struct{ Until time.Time }](t, fmt.Sprintf(`keep --food %q --cooked-at 2031-07-18T12:00 --chilled-at 2031-07-18T12:30 --now 2031-07-18T12:31%s`, foods.Food, eater))
			noon := time.Date(2031, 7, 18, 12, 0, 0, 0, said.Until.Location())
			assert.Equal(t, time.Duration(hours)*time.Hour, said.Until.Sub(noon), "%s, column %d", row[0], column)
		}
	}
}

// It goes where other answers may go: not over a plot's files, over another's only
// with --force; a dish there is not is an error, and nothing is written.
func TestReckonerWritesNothingOfTheirs(t *testing.T) {
	onDemoCopy(t)
	require.NoError(t, os.WriteFile("letter.html", []byte("<p>Dear aunt</p>"), 0o644))
	before, err := os.ReadFile("kitchen.yaml")
	require.NoError(t, err)
	for line, says := range map[string]string{
		"reckoner kitchen.yaml":          "place for the plot's own files",
		"reckoner dishes/shed.html":      "place for the plot's own files",
		"reckoner letter.html":           "not made by trencher",
		`reckoner shed.html "Nettles"`:   `dish "Nettles": no dish of that name`,
		"reckoner no-such-folder/s.html": "no folder",
	} {
		args, err := splitWords(line)
		require.NoError(t, err)
		out, errs, status := trencher("", args...)
		assert.Equal(t, statusInput, status, line)
		assert.Empty(t, out, line)
		assert.Contains(t, errs, says, line)
	}
	assert.NoFileExists(t, "shed.html")
	_, errs, status := trencher("", "reckoner")
	assert.Equal(t, statusUsage, status, errs)
	assert.Contains(t, tell(t, "reckoner letter.html --force"), "of 5 dishes", "the demo's fit")
	tell(t, "reckoner letter.html")
	after, err := os.ReadFile("kitchen.yaml")
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}
