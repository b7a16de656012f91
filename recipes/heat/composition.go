package heat

// Composition is what a crop is made of, in per cent by mass; carbohydrate
// leaves out fibre. It need not add up to 100: it is normalised.
type Composition struct {
	Water, Protein, Fat, Carbohydrate, Fibre, Ash float64
}

// Properties are the thermal properties of a crop at one temperature.
type Properties struct {
	Conductivity float64 // W/(m K)
	Density      float64 // kg/m³
	HeatCapacity float64 // J/(kg K)
}

// Diffusivity is the thermal diffusivity, in m²/s.
func (p Properties) Diffusivity() float64 {
	return p.Conductivity / (p.Density * p.HeatCapacity)
}

// quadratic is a + bT + cT², T in °C.
type quadratic [3]float64

func (q quadratic) at(t float64) float64 { return q[0] + t*(q[1]+t*q[2]) }

// component holds the conductivity, density and heat capacity of one component.
type component struct{ k, rho, cp quadratic }

// Choi & Okos (1986), Effects of temperature and composition on the thermal
// properties of foods, Food Engineering and Process Applications vol. 1; as
// reprinted in ASHRAE Handbook Refrigeration, Thermal Properties of Foods.
// known_by: read. Some reprints carry the slope of fat's conductivity as
// 2.7604e-3; -2.7604e-4 is right. The order is that of Composition's fields.
var components = [6]component{
	{quadratic{0.57109, 0.0017625, -6.7036e-06}, quadratic{997.18, 0.0031439, -0.0037574}, quadratic{4176.2, -0.090864, 0.0054731}},
	{quadratic{0.17881, 0.0011958, -2.7178e-06}, quadratic{1329.9, -0.5184, 0}, quadratic{2008.2, 1.2089, -0.0013129}},
	{quadratic{0.18071, -0.00027604, -1.7749e-07}, quadratic{925.59, -0.41757, 0}, quadratic{1984.2, 1.4733, -0.0048008}},
	{quadratic{0.20141, 0.0013874, -4.3312e-06}, quadratic{1599.1, -0.31046, 0}, quadratic{1548.8, 1.9625, -0.0059399}},
	{quadratic{0.18331, 0.0012497, -3.1683e-06}, quadratic{1311.5, -0.36589, 0}, quadratic{1845.9, 1.8306, -0.0046509}},
	{quadratic{0.32962, 0.0014011, -2.9069e-06}, quadratic{2423.8, -0.28063, 0}, quadratic{1092.6, 1.8896, -0.0036817}},
}

func (c Composition) parts() [6]float64 {
	return [6]float64{c.Water, c.Protein, c.Fat, c.Carbohydrate, c.Fibre, c.Ash}
}

// At mixes the components at a temperature in °C: volumes add up, conductivity
// is weighted by volume (in parallel), heat capacity by mass (Choi & Okos 1986).
func (c Composition) At(celsius float64) Properties {
	parts := c.parts()
	var mass, volume, k, cp float64
	for i, x := range parts {
		v := x / components[i].rho.at(celsius)
		mass += x
		volume += v
		k += v * components[i].k.at(celsius)
		cp += x * components[i].cp.at(celsius)
	}
	return Properties{Conductivity: k / volume, Density: mass / volume, HeatCapacity: cp / mass}
}
