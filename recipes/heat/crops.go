package heat

import (
	"fmt"

	"trencher/units"
)

// foodTables is where every crop's composition comes from.
var foodTables = units.Provenance{
	Source: "rounded from the US food composition tables (USDA Standard Reference), raw", KnownBy: "memory",
}

const leeReview = "Lee (2017), Kinetic Data for Texture Changes of Foods During Thermal Processing, Food Engineering Progress 21(4)"

// crops is the table of crops; a name is one of those in units/measures/crops.csv.
// Another crop is another row.
var crops = [...]Crop{
	{
		Name: "potato", Kind: "waxy", Length: 1.3, WidthMM: 50, Usual: Sizes{25, 65},
		Composition:     Composition{Water: 81, Protein: 1.9, Fat: 0.1, Carbohydrate: 13.9, Fibre: 2.1, Ash: 1},
		CompositionFrom: foodTables,
		Z:               28, Targets: [3]float64{2.1, 4.7, 8.4}, Calibrated: true,
		TargetsFrom: fitted(9),
	},
	{
		Name: "potato", Kind: "floury", Length: 1.3, WidthMM: 50, Usual: Sizes{25, 75},
		Composition:     Composition{Water: 76.5, Protein: 2.1, Fat: 0.1, Carbohydrate: 18.1, Fibre: 2.1, Ash: 1.1},
		CompositionFrom: foodTables,
		Z:               28, Targets: [3]float64{1.8, 4.1, 7.4},
		TargetsFrom: units.Provenance{Source: "0.88 of the waxy potato's targets, and its z", KnownBy: "judgement"},
	},
	{
		Name: "beetroot", Length: 1.0, WidthMM: 55, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 87.6, Protein: 1.6, Fat: 0.2, Carbohydrate: 6.7, Fibre: 2.8, Ash: 1.1},
		CompositionFrom: foodTables,
		Z:               25, Targets: [3]float64{5.7, 13, 23}, Calibrated: true,
		TargetsFrom: fitted(4),
	},
	{
		Name: "carrot", Length: 6, Stick: true, WidthMM: 25, Usual: Sizes{15, 35},
		Composition:     Composition{Water: 88.3, Protein: 0.9, Fat: 0.2, Carbohydrate: 6.8, Fibre: 2.8, Ash: 1},
		CompositionFrom: foodTables,
		Z:               19, Targets: [3]float64{4.1, 9.2, 17}, Calibrated: true,
		TargetsFrom: fitted(16),
	},
	{
		Name: "turnip", Length: 1.0, WidthMM: 60, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 91.9, Protein: 0.9, Fat: 0.1, Carbohydrate: 4.6, Fibre: 1.8, Ash: 0.7},
		CompositionFrom: foodTables,
		Z:               27, Targets: [3]float64{3.8, 8.4, 15}, Calibrated: true,
		TargetsFrom: fitted(3),
	},
	{
		Name: "parsnip", Length: 4, Stick: true, WidthMM: 40, Usual: Sizes{25, 60},
		Composition:     Composition{Water: 79.5, Protein: 1.2, Fat: 0.3, Carbohydrate: 13.1, Fibre: 4.9, Ash: 1},
		CompositionFrom: foodTables,
		Z:               24, Targets: [3]float64{4.5, 10, 18}, Calibrated: true,
		TargetsFrom: fitted(5),
	},
	{
		Name: "sweet potato", Length: 1.7, WidthMM: 55, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 77.3, Protein: 1.6, Fat: 0.1, Carbohydrate: 17.1, Fibre: 3, Ash: 0.9},
		CompositionFrom: foodTables,
		Z:               29, Targets: [3]float64{2.7, 5.9, 11}, Calibrated: true,
		TargetsFrom: fitted(4),
	},
	{
		Name: "swede", Length: 1.0, WidthMM: 100, Usual: Sizes{80, 130},
		Composition:     Composition{Water: 89.4, Protein: 1.1, Fat: 0.2, Carbohydrate: 6.3, Fibre: 2.3, Ash: 0.7},
		CompositionFrom: foodTables,
		Z:               23, Targets: [3]float64{7.9, 18, 32}, Calibrated: true,
		TargetsFrom: fitted(2),
	},
	{
		Name: "courgette", Length: 4, Stick: true, WidthMM: 40, Usual: Sizes{25, 50},
		Composition:     Composition{Water: 94.8, Protein: 1.2, Fat: 0.3, Carbohydrate: 2.1, Fibre: 1.0, Ash: 0.6},
		CompositionFrom: foodTables,
		Z:               25, Targets: [3]float64{3.2, 7, 13}, Calibrated: true,
		TargetsFrom: fitted(2),
	},
	{
		Name: "green beans", Length: 13, Stick: true, WidthMM: 8, Usual: Sizes{6, 11}, Ready: true,
		Composition:     Composition{Water: 90.3, Protein: 1.8, Fat: 0.2, Carbohydrate: 4.3, Fibre: 2.7, Ash: 0.7},
		CompositionFrom: foodTables,
		Z:               22, Targets: [3]float64{4.8, 11, 19}, Calibrated: true,
		TargetsFrom: fitted(3),
	},
	{
		Name: "broad beans", Length: 1.4, Thickness: 0.6, WidthMM: 15, Usual: Sizes{10, 20}, Ready: true,
		Composition:     Composition{Water: 81, Protein: 5.6, Fat: 0.6, Carbohydrate: 7.5, Fibre: 4.2, Ash: 1.1},
		CompositionFrom: foodTables,
		Z:               24, Targets: [3]float64{7.5, 17, 30}, Calibrated: true,
		TargetsFrom: fitted(1),
	},
	{
		Name: "peas", Length: 1, WidthMM: 9, Usual: Sizes{7, 11}, Ready: true,
		Composition:     Composition{Water: 78.9, Protein: 5.4, Fat: 0.4, Carbohydrate: 8.8, Fibre: 5.7, Ash: 0.9},
		CompositionFrom: foodTables,
		Z:               25, Targets: [3]float64{4.3, 9.5, 17}, Calibrated: true,
		TargetsFrom: fitted(3),
	},
	{
		Name: "sweetcorn", Kind: "kernels", Length: 1.2, WidthMM: 9, Usual: Sizes{7, 11}, Ready: true,
		Composition:     Composition{Water: 76.1, Protein: 3.3, Fat: 1.4, Carbohydrate: 16.7, Fibre: 2, Ash: 0.6},
		CompositionFrom: foodTables,
		Z:               25, Targets: [3]float64{4.3, 9.5, 17},
		TargetsFrom: units.Provenance{Source: "those of peas: no times of cut kernels", KnownBy: "judgement"},
	},
	{
		Name: "asparagus", Length: 12, Stick: true, WidthMM: 12, Usual: Sizes{7, 16}, Ready: true,
		Composition:     Composition{Water: 93.2, Protein: 2.2, Fat: 0.1, Carbohydrate: 1.8, Fibre: 2.1, Ash: 0.6},
		CompositionFrom: foodTables,
		Z:               28, Targets: [3]float64{3.7, 8.2, 15}, Calibrated: true,
		TargetsFrom: fitted(6),
	},
	{
		Name: "broccoli", Length: 3, Stick: true, WidthMM: 13, Usual: Sizes{10, 18}, Ready: true,
		Composition:     Composition{Water: 89.3, Protein: 2.8, Fat: 0.4, Carbohydrate: 4, Fibre: 2.6, Ash: 0.9},
		CompositionFrom: foodTables,
		Z:               28, Targets: [3]float64{3.3, 7.2, 13}, Calibrated: true,
		TargetsFrom: fitted(4),
	},
	{
		Name: "cauliflower", Length: 3, Stick: true, WidthMM: 16, Usual: Sizes{12, 20}, Ready: true,
		Composition:     Composition{Water: 92.1, Protein: 1.9, Fat: 0.3, Carbohydrate: 3, Fibre: 2, Ash: 0.8},
		CompositionFrom: foodTables,
		Z:               25, Targets: [3]float64{3.1, 6.8, 12}, Calibrated: true,
		TargetsFrom: fitted(4),
	},
	{
		Name: "kohlrabi", Length: 1, WidthMM: 60, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 91, Protein: 1.7, Fat: 0.1, Carbohydrate: 2.6, Fibre: 3.6, Ash: 1},
		CompositionFrom: foodTables,
		Z:               23, Targets: [3]float64{5.9, 13, 24}, Calibrated: true,
		TargetsFrom: fitted(2),
	},
}

// fitted is where a crop's z and targets come from that were set on so many printed
// rows; "own fit" is recipes/heat/refit_test.go, which sets them anew.
func fitted(rows int) units.Provenance {
	return units.Provenance{
		Source:  fmt.Sprintf("fitted to %d rows of printed tables, see printed.csv, about published kinetics, %s and others", rows, leeReview),
		KnownBy: "computed",
	}
}
