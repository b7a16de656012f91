package harvest

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"trencher/units"
	"trencher/units/literal"
	"trencher/units/measures"
)

// library.go is what crops.yaml and stores.yaml make it.
func TestLibraryIsMade(t *testing.T) {
	var crops []CropRow
	decodeTable(t, "crops.yaml", &crops)
	for i := range crops {
		crops[i].Crop = measures.MustCrop(crops[i].ID).Name
	}
	var stores []StoreRow
	decodeTable(t, "stores.yaml", &stores)
	for i := range stores {
		stores[i].Crop = measures.MustCrop(stores[i].ID).Name
	}
	made := literal.File("harvest", "crops.yaml and stores.yaml", []string{"trencher/units"},
		literal.Table{Name: "cropTable", About: "is what is known of each crop, in the table's order.", Rows: crops},
		literal.Table{Name: "storeTable", About: "is what each crop loses in store.", Rows: stores})
	require.NoError(t, literal.Keep(map[string]string{"library.go": string(made)}, *update))
}

// decodeTable reads a table of ours; a field that nobody knows is a slip.
func decodeTable(t *testing.T, name string, rows any) {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	d := yaml.NewDecoder(file)
	d.KnownFields(true)
	require.NoError(t, d.Decode(rows))
}

// UnmarshalYAML reads 3-5.
func (d *Range) UnmarshalYAML(n *yaml.Node) error {
	if _, err := fmt.Sscanf(n.Value, "%d-%d", &d.Low, &d.High); err != nil {
		return fmt.Errorf("%q: write a range such as 3-5", n.Value)
	}
	return nil
}

// UnmarshalYAML reads [30, 0.015].
func (p *LossPoint) UnmarshalYAML(n *yaml.Node) error {
	var pair [2]float64
	err := n.Decode(&pair)
	p.Days, p.Share = pair[0], pair[1]
	return err
}

// UnmarshalYAML reads 03-20..04-20.
func (d *Dates) UnmarshalYAML(n *yaml.Node) error {
	from, to, _ := strings.Cut(n.Value, "..")
	var err error
	if d.From, err = units.ParseMonthDay(from); err == nil {
		d.To, err = units.ParseMonthDay(to)
	}
	return err
}

// UnmarshalYAML reads July or September-March.
func (m *Months) UnmarshalYAML(n *yaml.Node) error {
	first, last, ranged := strings.Cut(n.Value, "-")
	if !ranged {
		last = first
	}
	from, err := time.Parse("January", first)
	if err != nil {
		return err
	}
	to, err := time.Parse("January", last)
	m.From, m.To = from.Month(), to.Month()
	return err
}
