package heat

import (
	"math"
)

// Margins of the water, and how much of the basket an even layer covers
// (judgement).
const (
	waterMargin  = 1.3 // of what the longest time evaporates
	waterLeftKg  = 0.3
	waterLeastKg = 0.5
	coverEven    = 0.75
	coverGaps    = 0.65 // with gaps, for pieces that must stay just tender
	heapedFrom   = 1.5  // even layers in a tier
)

// Load says how a weight of pieces goes through the steamer.
type Load struct {
	Estimate Estimate // for the weight in the steamer at once, on its uppermost tier
	Series   *Tiers   // its tiers, where there are several

	Grams          float64
	GramsPerLayer  float64 // one even layer holds that much
	PiecesPerLayer int
	Layers         int
	Tiers          int
	Rounds         int     // fillings of the steamer, one after the other
	GramsPerRound  float64 // the rounds are filled alike
	GramsOnEach    float64 // on each layer, spread evenly
	Heaped         bool    // more than a layer and a half in a tier
	DiameterMM     float64 // of the basket

	WaterML      float64 // at the start, for every round, so that the pan does not boil dry
	EvaporatesG  float64 // a minute, at full steam
	NetPowerW    float64 // what becomes steam
	PowerW       float64 // what the stove takes in
	Efficiency   float64 // share of it that reaches the pan
	LossW        float64 // lid and walls
	Cover        float64 // share of the basket that a layer covers
	ToBoil       float64 // minutes
	Fuel         string
	GasG         float64 // to the boil and through every round's expected time
	GasLongestG  float64 // through every round's longest time
	TotalMinutes float64 // to the boil, and every round's come-up and expected time
}

// LoadPlan lays a weight of pieces out in even layers, tiers and rounds, and
// says what water and gas it takes. Conditions give start, altitude and Heaped
// (then everything goes in at once, and takes its penalty); their load and net
// power are replaced by the load's and the equipment's own.
func LoadPlan(crop Crop, cut Cut, until Doneness, grams float64, equipment Equipment, c Conditions) (Load, error) {
	s, err := equipment.stove()
	if err != nil {
		return Load{}, err
	}
	if err := within("load", grams, 1, 50000, "g"); err != nil {
		return Load{}, err
	}
	body, err := BodyOf(crop, cut)
	if err != nil {
		return Load{}, err
	}
	load := Load{Grams: grams, Tiers: s.Tiers, DiameterMM: s.DiameterMM, Fuel: s.fuel.Name,
		NetPowerW: s.netW(), PowerW: s.PowerW, Efficiency: s.efficiency, LossW: s.lossW}
	load.layOut(crop, body, max(until, JustTender), s, c)
	c = load.conditions(c)
	if err := load.time(crop, cut, until, c); err != nil {
		return Load{}, err
	}
	load.fire(s, c)
	return load, nil
}

// time reckons the tiers of the fullest round; the last to be done, the uppermost,
// says how long.
func (l *Load) time(crop Crop, cut Cut, until Doneness, c Conditions) (err error) {
	filled := min(l.Tiers, (l.Layers+l.Rounds-1)/l.Rounds)
	spread := filled > 1 && !l.Heaped
	if !spread || !c.Planning {
		if l.Estimate, err = Steam(crop, cut, until, c); err != nil || !spread {
			return err
		}
	}
	tiers := make([]TierLoad, filled)
	for i := range tiers {
		tiers[i] = TierLoad{Crop: crop, Cut: cut, Until: until, Grams: l.GramsPerRound / float64(filled)}
	}
	series, err := ArrangeTiers(tiers, c)
	if err != nil {
		return err
	}
	perMM := l.Estimate.PerMM
	l.Series, l.Estimate = &series, series.Estimates[filled-1]
	l.Estimate.PerMM = perMM
	return nil
}

// layOut fills layers, tiers and rounds.
func (l *Load) layOut(crop Crop, body Body, until Doneness, s stove, c Conditions) {
	cover := coverOf(until)
	density := crop.Composition.At((c.startC() + SteamC(c.AltitudeM)) / 2).Density
	piece := body.VolumeM3 * density * 1e3
	l.Cover = cover
	l.GramsPerLayer = layerGrams(s.DiameterMM/1e3, cover, body, density)
	l.PiecesPerLayer = max(1, int(l.GramsPerLayer/piece))
	l.Layers = layersFor(l.Grams, l.GramsPerLayer)
	l.Rounds = (l.Layers + s.Tiers - 1) / s.Tiers
	if c.Heaped {
		l.Rounds = 1
		l.Heaped = l.Grams > heapedFrom*l.GramsPerLayer*float64(s.Tiers)
	}
	l.GramsPerRound = l.Grams / float64(l.Rounds)
	l.GramsOnEach = l.Grams / float64(l.Layers)
}

// coverOf is the share of the basket that an even layer covers.
func coverOf(until Doneness) float64 {
	if max(until, JustTender) == JustTender {
		return coverGaps
	}
	return coverEven
}

// layersFor is how many layers a weight needs.
func layersFor(grams, perLayer float64) int { return wholes(grams / perLayer) }

// layerGrams is what one layer holds: the share of the basket that is covered,
// times the weight that stands on a unit of it.
func layerGrams(diameterM, cover float64, body Body, density float64) float64 {
	return cover * math.Pi / 4 * diameterM * diameterM / body.FootprintM2 * body.VolumeM3 * density * 1e3
}

// fire works out water and fuel.
func (l *Load) fire(s stove, c Conditions) {
	e := l.Estimate
	rounds := float64(l.Rounds)
	l.EvaporatesG = evaporation(l.NetPowerW, e.SteamC)
	kg := max(waterLeastKg, waterMargin*l.EvaporatesG/1e3*rounds*e.FromLoadingHigh+waterLeftKg)
	l.WaterML = kg * 1e3
	l.ToBoil = s.toBoil(kg, min(c.startC(), DefaultStartC), e.SteamC) / 60
	l.TotalMinutes = l.ToBoil + rounds*e.FromLoading
	l.GasG = s.burns(l.TotalMinutes)
	l.GasLongestG = s.burns(l.ToBoil + rounds*e.FromLoadingHigh)
}

// evaporation is in g a minute.
func evaporation(netW, steamC float64) float64 { return netW / latentHeat(steamC) * 60e3 }

// toBoil is in seconds, from water at fromC: half of the full loss on the way.
func (s stove) toBoil(waterKg, fromC, boilC float64) float64 {
	return (waterKg*waterHeat + s.PanKg*steelHeat) * (boilC - fromC) / (s.efficiency*s.PowerW - s.lossW/2)
}

// burns is the fuel in g for that many minutes at full power.
func (s stove) burns(minutes float64) float64 {
	if !s.fuel.isGas() {
		return 0
	}
	return s.PowerW * minutes * 60 / (s.fuel.MJPerKg * 1e6) * 1e3
}

// Cautions are what to say beside every steaming time. An unknown fuel gets the
// caution for gas.
func Cautions(e Equipment) []string {
	f, err := e.fuel()
	if err != nil {
		f = fuels[0]
	}
	list := []string{
		"Steam burns: lift the lid away from you, and let the steam out before you reach in.",
		"Keep the pan from boiling dry: look in with time to spare, and top up with boiling water.",
	}
	if f.isGas() {
		list = append(list, gasCaution)
	}
	return list
}

// gasCaution goes with every flame.
const gasCaution = "A gas stove belongs outdoors in the open air, never in a shed, tent or greenhouse: carbon monoxide kills. " +
	"Follow the maker's instructions and local rules."
