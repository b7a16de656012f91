package render

import (
	"fmt"
	"io"
	"math"

	"trencher/cmd/trencher/ask"
	"trencher/units"
)

// BoilText writes a time in boiling water at 80 columns, the minutes first.
func BoilText(w io.Writer, a ask.BoilAnswer, why bool) error {
	var p page
	how, again, heatsTo := "boiled ", "boils again", "the boil"
	if a.Estimate.Simmering {
		how, again, heatsTo = "simmered ", "simmers", "the simmer"
	}
	estimatePart(&p, a.Estimate, how)
	p.heading(fmt.Sprintf("%.0f g in this pot", a.Grams))
	text := fmt.Sprintf("Water %s", millilitres(a.WaterML))
	if a.ToBoil > 0 {
		text += fmt.Sprintf(", %s to %s", minutes(a.ToBoil), heatsTo)
	}
	if a.Rounds > 1 {
		text += fmt.Sprintf("; %d rounds of %.0f g", a.Rounds, a.GramsPerRound)
	}
	p.wrapped("  ", fmt.Sprintf("%s. %s in all.", text, capital(minutes(a.TotalMinutes))))
	if a.GasG > 0 {
		p.wrapped("  ", fmt.Sprintf("Gas: about %.0f g of %s, turned down once it %s; up to %.0f g.", a.GasG, a.Fuel, again, a.GasLongestG))
	}
	return potEnd(&p, w, a.Cautions, a.Assumed, a.Estimate.Reasons(), why)
}

// BlanchText writes how to blanch at 80 columns, the minutes first.
func BlanchText(w io.Writer, a ask.BlanchAnswer, why bool) error {
	var p page
	p.wrapped("", fmt.Sprintf("%s, %s, blanched for the freezer", capital(a.Crop.Title()), a.Cut))
	text := fmt.Sprintf("%s from when the water boils again, then at once into ice water for %s.", minutesFine(a.Minutes), upToFine(math.Max(a.CoolMinutes, a.Minutes)))
	p.wrapped("  ", text)
	needs := "its middle is hot enough by the time the water boils again"
	if a.Needed >= atOnceMinutes {
		needs = "its middle needs " + minutesFine(a.Needed)
	}
	if a.PrintedMinutes > 0 {
		needs = "printed " + minutesFine(a.PrintedMinutes) + "; " + needs
	}
	p.wrapped("  ", capital(needs)+".")
	p.wrapped("  ", fmt.Sprintf("%s from putting them in. The middle is at %.0f °C when they come out.", capital(minutesFine(a.FromLoading)), a.CentreC))
	for _, note := range a.Notes {
		p.wrapped("  ", capital(note)+".")
	}
	p.heading(fmt.Sprintf("%.0f g", a.Grams))
	p.wrapped("  ", fmt.Sprintf("At most %.0f g at once: more than that this stove does not bring back to the boil within a minute. %s of %.0f g, in %s of water each.",
		a.LimitG, capital(count(a.Rounds, "load", "loads")), a.GramsPerRound, millilitres(a.WaterML)))
	p.wrapped("  ", fmt.Sprintf("Ice: %.0f g in all, in cold water, stirred, until the middle is at 10 °C. Then drain, dry, pack and freeze at once.", a.IceG))
	if a.GasG > 0 {
		p.wrapped("  ", fmt.Sprintf("Gas: about %.0f g of %s.", a.GasG, a.Fuel))
	}
	p.heading(a.Freezing.Name)
	p.keepReasons(a.Freezing.Lines)
	return potEnd(&p, w, a.Cautions, a.Assumed, a.Reasons(), why)
}

func potEnd(p *page, w io.Writer, cautions, assumed []string, why []units.Reason, asked bool) error {
	p.gap()
	for _, text := range cautions {
		p.wrapped("! ", text)
	}
	if len(assumed) > 0 && asked {
		p.heading("Assumed")
		for _, text := range assumed {
			p.wrapped("  ", text)
		}
	}
	reasons(p, why, asked)
	return p.writeTo(w)
}

