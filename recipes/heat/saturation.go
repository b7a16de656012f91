package heat

import "math"

const kelvin = 273.15

// Pressure is the standard atmosphere's pressure in Pa at an altitude in metres
// (ISO 2533:1975, ICAO Doc 7488; known_by: memory). Exponent: g/(R·lapse).
func Pressure(altitudeM float64) float64 {
	const exponent = 9.80665 / (287.05287 * 0.0065)
	return 101325 * math.Pow(1-0.0065*altitudeM/288.15, exponent)
}

// Coefficients of the saturation line, IAPWS R7-97 region 4 (known_by: read).
const (
	n1  = 0.11670521452767e4
	n2  = -0.72421316703206e6
	n3  = -0.17073846940092e2
	n4  = 0.12020824702470e5
	n5  = -0.32325550322333e7
	n6  = 0.14915108613530e2
	n7  = -0.48232657361591e4
	n8  = 0.40511340542057e6
	n9  = -0.23855557567849
	n10 = 0.65017534844798e3
)

// SaturationKelvin is the temperature, in K, at which water boils under a
// pressure in Pa (IAPWS R7-97 region 4, backward equation).
func SaturationKelvin(pascal float64) float64 {
	b := math.Pow(pascal/1e6, 0.25)
	e := b*b + n3*b + n6
	f := n1*b*b + n4*b + n7
	g := n2*b*b + n5*b + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return (n10 + d - math.Sqrt((n10+d)*(n10+d)-4*(n9+n10*d))) / 2
}

// SteamC is the temperature of steam, in °C, under an open lid at an altitude
// in metres.
func SteamC(altitudeM float64) float64 {
	return SaturationKelvin(Pressure(altitudeM)) - kelvin
}

// latentHeat is the heat of evaporation in J/kg near a temperature in °C: a
// line through the steam tables, good from 80 to 100 °C (known_by: memory).
func latentHeat(celsius float64) float64 {
	return (2256.5 + 2.6*(100-celsius)) * 1e3
}
