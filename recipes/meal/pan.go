package meal

import "math"

// pan is what the steamer's pan needs of water and gas.
type pan struct {
	toBoil     float64 // minutes to the first boil
	again      float64 // minutes back to the boil after topping up
	topUp      bool    // between fillings, or it would boil dry
	startML    float64
	topUpML    float64 // at most, each time
	evaporates float64 // g a minute
	gasG       float64 // a minute at full flame
	fillings   int
	potPerML   float64 // minutes to the boil in a pot
	potsML     float64 // of water for what is boiled
	iceG       float64 // for what is blanched
}

// The pan: how deep it is filled, and what must stay in it (common practice, no
// source).
const (
	panDepthMM = 60.0
	panLeftML  = 300.0
	panLeastML = 500.0
	spare      = 1.3 // of what is reckoned to evaporate
)

// panOf reckons the water for all fillings. What the pan does not hold is topped
// up between them.
func panOf(k *kitchen, l Loaded) pan {
	p := pan{fillings: len(l.Runs), gasG: k.equipment.GasPerMinute()}
	if toBoil, err := k.equipment.PotToBoil(potLeastML, k.conditions.AltitudeM); err == nil {
		p.potPerML = toBoil / potLeastML
	}
	for _, part := range eachPart(l.Dishes) {
		if part.Pot != nil {
			p.potsML += part.Pot.WaterML
			p.iceG += part.Pot.IceG
		}
		if part.IsCookedOwn() && part.Line.IsInWater() {
			p.potsML += potML(part.Prepared.InexactFloat64())
		}
	}
	if p.fillings > 0 {
		p.fill(l, k.equipment.DiameterMM)
	}
	return p
}

// fill reckons what goes into the pan for the fillings of the steamer.
func (p *pan) fill(l Loaded, diameterMM float64) {
	sum, longest, perML := 0.0, 0.0, 0.0
	for _, run := range l.Runs {
		takes := 0.0
		for _, at := range run.Parts {
			steam := l.part(at).Steam
			takes = max(takes, math.Ceil(steam.Longest())+loadSteamer+1)
			p.evaporates = max(p.evaporates, steam.Load.EvaporatesG)
			// The time to the boil goes with the water nearly in step.
			perML = max(perML, steam.Load.ToBoil/steam.Load.WaterML)
		}
		sum, longest = sum+takes, max(longest, takes)
	}
	holds := math.Pi / 4 * diameterMM * diameterMM * panDepthMM / 1e3
	p.startML = max(panLeastML, spare*p.evaporates*sum+panLeftML)
	if p.fillings > 1 && p.startML > holds {
		p.topUp = true
		p.startML = max(panLeastML, spare*p.evaporates*longest+panLeftML)
		p.topUpML = spare * p.evaporates * longest
		p.again = perML * p.topUpML
	}
	p.toBoil = perML * p.startML
}

// reboil is how long the water takes to boil before a filling.
func (p pan) reboil() float64 {
	if p.topUp {
		return math.Max(stillBoils, p.again)
	}
	return stillBoils
}

// waterML is all the water that goes into the pan, topped up so often, and the pots.
func (p pan) waterML(topUps int) float64 {
	return p.startML + p.potsML + float64(topUps)*p.topUpML
}

// potToBoil is how long the water to boil so many grams in takes to boil.
func (p pan) potToBoil(grams float64) float64 { return max(1, p.potPerML*potML(grams)) }
