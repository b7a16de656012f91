package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/steaming"
	"trencher/units"
	"trencher/units/measures"
)

// A figure is one row of an embedded table: which it is, where it comes from
// and how that is known.
type figure struct{ table, row, source, knownBy string }

// figures walks every embedded table of the house.
func figures() []figure {
	return slices.Concat(unitFigures(), measureFigures(), yieldFigures(), allergenFigures(),
		harvestFigures(), steamingFigures(), keepingFigures())
}

func unitFigures() (all []figure) {
	for _, u := range units.All() {
		source, knownBy := u.Origin()
		all = append(all, figure{"units", u.Name(), source, knownBy})
	}
	return all
}

func measureFigures() (all []figure) {
	table := measures.Default()
	for _, ingredient := range table.Ingredients() {
		for _, row := range table.Rows(ingredient) {
			all = append(all, figure{"measures", ingredient + " " + row.State + " " + row.Measure.String(), row.Source, row.KnownBy})
		}
	}
	return all
}

func yieldFigures() (all []figure) {
	for _, row := range recipes.YieldRows() {
		all = append(all, figure{"yields", row.Crop + " " + row.From + " to " + row.To, row.Source, row.KnownBy})
	}
	return all
}

func allergenFigures() (all []figure) {
	for _, item := range recipes.Ingredients() {
		row := recipes.Allergens(item)
		all = append(all, figure{"allergens", item, row.Source, row.KnownBy})
	}
	return all
}

func harvestFigures() (all []figure) {
	add := func(row string, f harvest.Figure) {
		all = append(all, figure{"crops", row, f.Source, f.KnownBy})
	}
	for _, crop := range harvest.Crops() {
		for _, w := range crop.Windows {
			add(crop.Crop+" window "+w.Class, w.Figure)
		}
		for _, s := range append(crop.Signs, crop.Left) {
			add(crop.Crop+": "+s.Says, s.Figure)
		}
		if crop.Size != nil {
			add(crop.Crop+" size", crop.Size.Figure)
		}
		for _, k := range crop.Keeps {
			add(crop.Crop+" keeps "+k.Class, k.Figure)
		}
		for _, y := range crop.Yields {
			add(crop.Crop+" yield "+y.Class, y.Figure)
		}
		if k, ok := harvest.RawKeeping(crop.Crop, "", harvest.Damaged); ok {
			add(crop.Crop+" keeps, damaged", k.Figure)
		}
	}
	return all
}

func steamingFigures() (all []figure) {
	for _, crop := range steaming.Crops() {
		all = append(all,
			figure{"steamed crops", crop.Title() + " composition", crop.Source, crop.KnownBy},
			figure{"steamed crops", crop.Title() + " doneness", crop.TargetSource, crop.TargetKnownBy})
	}
	for _, fuel := range steaming.FuelRows() {
		all = append(all, figure{"fuels", fuel.Name, fuel.Source, fuel.KnownBy})
	}
	return all
}

func keepingFigures() (all []figure) {
	for _, rule := range keeping.Rules() {
		all = append(all, figure{"keeping rules", rule.ID, rule.Source.String(), rule.KnownBy})
	}
	return all
}

// No row of any embedded table stands without its source and how that source
// is known.
func TestEveryRowNamesItsSource(t *testing.T) {
	known := []string{"read", "memory", "computed", "practice", "judgement"}
	rows := map[string]int{}
	for _, f := range figures() {
		rows[f.table]++
		at := f.table + ": " + f.row
		assert.NotEmpty(t, strings.TrimSpace(f.source), at)
		assert.NotRegexp(t, `https?:|www\.`, f.source, at)
		words := strings.FieldsFunc(f.knownBy, func(r rune) bool { return r == ' ' || r == ';' })
		assert.NotEmpty(t, words, at)
		for _, word := range words {
			if word != "targets" {
				assert.Contains(t, known, word, at)
			}
		}
		if strings.HasPrefix(f.source, "common practice") {
			assert.NotContains(t, []string{"read", "computed"}, f.knownBy, "%s: a habit is not read anywhere", at)
		}
	}
	for table, least := range map[string]int{"units": 90, "measures": 700, "yields": 130, "allergens": 380,
		"crops": 150, "steamed crops": 26, "fuels": 4, "keeping rules": 100} {
		assert.GreaterOrEqual(t, rows[table], least, "rows of %s walked", table)
	}
}

// Every line of the guidance on a food rests on a rule, or says that it is
// ours.
func TestEveryLineOfGuidanceRestsOnARule(t *testing.T) {
	for _, id := range keeping.FoodIDs() {
		guide, err := keeping.Guide(id)
		assert.NoError(t, err, id)
		for _, section := range guide.Sections {
			for _, line := range section.Lines {
				assert.True(t, line.Ours || len(line.Rules) > 0, "%s, %s: %s", id, section.Name, line.Says)
				for _, rule := range line.Rules {
					_, ok := keeping.LookupRule(rule)
					assert.True(t, ok, "%s cites %s, which is no rule", id, rule)
				}
			}
		}
	}
}
