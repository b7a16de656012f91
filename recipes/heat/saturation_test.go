package heat

import "math"

// saturationPascal is the pressure, in Pa, under which water boils at a
// temperature in K (IAPWS R7-97 region 4, forward equation).
func saturationPascal(kelvins float64) float64 {
	v := kelvins + n9/(kelvins-n10)
	a := v*v + n1*v + n2
	b := n3*v*v + n4*v + n5
	c := n6*v*v + n7*v + n8
	return 1e6 * math.Pow(2*c/(-b+math.Sqrt(b*b-4*a*c)), 4)
}
