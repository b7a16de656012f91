package recipes

import "trencher/units"

// In is the kitchen with another system of measures.
func (k Kitchen) In(system units.System) Kitchen {
	k.Measures, k.Measure.System = system, system
	k.Table = k.Table.For(system)
	return k
}
