package heat

import "trencher/units"

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
		Z:               21, Targets: [3]float64{1.5, 4, 8}, Calibrated: true,
		TargetsFrom: units.Provenance{
			Source:  "z from an activation energy of 123 kJ/mol, Kubota et al. (1981), Nippon Shokuhin Kogyo Gakkaishi 28(4), abstract; targets set on common practice (25 mm pieces, 7-10 min) and household times",
			KnownBy: "read; targets judgement",
		},
	},
	{
		Name: "potato", Kind: "floury", Length: 1.3, WidthMM: 50, Usual: Sizes{25, 75},
		Composition:     Composition{Water: 76.5, Protein: 2.1, Fat: 0.1, Carbohydrate: 18.1, Fibre: 2.1, Ash: 1.1},
		CompositionFrom: foodTables,
		Z:               21, Targets: [3]float64{1.3, 3.5, 7},
		TargetsFrom: units.Provenance{
			Source:  "the waxy potato's, about 0.88 of its targets",
			KnownBy: "judgement",
		},
	},
	{
		Name: "beetroot", Length: 1.0, WidthMM: 55, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 87.6, Protein: 1.6, Fat: 0.2, Carbohydrate: 6.7, Fibre: 2.8, Ash: 1.1},
		CompositionFrom: foodTables,
		Z:               18, Targets: [3]float64{5, 10, 18}, Calibrated: true,
		TargetsFrom: units.Provenance{
			Source:  "z from an activation energy of 142 kJ/mol, " + leeReview + "; targets set on household times",
			KnownBy: "read; targets judgement",
		},
	},
	{
		Name: "carrot", Length: 6, Stick: true, WidthMM: 25, Usual: Sizes{15, 35},
		Composition:     Composition{Water: 88.3, Protein: 0.9, Fat: 0.2, Carbohydrate: 6.8, Fibre: 2.8, Ash: 1},
		CompositionFrom: foodTables,
		Z:               17, Targets: [3]float64{3, 6, 12}, Calibrated: true,
		TargetsFrom: units.Provenance{
			Source:  "z from an activation energy of 159 kJ/mol, " + leeReview + "; targets set on household times",
			KnownBy: "read; targets judgement",
		},
	},
	{
		Name: "turnip", Length: 1.0, WidthMM: 60, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 91.9, Protein: 0.9, Fat: 0.1, Carbohydrate: 4.6, Fibre: 1.8, Ash: 0.7},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{2, 4, 8},
		TargetsFrom: units.Provenance{
			Source:  "two published times that contradict each other",
			KnownBy: "judgement",
		},
	},
	{
		Name: "parsnip", Length: 4, Stick: true, WidthMM: 40, Usual: Sizes{25, 60},
		Composition:     Composition{Water: 79.5, Protein: 1.2, Fat: 0.3, Carbohydrate: 13.1, Fibre: 4.9, Ash: 1},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{1.5, 3, 6},
		TargetsFrom: units.Provenance{Source: "no times of its own", KnownBy: "judgement"},
	},
	{
		Name: "sweet potato", Length: 1.7, WidthMM: 55, Usual: Sizes{40, 80},
		Composition:     Composition{Water: 77.3, Protein: 1.6, Fat: 0.1, Carbohydrate: 17.1, Fibre: 3, Ash: 0.9},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{1.5, 3.5, 7}, Calibrated: true,
		TargetsFrom: units.Provenance{Source: "two household times", KnownBy: "judgement"},
	},
	{
		Name: "swede", Length: 1.0, WidthMM: 100, Usual: Sizes{80, 130},
		Composition:     Composition{Water: 89.4, Protein: 1.1, Fat: 0.2, Carbohydrate: 6.3, Fibre: 2.3, Ash: 0.7},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{4, 8, 14},
		TargetsFrom: units.Provenance{Source: "one published time, fitted poorly: off by a factor of two", KnownBy: "judgement"},
	},
	{
		Name: "courgette", Length: 4, Stick: true, WidthMM: 40, Usual: Sizes{25, 50},
		Composition:     Composition{Water: 94.8, Protein: 1.2, Fat: 0.3, Carbohydrate: 2.1, Fibre: 1.0, Ash: 0.6},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{0.7, 1.5, 4},
		TargetsFrom: units.Provenance{Source: "no times of its own", KnownBy: "judgement"},
	},
	{
		Name: "green beans", Length: 13, Stick: true, WidthMM: 8, Usual: Sizes{6, 11}, Ready: true,
		Composition:     Composition{Water: 90.3, Protein: 1.8, Fat: 0.2, Carbohydrate: 4.3, Fibre: 2.7, Ash: 0.7},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{4, 7, 12},
		TargetsFrom: units.Provenance{Source: "no times of its own", KnownBy: "judgement"},
	},
	{
		Name: "broad beans", Length: 1.4, Thickness: 0.6, WidthMM: 15, Usual: Sizes{10, 20}, Ready: true,
		Composition:     Composition{Water: 81, Protein: 5.6, Fat: 0.6, Carbohydrate: 7.5, Fibre: 4.2, Ash: 1.1},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{3, 6, 11},
		TargetsFrom: units.Provenance{Source: "no times of its own", KnownBy: "judgement"},
	},
	{
		Name: "peas", Length: 1, WidthMM: 9, Usual: Sizes{7, 11}, Ready: true,
		Composition:     Composition{Water: 78.9, Protein: 5.4, Fat: 0.4, Carbohydrate: 8.8, Fibre: 5.7, Ash: 0.9},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{2, 4, 8},
		TargetsFrom: units.Provenance{Source: "no times of its own", KnownBy: "judgement"},
	},
	{
		Name: "sweetcorn", Kind: "kernels", Length: 1.2, WidthMM: 9, Usual: Sizes{7, 11}, Ready: true,
		Composition:     Composition{Water: 76.1, Protein: 3.3, Fat: 1.4, Carbohydrate: 16.7, Fibre: 2, Ash: 0.6},
		CompositionFrom: foodTables,
		Z:               20, Targets: [3]float64{2, 4, 8},
		TargetsFrom: units.Provenance{Source: "no times of its own", KnownBy: "judgement"},
	},
}
