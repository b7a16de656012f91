package heat

import (
	"math"

	"trencher/units"
)

// Water is the water that pieces are boiled in. The zero value is twice the load's
// weight in a lidded pot, at a rolling boil when they go in.
type Water struct {
	ML      float64 // 0 = twice the load, half a litre at least
	HeldC   float64 // kept at that temperature, a simmer; 0 = at the boil
	Lidless bool
	Cold    bool // the pieces go in with the cold water
}

// Films of water, W/(m² K): pieces lie in moving water at a rolling boil, in water
// that just moves at a simmer (judgement, within 250 to 3000; natural convection on
// food models gives 31 to 248: Carino-Sarabia & Velez-Ruiz (2013), J. Food
// Engineering 115 173, abstract; known_by: read).
const (
	filmBoiling   = 1000.0
	filmSimmering = 500.0
)

// DefaultBoilingW is the heat, in W, that a stove brings into a pot when nobody
// says.
const DefaultBoilingW = 900.0

// What a pot and its water are taken to be.
const (
	waterPerLoad = 2.0 // by weight: covers them
	leastWaterML = 500.0
	coldestHeldC = 80.0
)

func (w Water) filled(grams float64) Water {
	w.ML = or(w.ML, max(leastWaterML, waterPerLoad*grams))
	return w
}

func (w Water) check(boilC float64) error {
	if err := within("water", w.ML, 100, 50000, "ml"); err != nil {
		return err
	}
	if w.HeldC != 0 && !(w.HeldC >= coldestHeldC && w.HeldC <= boilC) {
		return units.WrongField("simmer", formatC(w.HeldC), "no simmer", formatC(coldestHeldC)+" to the boil, "+formatC(boilC)+" here")
	}
	return nil
}

// fire is what a stove brings into a pot, and what the pot loses.
type fire struct {
	powerW float64
	lossWK float64 // by wall and lid, for each K over the room
	openM2 float64
	panJK  float64
}

// boiling puts a situation's pieces, so many grams, into a pot.
func (s situation) boiling(grams float64, w Water, f fire) *pot {
	p := &pot{heldC: or(w.HeldC, s.steam), waterC: or(w.HeldC, s.steam), powerW: f.powerW, lossWK: f.lossWK,
		heatJK: w.ML/1e3*waterHeat + f.panJK}
	film := filmBoiling
	if w.HeldC > 0 && w.HeldC < s.steam {
		film = filmSimmering
	}
	if w.Lidless {
		p.openM2 = f.openM2
	}
	if w.Cold {
		p.waterC = min(s.start, DefaultStartC)
	}
	area := grams / 1e3 / s.props.Density * s.body.AreaM2 / s.body.VolumeM3
	p.begin(s.body, s.props, shells, film, area/s.body.AreaMore, s.start)
	p.start()
	return p
}

// Boil estimates how long a sized cut takes in boiling water: Minutes from when
// the water boils again, ComeUp from putting them in to that moment. The
// conditions' net power is what the stove brings into the water, 900 W when not
// given. Its errors are those of [Steam].
func Boil(crop Crop, cut Cut, until Doneness, w Water, c Conditions) (Estimate, error) {
	c.NetPowerW = or(c.NetPowerW, DefaultBoilingW)
	e, _, err := boil(crop, cut, until, w, c, fire{powerW: c.NetPowerW, panJK: defaultPanKg * steelHeat})
	return e, err
}

func boil(crop Crop, cut Cut, until Doneness, w Water, c Conditions, f fire) (Estimate, *pot, error) {
	c = c.filled()
	w = w.filled(c.LoadGrams)
	s, err := newSituation(crop, cut, until, c)
	if err != nil {
		return Estimate{}, nil, err
	}
	if err := w.check(s.steam); err != nil {
		return Estimate{}, nil, err
	}
	s.layers = 1
	p := s.boiling(c.LoadGrams, w, f)
	e, err := s.estimate(cut, until, &p.history, &p.backS, c)
	if err != nil {
		return Estimate{}, nil, err
	}
	e.Method, e.SteamC, e.LowestC = Boiling, p.heldC, p.lowestC
	e.Simmering = p.heldC < s.steam
	if c.Planning {
		return e, p, nil
	}
	e.PerMM = s.perMMBy(characteristicMM(cut), func(s situation) timing {
		p := s.boiling(c.LoadGrams, w, f)
		done := p.cooked(s.target, s.crop.Z)
		return timing{done, p.backS}
	})
	return e, p, nil
}

func formatC(celsius float64) string { return millimetres(math.Round(celsius*10)/10) + " °C" }
