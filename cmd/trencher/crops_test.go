package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units/measures"
)

// What is planted under a name is found by a dish that asks for the same name,
// whichever of its names that is; and steamed by either.
func TestCropsMeetByAnyName(t *testing.T) {
	for _, crop := range measures.Crops() {
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			assert.Equal(t, recipes.CropName(name), recipes.CropName(harvest.CropName(name)), "planted and cooked as %q", name)
			_, asCooked := heat.LookupCrop(recipes.CropName(name), "")
			_, asNamed := heat.LookupCrop(name, "")
			assert.Equal(t, asCooked == nil, asNamed == nil, "steamed as %q", name)
		}
	}
}

// Every table of figures speaks of crops that the one table of names has, and
// of each as it counts where the figure is used: a crop is added by a row of
// names there and its figures here.
func TestFiguresAreOfNamedCrops(t *testing.T) {
	for _, row := range harvest.Crops() {
		crop, ok := measures.CropByID(row.ID)
		require.True(t, ok, row.ID)
		assert.Equal(t, crop.Name, row.Crop)
	}
	for _, row := range csvRows(t, "../../recipes/yields.csv") {
		crop, ok := measures.CropByID(row[1])
		require.True(t, ok, row[1])
		assert.Equal(t, crop.ID, crop.InKitchen().ID, "a yield is of what the kitchen calls it")
	}
	for _, row := range heat.Crops() {
		crop, ok := measures.CropNamed(row.Name)
		require.True(t, ok, row.Name)
		assert.Equal(t, crop.ID, crop.InKitchen().ID, "steamed by what the kitchen calls it")
	}
}

// A plot of beans, squash, salad and sweetcorn, none of them a potato: each
// goes into the dish that asks for it.
func TestOtherCropsAreSharedToo(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.MkdirAll("dishes", 0o755))
	require.NoError(t, os.MkdirAll("journal/2031", 0o755))
	write := func(file, text string) { require.NoError(t, os.WriteFile(file, []byte(text), 0o644)) }
	write("kitchen.yaml", "measures: metric\n")
	var plantings strings.Builder
	crops := []string{"French beans", "climbing French beans", "pumpkin", "lettuce", "sweet corn", "courgettes"}
	for i, crop := range crops {
		fmt.Fprintf(&plantings, "- {id: row-%d, crop: %s, planted: 2031-04-20, bed: 1 m2}\n", i, crop)
		write(fmt.Sprintf("journal/2031/0719-100%d-lift-row-%d.yaml", i, i),
			fmt.Sprintf("kind: lift\nplanting: row-%d\nat: 2031-07-19T10:0%d:00+01:00\nweighings: [{gross: 1 kg}]\n", i, i))
		if crop != "climbing French beans" { // they go with the dwarf ones
			write(fmt.Sprintf("dishes/%d.yaml", i), fmt.Sprintf("name: Dish of %s\nportions: 4\nlargest: 40\ncrops: [{crop: %s, amount: 400 g}]\n", crop, crop))
		}
	}
	write("plantings.yaml", plantings.String())
	out := tell(t, "share --dishes 5 --on 2031-07-19")
	assert.Contains(t, out, "60 portions, plan ")
	assert.Contains(t, out, "20  Dish of French beans")
	assert.Contains(t, out, "10  Dish of pumpkin")
	held := tell(t, `share --dishes 5 --on 2031-07-19 --keep-back "500 g French beans"`)
	assert.Contains(t, held, "15  Dish of French beans")
}
