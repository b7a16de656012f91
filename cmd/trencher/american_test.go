package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/demo"
)

// A kitchen that measures in cups and fluid ounces reads its own words on
// paper and screen, and never a code.
func TestAnAmericanKitchenReadsNoCodes(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.CopyFS(".", demo.Plot()))
	edit(t, "~ kitchen.yaml: measures: metric => measures: us")
	edit(t, "~ dishes/beetroot-and-potato.yaml: amount: 80 ml => amount: 2.2 fl oz")
	out := tell(t, "dish Beetroot --portions 6 --sheet sheet.html")
	sheet, err := os.ReadFile("sheet.html")
	require.NoError(t, err)
	for _, face := range []string{out, string(sheet)} {
		assert.True(t, strings.Contains(face, "3.3 fl oz"), "the exact amount, in words")
		assert.False(t, strings.Contains(face, "_us"), "a code of UCUM")
	}
}
