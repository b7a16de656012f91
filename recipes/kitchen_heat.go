package recipes

import "trencher/recipes/heat"

// Equipment is the kitchen's steamer and stove as heat reckons with them.
func (k Kitchen) Equipment() heat.Equipment {
	return heat.Equipment{DiameterMM: k.Steamer.DiameterMM, PotML: k.PotML, Tiers: k.Steamer.Tiers,
		PowerW: k.Stove.PowerW, Fuel: k.Stove.Gas, Efficiency: k.Stove.Efficiency, Windy: k.Stove.Windy}
}
