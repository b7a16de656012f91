package units_test

import (
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
)

// gnuUnits asks GNU units for many conversions at once, one line of digits
// for each pair. Without the program the test skips, unless TRENCHER_LIVE=1.
func gnuUnits(t *testing.T, pairs [][2]string) []string {
	t.Helper()
	path, err := exec.LookPath("units")
	if err != nil {
		if os.Getenv("TRENCHER_LIVE") == "1" {
			t.Fatal("GNU units is not installed")
		}
		t.Skip("GNU units is not installed; the table it confirms is testdata/units/factors.csv")
	}
	var in strings.Builder
	for _, pair := range pairs {
		fmt.Fprintf(&in, "%s\n%s\n", pair[0], pair[1])
	}
	cmd := exec.Command(path, "--terse", "--quiet", "--digits", "15")
	cmd.Env = append(os.Environ(), "LC_ALL=C")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	require.Len(t, lines, len(pairs))
	return lines
}

// gnuTolerance is half a unit in the fourteenth significant digit: GNU units
// prints fifteen, of a double computed in several steps.
const gnuTolerance = 5e-14

// Every pair of units of one dimension agrees with GNU units.
func TestEveryPairAgreesWithGNUUnits(t *testing.T) {
	expression := map[string]string{}
	for _, row := range published(t, "factors.csv") {
		expression[row["unit"]] = row["gnu_units"]
	}
	var pairs [][2]string
	var ours []*big.Rat
	for _, from := range units.All() {
		for _, to := range units.All() {
			a, known := expression[from.Name()]
			b, alsoKnown := expression[to.Name()]
			one, err := units.FromRat(big.NewRat(1, 1), from).In(to)
			if !known || !alsoKnown || err != nil || from.Dimension() != to.Dimension() || from.Dimension() == units.Temperature {
				continue
			}
			pairs = append(pairs, [2]string{a, b})
			ours = append(ours, one.Rat())
		}
	}
	require.Greater(t, len(pairs), 3000)
	for i, digits := range gnuUnits(t, pairs) {
		requireSameDigits(t, ours[i], digits, pairs[i][0]+" -> "+pairs[i][1])
	}
	t.Logf("%d pairs agree to 14 digits", len(pairs))
}

// Temperatures and the gas oven's dial, which GNU units knows as functions.
func TestTemperaturesAgreeWithGNUUnits(t *testing.T) {
	function := map[units.Unit]string{units.Celsius: "tempC", units.Fahrenheit: "tempF", units.Kelvin: "tempK", units.GasMark: "gasmark"}
	var pairs [][2]string
	var ours []*big.Rat
	for _, from := range []units.Unit{units.Celsius, units.Fahrenheit, units.Kelvin, units.GasMark} {
		for _, to := range []units.Unit{units.Celsius, units.Fahrenheit, units.Kelvin} {
			for _, n := range []*big.Rat{big.NewRat(1, 4), big.NewRat(1, 2), big.NewRat(1, 1), big.NewRat(6, 1), big.NewRat(10, 1), big.NewRat(212, 1), big.NewRat(2004, 10)} {
				out, err := units.FromRat(n, from).In(to)
				if err != nil {
					continue // no such mark
				}
				pairs = append(pairs, [2]string{function[from] + "(" + n.FloatString(2) + ")", function[to]})
				ours = append(ours, out.Rat())
			}
		}
	}
	require.Greater(t, len(pairs), 70)
	for i, digits := range gnuUnits(t, pairs) {
		off, _ := new(big.Rat).Sub(ours[i], rat(t, strings.TrimSpace(digits))).Float64()
		require.InDelta(t, 0, off, 1e-11, "%v: %s", pairs[i], digits) // degrees of a double near 500
	}
}

// requireSameDigits holds a printed double to ours.
func requireSameDigits(t *testing.T, ours *big.Rat, digits, name string) {
	t.Helper()
	printed := rat(t, strings.TrimSpace(digits))
	off := new(big.Rat).Sub(ours, printed)
	off.Abs(off).Quo(off, ours)
	share, _ := off.Float64()
	require.LessOrEqual(t, share, gnuTolerance, "%s: GNU units says %s, we say %s", name, digits, ours.FloatString(20))
}
