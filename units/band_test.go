package units_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A band reads however it is written, and is written one way.
func TestBandsReadBack(t *testing.T) {
	for text, want := range map[string]units.Band{
		"20-45 mm": {Low: 20, High: 45}, " 20 - 45mm ": {Low: 20, High: 45}, "20 to 45 mm": {Low: 20, High: 45},
		"20–45 mm": {Low: 20, High: 45}, "20 mm-45 mm": {Low: 20, High: 45}, "20mm to45mm": {Low: 20, High: 45}, "0-500 mm": {Low: 0, High: 500},
	} {
		band, wrong := units.ParseBand(text)
		require.Nil(t, wrong, text)
		assert.Equal(t, want, band)
		again, wrong := units.ParseBand(band.String())
		require.Nil(t, wrong)
		assert.Equal(t, band, again)
		assert.True(t, band.IsGraded())
	}
	assert.Empty(t, units.Band{}.String(), "an ungraded lot has no sizes to write")
	assert.False(t, units.Band{}.IsGraded())
}

func TestBandsThatAreNone(t *testing.T) {
	for text, problem := range map[string]string{
		"20 mm": "no riddle band", "20-45": "no riddle band", "2-4 in": "no riddle band", "": "no riddle band", "20.5-45 mm": "no riddle band",
		"-45 mm": "no riddle band", "20- mm": "no riddle band", "20 45 mm": "no riddle band", "20/45 mm": "no riddle band", "20-45 mm wide": "no riddle band", "20-12345 mm": "no riddle band",
		"45-20 mm": "the sizes run from large to small", "45-45 mm": "the band has no width", "20-501 mm": "beyond any riddle (500 mm)",
	} {
		_, wrong := units.ParseBand(text)
		require.NotNil(t, wrong, text)
		assert.EqualError(t, wrong, problem)
		assert.NotEmpty(t, wrong.Accepted)
	}
}

// A lot goes into a dish if its whole band lies in the dish's, ends included;
// what was not graded goes anywhere.
func TestBandsWithinBands(t *testing.T) {
	dish := units.Band{Low: 25, High: 45}
	for lot, goes := range map[units.Band]bool{
		{Low: 25, High: 45}: true, {Low: 30, High: 40}: true, {Low: 24, High: 45}: false, {Low: 25, High: 46}: false, {Low: 46, High: 60}: false, {}: true,
	} {
		assert.Equal(t, goes, lot.Within(dish), "%s in %s", lot, dish)
		assert.True(t, lot.Within(units.Band{}), "a dish without sizes takes any")
	}
}

func ExampleParseBand() {
	band, _ := units.ParseBand("20 to 45 mm")
	fmt.Println(band, band.Within(units.Band{Low: 20, High: 60}))
	_, wrong := units.ParseBand("45-20 mm")
	fmt.Println(wrong, "|", wrong.Hint())
	// Output:
	// 20-45 mm true
	// the sizes run from large to small | write 20-45 mm
}
