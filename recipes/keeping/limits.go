package keeping

import (
	"slices"
)

// Limits are the limits of one authority (or the strictest of all).
type Limits struct {
	Hot, HotAim         Degrees // kept hot from here up; warn below the aim
	Cooling, CoolingAim Span    // end of cooking or hot holding to the fridge
	Back                Span    // out of the fridge in all, may go back
	Eat                 Span    // out or cooling in all, eaten at once
	HotAir              Degrees // minutes in air above it count twice
	Fridge, FridgeAim   Degrees // warmer counts as out; warn above the aim
	Life, LifeAim       Span    // end of cooking to the last meal
	LifeVulnerable      Span
	Thawed              Span  // life after thawing at most
	Reheatings          Times // how often it may be heated up again
	Reheat              Degrees
	ReheatWords         string

	Stages []Stages // by probe

	// Without power a shut fridge holds for PowerShut, to be checked from
	// PowerCheck on; what is then out longer than PowerOut goes.
	PowerShut, PowerCheck, PowerOut Span
}

// LimitsOf gives the limits of an authority; Strictest and the zero Authority
// take of every limit the stricter one.
func LimitsOf(a Authority) Limits {
	b := library()
	if a == Strictest || a == "" {
		return b.strictest
	}
	return b.authorities[a]
}

func (l Limits) stricter(o Limits) Limits {
	return Limits{
		Hot: hotter(l.Hot, o.Hot), HotAim: hotter(l.HotAim, o.HotAim),
		Cooling: shorter(l.Cooling, o.Cooling), CoolingAim: shorter(l.CoolingAim, o.CoolingAim),
		Back: shorter(l.Back, o.Back), Eat: shorter(l.Eat, o.Eat),
		HotAir: colder(l.HotAir, o.HotAir),
		Fridge: colder(l.Fridge, o.Fridge), FridgeAim: colder(l.FridgeAim, o.FridgeAim),
		Life: shorter(l.Life, o.Life), LifeAim: shorter(l.LifeAim, o.LifeAim),
		LifeVulnerable: shorter(l.LifeVulnerable, o.LifeVulnerable),
		Thawed:         shorter(l.Thawed, o.Thawed),
		Reheatings:     fewer(l.Reheatings, o.Reheatings),
		Reheat:         hotter(l.Reheat, o.Reheat),
		ReheatWords:    "75 °C in the middle, steaming all through",
		Stages:         append(slices.Clone(l.Stages), o.Stages...),
		PowerShut:      shorter(l.PowerShut, o.PowerShut),
		PowerCheck:     shorter(l.PowerCheck, o.PowerCheck),
		PowerOut:       shorter(l.PowerOut, o.PowerOut),
	}
}
