package units_test

import (
	"encoding/csv"
	"math/big"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// published reads a table of testdata/units; each row names its source.
func published(t testing.TB, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("../testdata/units/" + name)
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		require.NotEmpty(t, row["source"], record)
		require.Contains(t, []string{"read", "memory", "computed", "practice"}, row["known_by"], record)
		rows = append(rows, row)
	}
	return rows
}

func rat(t testing.TB, text string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(text)
	require.True(t, ok, text)
	return r
}

func unitNamed(t testing.TB, name string) units.Unit {
	t.Helper()
	for _, u := range units.All() {
		if u.Name() == name {
			return u
		}
	}
	require.Fail(t, "no unit of that name", name)
	return units.Unit{}
}

// Every unit's size is the published one, digit for digit: the UK Weights and
// Measures Acts, NIST Handbook 44 and the rest, as each row says.
func TestFactorsArePublished(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range published(t, "factors.csv") {
		u, in := unitNamed(t, row["unit"]), unitNamed(t, row["base"])
		seen[row["unit"]] = true
		one, err := units.FromRat(big.NewRat(1, 1), u).In(in)
		require.NoError(t, err)
		want := rat(t, row["factor"])
		if row["offset"] != "" {
			want.Add(want, rat(t, row["offset"]))
		}
		assert.Equal(t, want.RatString(), one.Rat().RatString(), "%s (%s)", row["unit"], row["source"])
	}
	for _, u := range units.All() {
		assert.NotEmpty(t, u.Origin().Source, "%s names no source", u)
		assert.Contains(t, []string{"read", "memory", "computed", "practice"}, u.Origin().KnownBy, "%s", u)
		if u.Dimension() != units.Count && u != units.GasMark {
			assert.True(t, seen[u.Name()], "%s stands in no published table", u)
		}
	}
}

// NIST SP 811 prints seven digits; ours round to them. Rows printed for the
// US survey foot are held to differ, and say so.
func TestFactorsRoundToSP811(t *testing.T) {
	for _, row := range published(t, "sp811.csv") {
		in, err := units.ParseUnit(row["in"], units.NoSystem)
		require.NoError(t, err)
		one, err := units.FromRat(big.NewRat(1, 1), unitNamed(t, row["unit"])).In(in)
		require.NoError(t, err)
		rounded, _ := one.Rounded(7)
		agrees := rounded.Rat().Cmp(rat(t, row["printed"])) == 0
		assert.Equal(t, row["exception"] == "", agrees, "%s: %s, printed %s", row["unit"], rounded, row["printed"])
	}
}

// Every UCUM code is read as it stands, and is worth what UCUM says.
func TestUCUMCodes(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range published(t, "ucum.csv") {
		u, err := units.ParseUnit(row["code"], units.NoSystem)
		if row["code"] == "t" { // in a cook's hand a teaspoon; a tonne in JSON alone
			u, err = units.Tonne, nil
		}
		require.NoError(t, err, row["code"])
		require.Equal(t, row["code"], u.Code())
		seen[row["code"]] = true
		in, err := units.ParseUnit(row["in"], units.NoSystem)
		require.NoError(t, err)
		one, err := units.FromRat(big.NewRat(1, 1), u).In(in)
		require.NoError(t, err)
		rounded, _ := one.Rounded(10)
		agrees := rounded.Rat().Cmp(rat(t, row["value"])) == 0
		assert.Equal(t, row["exception"] == "", agrees, "%s: %s %s", row["code"], rounded, row["value"])
	}
	for _, u := range units.All() {
		if code := u.Code(); code != u.Name() && !strings.HasPrefix(code, "{") {
			assert.True(t, seen[code], "%s is not checked against UCUM", code)
		}
	}
}

// The marks of a gas oven against the makers' rule, in F and in C.
func TestGasMarks(t *testing.T) {
	rows := published(t, "gasmarks.csv")
	require.Len(t, rows, 12)
	for _, row := range rows {
		mark, err := units.Parse("gas mark "+row["mark"], units.UK)
		require.NoError(t, err)
		f, err := mark.In(units.Fahrenheit)
		require.NoError(t, err)
		assert.Equal(t, row["fahrenheit"]+" F", f.String())
		c, err := mark.In(units.Celsius)
		require.NoError(t, err)
		assert.Equal(t, rat(t, row["celsius"]).RatString(), c.Rat().RatString())
		back, err := c.In(units.GasMark)
		require.NoError(t, err)
		assert.True(t, back.Same(mark))
	}
}

func TestBetweenGasMarks(t *testing.T) {
	for _, row := range []struct {
		heat, nearest string
		near          bool
	}{
		{"200 C", "gas mark 6", true},
		{"180 C", "gas mark 4", true},
		{"220 C", "gas mark 7", true},
		{"100 C", "gas mark ¼", false},
		{"266 C", "gas mark 10", true},
		{"300 C", "gas mark 10", false},
	} {
		_, err := units.MustParse(row.heat).In(units.GasMark)
		var off *units.MarkError
		require.ErrorAs(t, err, &off)
		assert.Equal(t, row.nearest, off.Nearest.String())
		assert.Equal(t, row.near, off.IsNear(), row.heat)
	}
	for _, none := range []string{"gas mark 11", "gas mark 0", "gas mark 2.5", "gas mark 3/4"} {
		_, err := units.Parse(none, units.UK)
		assert.ErrorContains(t, err, "there is no gas mark", none)
	}
}
