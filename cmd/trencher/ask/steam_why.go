package ask

import (
	"fmt"

	"trencher/recipes/heat"
	"trencher/units"
)

// reasons gives the source of each figure an answer rests on.
func (s *steamingPlace) reasons(a SteamAnswer) []units.Reason {
	var list []units.Reason
	if e := s.anyEstimate(a); e != nil {
		list = append(list, SteamReasons(*e)...)
	}
	if a.Learned.Tests > 0 {
		l := a.Learned
		list = append(list, units.Why("this kitchen's factor", fmt.Sprintf("%.2f, from %.2f to %.2f nine times in ten", l.Factor, l.Low, l.High),
			fmt.Sprintf("%d of this kitchen's knife tests on %s, weighed against a log-normal prior as wide as the band, wild entries counting little", l.Tests, s.crop.Name), "practice"))
	}
	if a.Load != nil {
		list = append(list, loadReasons(*a.Load)...)
	}
	if a.Cooling != nil {
		list = append(list, coolingReasons(*a.Cooling)...)
	}
	return list
}

func (s *steamingPlace) anyEstimate(a SteamAnswer) *heat.Estimate {
	switch {
	case a.Estimate != nil:
		return a.Estimate
	case len(a.Table) > 0:
		return &a.Table[0].By[s.until-1]
	case a.Plan != nil:
		e, err := heat.Steam(s.crop, heat.Cut{Shape: heat.Cube, SizeMM: a.Plan.PieceMM}, s.until, s.conditions)
		if err == nil {
			return &e
		}
	}
	return nil
}

// SteamReasons gives the source of each figure a steaming time rests on.
func SteamReasons(e heat.Estimate) []units.Reason {
	p, crop := e.Properties, e.Crop
	c := crop.Composition
	target := "set by hand on those times: judgement on modest data"
	if !crop.Calibrated {
		target = "uncalibrated: a judgement, let the knife decide"
	}
	return []units.Reason{
		units.Why("steam temperature", fmt.Sprintf("%.1f °C", e.SteamC), "pressure by ISO 2533:1975 (ICAO Doc 7488), saturation by IAPWS R7-97 region 4", "memory; read"),
		units.Why("what the crop is made of", fmt.Sprintf("%g %% water, %g protein, %g fat, %g carbohydrate, %g fibre, %g ash", c.Water, c.Protein, c.Fat, c.Carbohydrate, c.Fibre, c.Ash), crop.CompositionFrom.Source, crop.CompositionFrom.KnownBy),
		units.Why("thermal properties", fmt.Sprintf("conductivity %.3f W/mK, density %.0f kg/m³, heat capacity %.0f J/kgK, diffusivity %.3g m²/s", p.Conductivity, p.Density, p.HeatCapacity, p.Diffusivity()),
			"Choi & Okos (1986), as reprinted in the ASHRAE Handbook Refrigeration, Thermal Properties of Foods; published diffusivities of potato spread by a fifth either way", "read"),
		units.Why("heat into the piece", fmt.Sprintf("as slow as a cube of %.0f mm", e.EdgeMM), "conduction, Carslaw & Jaeger (1959), in an equivalent radial body; checked against finite elements in three dimensions", "computed"),
		units.Why("film of condensing steam", "500 W/m²K, from 250 to 1500 in the band", "a choice for a lidded household steamer; published values run from 400 to 12000 (blanching literature)", "read; judgement"),
		units.Why("full steam", "once three tenths of the steam escape", "a choice of this model; until then the load condenses what the stove makes", "judgement"),
		units.Why("doneness", fmt.Sprintf("%s at %.3g minutes of 100 °C at the centre, ten times as fast for %g K more", e.Doneness, e.Target, crop.Z), crop.TargetsFrom.Source+"; "+target, crop.TargetsFrom.KnownBy),
		units.Why("the band", "pieces 7 % smaller or larger, the target divided or times 1.4, the film as above, all at once", "a choice: printed times for the same piece differ by a factor of two", "judgement"),
	}
}

func loadReasons(l heat.Load) []units.Reason {
	return []units.Reason{
		units.Why("an even layer", fmt.Sprintf("covers %.0f %% of the basket", l.Cover*100), "discs thrown at random cover 55 %, shaken 82 %, hexagonally packed 91 %; gaps are left where pieces must stay just tender", "memory; judgement"),
		units.Why("steam made", fmt.Sprintf("%.0f W: %.0f %% of %.0f W reach the pan, less %.0f W lost by lid and walls", l.NetPowerW, l.Efficiency*100, l.PowerW, l.LossW),
			"small gas stoves 30 to 65 %; 10 W/m²K over 80 K outside, still air: common practice, no source", "practice"),
		units.Why("water", fmt.Sprintf("%.1f g a minute, and 1.3 times the longest time, 300 g left, never under 500 g", l.EvaporatesG), "latent heat from steam tables, 2256.5 kJ/kg at 100 °C; margins are a judgement", "memory; judgement"),
		units.Why("gas", fmt.Sprintf("%.0f W through %.0f minutes", l.PowerW, l.TotalMinutes), "lower heating values: butane 45.7, propane 46.3, natural gas about 47 MJ/kg", "memory"),
	}
}

func coolingReasons(c heat.Cooling) []units.Reason {
	how := "one layer, in still air: 11 W/m²K dry (the latest), 18 while moist (expected), on three quarters of the surface"
	if c.Deep {
		how = "a heap as a short cylinder of 650 kg/m³ and 0.35 W/mK: 8 W/m²K (the latest), 11 (expected)"
	}
	return []units.Reason{
		units.Why("cooling", how, "natural convection and radiation by textbook correlations; the wet share and the heap are a judgement", "memory; judgement"),
		units.Why("cool enough to dress", fmt.Sprintf("%.0f °C", c.DressC), "common practice, no source", "practice"),
		units.Why("ready for the fridge", fmt.Sprintf("%.0f °C, hand-warm", c.FridgeC), "common practice, no source; how long it may take is the food authorities' to say, see keep", "practice"),
	}
}
