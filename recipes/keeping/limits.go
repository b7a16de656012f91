package keeping

// Limits are the limits of one authority (or the strictest of all).
type Limits struct {
	Hot, HotAim         Degrees // kept hot from here up; warn below the aim
	Cooling, CoolingAim Span    // end of cooking or hot holding to the fridge
	Back                Span    // out of the fridge in all, may go back
	Eat                 Span    // out or cooling in all, eaten at once
	StillOut            Span    // never chilled since it was hot, eaten at once
	HotAir              Degrees // minutes in air above it count twice
	HotEat              Span    // in place of Eat where a spell was in such air
	Fridge, FridgeAim   Degrees // warmer counts as out; warn above the aim
	Life, LifeAim       Span    // end of cooking to the last meal
	LifeVulnerable      Span
	LifeCold            Span    // of what is eaten cold
	FridgeVulnerable    Degrees // where colder for those eaters
	Thawed              Span    // life after thawing at most
	Reheatings          Times   // how often it may be heated up again
	Reheat              Degrees
	ReheatWords         string

	Stages []Stages // by probe

	// Without power a shut fridge holds for PowerShut in all, to be warned of
	// from PowerCheck on; power for PowerAfresh on end begins the count anew. A
	// reading up to PowerCold, within PowerReading of its return, clears it.
	PowerShut, PowerCheck, PowerAfresh, PowerReading Span
	PowerCold                                        Degrees
	// A freezer holds for FreezerFull, or half full for FreezerHalf; beyond,
	// what is at FreezerCold or has ice in it is still cold.
	FreezerFull, FreezerHalf Span
	FreezerCold              Degrees
	Refreeze                 bool // what is still cold then may freeze again
}

// LimitsOf gives the limits of an authority; Strictest and the zero Authority
// take of every limit the stricter one.
func LimitsOf(a Authority) Limits {
	for _, own := range library.authorities {
		if own.authority == a {
			return own.limits
		}
	}
	return library.strictest
}
