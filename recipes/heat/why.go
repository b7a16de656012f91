package heat

import (
	"fmt"
	"strings"

	"trencher/units"
)

// Reasons says what a steaming time rests on: each figure of the model with
// where it comes from.
func (e Estimate) Reasons() []units.Reason {
	p, c := e.Properties, e.Crop.Composition
	film := units.Why("film of condensing steam", fmt.Sprintf("%g W/m²K", filmNominal), "a choice for a lidded household steamer; published values run from 400 to 12000 (blanching literature)", "read; judgement")
	full := units.Why("full steam", fmt.Sprintf("once %s of the steam escapes", percent(1-fullFlowShare)), "a choice of this model; until then the load condenses what the stove makes", "judgement")
	medium := "steam temperature"
	switch {
	case e.Method == Boiling:
		medium = "water temperature"
		film = units.Why("film of boiling water", fmt.Sprintf("%g W/m²K, %g at a simmer", filmBoiling, filmSimmering), "pieces in moving water; natural convection on food models gives 31 to 248, Carino-Sarabia & Velez-Ruiz (2013), J. Food Engineering 115 173, abstract", "read; judgement")
		full = units.Why("boiling again", fmt.Sprintf("the water falls to %.0f °C first", e.LowestC), "heat balance of water, pot and load", "computed")
	case e.LayersDeep > 1:
		film.Value = fmt.Sprintf("%g W/m²K", filmHeap)
	}
	list := []units.Reason{
		units.Why(medium, fmt.Sprintf("%.1f °C", e.SteamC), "pressure by ISO 2533:1975 (ICAO Doc 7488), saturation by IAPWS R7-97 region 4", "memory; read"),
		{Figure: "what the crop is made of", Value: fmt.Sprintf("%g %% water, %g protein, %g fat, %g carbohydrate, %g fibre, %g ash", c.Water, c.Protein, c.Fat, c.Carbohydrate, c.Fibre, c.Ash),
			Provenance: e.Crop.CompositionFrom},
		units.Why("thermal properties", fmt.Sprintf("conductivity %.3f W/mK, density %.0f kg/m³, heat capacity %.0f J/kgK, diffusivity %.3g m²/s", p.Conductivity, p.Density, p.HeatCapacity, p.Diffusivity()),
			"Choi & Okos (1986), as reprinted in the ASHRAE Handbook Refrigeration, Thermal Properties of Foods; published diffusivities of potato spread by a fifth either way", "read"),
		units.Why("heat into the piece", fmt.Sprintf("as slow as a cube of %.0f mm", e.EdgeMM), "conduction, Carslaw & Jaeger (1959), in an equivalent radial body; checked against finite elements in three dimensions", "computed"),
		film,
		full,
		e.whyDone(),
		units.Why("the band", fmt.Sprintf("nine times in ten: kitchens %s apart, what is called done %s of its target, the clock %g min, a piece and a lot %s each of the time",
			percent(prior.phi), percent(prior.delta), prior.clock, percent(prior.lot)),
			"a choice: printed times for the same piece differ by a factor of 1.3 either way from source to source", "judgement"),
	}
	return append(list, e.whyChecked()...)
}

// whyDone says what counts as done, and whether that was set on any times.
func (e Estimate) whyDone() units.Reason {
	set := "sizes of printed rows are assumed: modest data"
	if !e.Crop.Calibrated {
		set = "uncalibrated: a judgement, let the knife decide"
	}
	from := e.Crop.TargetsFrom
	return units.Why("doneness", fmt.Sprintf("%s at %.3g minutes of 100 °C at the centre, ten times as fast for %g K more", e.Doneness, e.Target, e.Crop.Z),
		from.String()+"; "+set, from.KnownBy)
}

