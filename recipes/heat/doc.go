// Package heat says how long a piece of a crop takes in steam, how to cut
// a mixed lot so that one time fits all, what a load asks of a steamer, and how
// long cooked pieces take to cool.
//
// A piece is heated through its surface by condensing steam at the local
// saturation temperature; heat moves inward by conduction, and the slowest
// point decides. Its temperature history is gathered into a cook value, in
// equivalent minutes at 100 °C, and the piece is done when that reaches the
// target of the wished doneness. Every shape is replaced by one radial body
// (see Body) whose slowest decay rate and lag equal those of the real piece.
// While a cold load condenses more steam than the stove makes, the heat flux is
// capped: the come-up. Minutes count from the moment steam flows freely again.
//
// Physics is float64 in the units that the field names say (mm, °C, g, W,
// minutes); inside, SI. The package prints nothing and keeps no state.
package heat