type potJSON struct {
	Crop         string       `json:"crop"`
	Kind         string       `json:"kind,omitempty"`
	Cut          string       `json:"cut"`
	Until        string       `json:"until,omitempty"`
	Minutes      *float64     `json:"minutes,omitempty"`
	Low          *float64     `json:"low,omitempty"`
	High         *float64     `json:"high,omitempty"`
	FromLoading  float64      `json:"from_loading"`
	FromLow      *float64     `json:"from_loading_low,omitempty"`
	FromHigh     *float64     `json:"from_loading_high,omitempty"`
	BackToBoil   *float64     `json:"back_to_boil_minutes,omitempty"`
	WaterC       *float64     `json:"water_c,omitempty"`
	CentreC      float64      `json:"centre_c"`
	Surface      string       `json:"surface,omitempty"`
	Style        string       `json:"style,omitempty"`
	Printed      *float64     `json:"printed_minutes,omitempty"`
	Needed       *float64     `json:"needed_minutes,omitempty"`
	LogReduction *float64     `json:"log_reduction,omitempty"`
	IceG         *float64     `json:"ice_g,omitempty"`
	CoolMinutes  *float64     `json:"cool_minutes,omitempty"`
	Limit        *float64     `json:"at_once_g,omitempty"`
	Grams        float64      `json:"load_g"`
	Rounds       int          `json:"rounds"`
	PerRound     float64      `json:"grams_per_round"`
	WaterML      float64      `json:"water_ml"`
	ToBoil       float64      `json:"to_boil_minutes"`
	GasG         float64      `json:"gas_g"`
	InRange      *bool        `json:"in_range,omitempty"`
	Outside      []string     `json:"outside,omitempty"`
	Notes        []string     `json:"notes"`
	Assumed      []string     `json:"assumed,omitempty"`
	Cautions     []string     `json:"cautions"`
	Freezing     []whyJSON    `json:"freezing,omitempty"`
	Why          []reasonJSON `json:"why,omitempty"`
}

// tenthOf is a figure that may be left out.
func tenthOf(x float64) *float64 {
	x = tenth(x)
	return &x
}

// BoilJSON writes a time in boiling water for scripts.
func BoilJSON(w io.Writer, a ask.BoilAnswer, why bool) error {
	e := a.Estimate
	inRange := e.InRange()
	out := potJSON{Crop: e.Crop.Name, Kind: e.Crop.Kind, Cut: e.Cut.String(), Until: e.Doneness.String(),
		FromLoading: tenth(e.FromLoading), FromLow: tenthOf(e.FromLoadingLow), FromHigh: tenthOf(e.FromLoadingHigh),
		WaterC: tenthOf(e.SteamC), CentreC: tenth(e.CentreC), Surface: e.Outer.Says.String(), Style: e.Doneness.String(),
		Grams: tenth(a.Grams), Rounds: a.Rounds, PerRound: tenth(a.GramsPerRound), WaterML: math.Round(a.WaterML), ToBoil: tenth(a.ToBoil), GasG: tenth(a.GasG),
		InRange: &inRange, Outside: e.Outside, Notes: append([]string{knifeNote}, e.Notes...), Assumed: a.Assumed, Cautions: a.Cautions}
	if e.FreeFirst {
		out.Minutes, out.Low, out.High, out.BackToBoil = tenthOf(e.Minutes), tenthOf(e.Low), tenthOf(e.High), tenthOf(e.ComeUp)
	}
	return potWhy(w, out, e.Reasons(), why)
}

// BlanchJSON writes how to blanch for scripts.
func BlanchJSON(w io.Writer, a ask.BlanchAnswer, why bool) error {
	out := potJSON{Crop: a.Crop.Name, Kind: a.Crop.Kind, Cut: a.Cut.String(), Minutes: tenthOf(a.Minutes), FromLoading: tenth(a.FromLoading),
		BackToBoil: tenthOf(a.BackToBoil), CentreC: tenth(a.CentreC), Needed: tenthOf(a.Needed), LogReduction: tenthOf(a.LogReduction),
		IceG: tenthOf(a.IceG), CoolMinutes: tenthOf(a.CoolMinutes), Limit: tenthOf(a.LimitG), Grams: tenth(a.Grams), Rounds: a.Rounds,
		PerRound: tenth(a.GramsPerRound), WaterML: math.Round(a.WaterML), ToBoil: tenth(a.ToBoil), GasG: tenth(a.GasG),
		Freezing: each(a.Freezing.Lines, whyOf), Notes: append([]string{}, a.Notes...), Assumed: a.Assumed, Cautions: a.Cautions}
	if a.PrintedMinutes > 0 {
		out.Printed = tenthOf(a.PrintedMinutes)
	}
	return potWhy(w, out, a.Reasons(), why)
}

func potWhy(w io.Writer, out potJSON, list []units.Reason, asked bool) error {
	if asked {
		for _, r := range list {
			out.Why = append(out.Why, reasonOf(r))
		}
	}
	return writeJSON(w, out)
}