// Reasons says what the layers, water and gas of a load rest on; what its time
// does stands with its [Estimate].
func (l Load) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("an even layer", fmt.Sprintf("covers %s of the basket", percent(l.Cover)),
			"discs thrown at random cover 55 %, shaken 82 %, hexagonally packed 91 %; gaps are left where pieces must stay just tender", "memory; judgement"),
		units.Why("steam made", fmt.Sprintf("%.0f W: %s of %.0f W reach the pan, less %.0f W lost by lid and walls", l.NetPowerW, percent(l.Efficiency), l.PowerW, l.LossW),
			fmt.Sprintf("small gas stoves 30 to 65 %%; %g W/m²K over %g K outside, still air: %s", lossFilm, lossOverK, units.NoSource), "practice"),
		units.Why("water", fmt.Sprintf("%.1f g a minute, and %g times the longest time, %g g left, never under %g g", l.EvaporatesG, waterMargin, waterLeftKg*1e3, waterLeastKg*1e3),
			fmt.Sprintf("latent heat from steam tables, %g kJ/kg at 100 °C; margins are a judgement", latentHeat(100)/1e3), "memory; judgement"),
	}
	if l.GasG > 0 {
		list = append(list, units.Why("gas", fmt.Sprintf("%.0f W through %.0f minutes", l.PowerW, l.TotalMinutes), "lower heating values: "+heatingValues(), "memory"))
	}
	return list
}

// heatingValues lists the gases with their lower heating values.
func heatingValues() string {
	var list []string
	for _, f := range fuels {
		if f.isGas() {
			list = append(list, fmt.Sprintf("%s %g", f.Name, f.MJPerKg))
		}
	}
	return strings.Join(list, ", ") + " MJ/kg"
}

// Reasons says what the times of cooling rest on.
func (c Cooling) Reasons() []units.Reason {
	how := fmt.Sprintf("one layer, in still air: %g W/m²K dry (the latest), %g while moist (expected), on %s of the surface", filmDry, filmMoist, percent(trayArea))
	if c.Deep {
		how = fmt.Sprintf("a heap as a short cylinder of %g kg/m³ and %g W/mK: %g W/m²K (the latest), %g (expected)", bedDensity, bedConducts, filmBedDry, filmBedMoist)
	}
	if c.In != RoomAir {
		how = fmt.Sprintf("still water at %g °C, %g W/m²K; ice water at %g °C; a bowl through its floor and wall", TapC, filmStillWater, iceC)
	}
	return []units.Reason{
		units.Why("cooling", how, "natural convection and radiation by textbook correlations; the wet share and the heap are a judgement", "memory; judgement"),
		units.Why("cool enough to dress", fmt.Sprintf("%.0f °C", c.DressC), units.NoSource, "practice"),
		units.Why("ready for the fridge", fmt.Sprintf("%.0f °C, hand-warm", c.FridgeC), units.NoSource+"; how long it may take is the food authorities' to say, see keep", "practice"),
	}
}

// Reasons says what this kitchen's factor for a crop rests on; nothing where no
// knife test has taught any.
func (l Learned) Reasons(crop Crop) []units.Reason {
	if l.Tests == 0 {
		return nil
	}
	list := []units.Reason{units.Why("this kitchen's minutes", fmt.Sprintf("%.2f times the reckoned (%.2f to %.2f nine times in ten) for %.2f times the cooking, and %+.1f min", l.Factor, l.Low, l.High, l.Doneness, l.Offset),
		fmt.Sprintf("%d of this kitchen's knife tests on %s, each under what it was made under, weighed against what kitchens are before any test; wild entries count little", l.Tests, crop.Name), "practice")}
	if l.Assumed > 0 {
		list = append(list, units.Why("knife tests that do not say what they were made under", fmt.Sprint(l.Assumed),
			fmt.Sprintf("taken to have started at %g °C, on this kitchen's stove, at its height, on the uppermost tier that was filled", DefaultStartC), "judgement"))
	}
	return list
}

// percent writes a share in per cent: "65 %".
func percent(share float64) string { return fmt.Sprintf("%.0f %%", share*100) }
