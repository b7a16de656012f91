package heat

import (
	"encoding/csv"
	"flag"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/literal"
)

var update = flag.Bool("update", false, "make library.go anew")

// library.go is what printed.csv and printed-sources.csv make it.
func TestPrintedTimesAreMade(t *testing.T) {
	made := literal.File("heat", "printed.csv and printed-sources.csv", []string{"trencher/units"},
		literal.Table{Name: "printedTimes", About: "are the rows of the printed tables.", Rows: makePrinted(t)})
	require.NoError(t, literal.Keep(map[string]string{"library.go": string(made)}, *update))
}

func makePrinted(t *testing.T) []Printed {
	type publication struct {
		style Doneness
		old   bool
		name  string
	}
	sources := map[string]publication{}
	for _, r := range rowsOf(t, "printed-sources.csv") {
		style, _ := ParseDoneness(r[1]) // a table of blanching has none
		sources[r[0]] = publication{style, r[1] == "older", r[2]}
	}
	var all []Printed
	for _, r := range rowsOf(t, "printed.csv") {
		number := func(text string) float64 {
			x, err := strconv.ParseFloat(text, 64)
			if err != nil && text != "" {
				panic("printed.csv: " + err.Error())
			}
			return x
		}
		from, known := sources[r[11]]
		if !known {
			panic("printed.csv: no source " + r[11])
		}
		p := Printed{ID: r[0], Crop: r[1], Piece: r[2], Way: Way(r[3]), Low: number(r[4]), High: number(r[5]), From: From(r[6]), Wished: r[7],
			SmallMM: number(r[9]), LargeMM: number(r[10]), Style: from.style, Provenance: units.Provenance{Source: from.name, Record: r[0], KnownBy: r[12]}, old: from.old}
		if r[8] != "" {
			shape, err := ParseShape(r[8])
			if err != nil {
				panic("printed.csv: " + err.Error())
			}
			p.Shape = shape
		}
		all = append(all, p)
	}
	return all
}

// rowsOf are the rows of a table but its heading.
func rowsOf(t *testing.T, name string) [][]string {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	return records[1:]
}
