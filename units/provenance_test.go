package units_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
)

func TestProvenanceNamesTheRecord(t *testing.T) {
	assert.Equal(t, "NIST Handbook 44, Appendix C", units.Provenance{Source: "NIST Handbook 44", Record: "Appendix C"}.String())
	assert.Equal(t, units.NoSource, units.Practice.String())
	assert.Equal(t, units.Provenance{}, units.Unit{}.Origin(), "no unit, no source")
}

func ExampleWhy() {
	r := units.Why("1 pound", units.Pound.Definition(), units.Pound.Origin().Source, units.Pound.Origin().KnownBy)
	fmt.Println(r.Figure, "is", r.Value)
	fmt.Println(r.Provenance, "|", r.KnownBy)
	// Output:
	// 1 pound is 453.59237 g
	// UK Weights and Measures Act 1985, s. 1 and Schedule 1 | read
}
