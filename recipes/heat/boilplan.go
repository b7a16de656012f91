package heat

import "math"

// Boiled says how a weight of pieces goes through a pot.
type Boiled struct {
	Estimate      Estimate // for one filling of the pot
	Grams         float64
	Rounds        int // fillings, one after the other
	GramsPerRound float64
	PotML         float64
	WaterML       float64
	ToBoil        float64 // minutes, from cold water
	Fuel          string
	GasG          float64 // full until it boils again, then turned down to keep it boiling
	GasLongestG   float64 // full throughout
	TotalMinutes  float64 // to the boil, and every round's time
}

// What a pot is taken to be: as wide as it is high, nine tenths of it filled.
const (
	defaultPotML  = 3000.0
	potFilled     = 0.9
	keepsBoiling  = 0.5 // of full power, once it boils again (judgement)
	leastPerGram  = 1.0 // ml of water that just cover a gram
	pieceMLPerG   = 1.0
	potPanKg      = 0.8
	mostFillGrams = 50000.0
)

// inPot is what the stove brings into a pot, and what that loses.
func (s stove) inPot(potML float64) fire {
	d := math.Cbrt(4 * potML / 1e6 / math.Pi)
	f := fire{powerW: s.efficiency * s.PowerW, openM2: math.Pi / 4 * d * d, panJK: potPanKg * steelHeat}
	f.lossWK = lossFilm * (math.Pi*d*d + f.openM2)
	if s.Windy {
		f.lossWK *= windyLoss
	}
	return f
}

// potFire is the equipment's stove under its pot; without a stove's power, one that
// brings 900 W into the water.
func (e Equipment) potFire() (stove, fire, float64, error) {
	s, err := e.stove()
	if err != nil {
		return s, fire{}, 0, err
	}
	potML := or(e.PotML, defaultPotML)
	if err := within("pot", potML, 200, 50000, "ml"); err != nil {
		return s, fire{}, 0, err
	}
	f := s.inPot(potML)
	if e.PowerW == 0 {
		f.powerW = DefaultBoilingW + f.lossWK*lossOverK
		s.PowerW = f.powerW / s.efficiency
	}
	return s, f, potML, nil
}

// BoilPlan puts a weight of pieces into the equipment's pot, in as many rounds as it
// takes, and says what water and gas that asks for. Its errors are those of [Boil]
// and [LoadPlan].
func BoilPlan(crop Crop, cut Cut, until Doneness, grams float64, equipment Equipment, w Water, c Conditions) (Boiled, error) {
	s, f, potML, err := equipment.potFire()
	if err != nil {
		return Boiled{}, err
	}
	if err := within("load", grams, 1, mostFillGrams, "g"); err != nil {
		return Boiled{}, err
	}
	b := Boiled{Grams: grams, PotML: potML, Fuel: s.fuel.Name}
	room := potFilled * potML
	b.Rounds = max(1, wholes(grams*(leastPerGram+pieceMLPerG)/room))
	b.GramsPerRound = grams / float64(b.Rounds)
	if w.ML == 0 {
		w.ML = min(w.filled(b.GramsPerRound).ML, room-b.GramsPerRound*pieceMLPerG)
	}
	b.WaterML = w.ML
	c.LoadGrams = b.GramsPerRound
	c.NetPowerW = f.powerW
	e, _, err := boil(crop, cut, until, w, c, f)
	if err != nil {
		return Boiled{}, err
	}
	b.Estimate = e
	b.fire(s, f, w, c)
	return b, nil
}

// fire works out the time to the boil, and fuel.
func (b *Boiled) fire(s stove, f fire, w Water, c Conditions) {
	e, rounds := b.Estimate, float64(b.Rounds)
	warm := f.powerW - f.lossWK*(e.SteamC-roomC)/2
	if !w.Cold {
		b.ToBoil = (w.ML/1e3*waterHeat + f.panJK) * (e.SteamC - min(c.startC(), DefaultStartC)) / warm / 60
	}
	full := e.ComeUp
	if !e.FreeFirst {
		full = e.FromLoading
	}
	b.TotalMinutes = b.ToBoil + rounds*e.FromLoading
	b.GasG = s.burns(b.ToBoil + rounds*(full+keepsBoiling*(e.FromLoading-full)))
	b.GasLongestG = s.burns(b.ToBoil + rounds*e.FromLoadingHigh)
}

// PotCautions are what to say beside every time in boiling water.
func PotCautions(e Equipment) []string {
	list := []string{"Boiling water and its steam burn: lower the pieces in with a basket or a spoon, lift the lid away from you, pour off away from you."}
	f, err := e.fuel()
	if err != nil || f.isGas() {
		list = append(list, gasCaution)
	}
	return list
}
