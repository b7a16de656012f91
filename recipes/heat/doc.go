// Package heat says how long a piece of a crop takes in steam, how to cut a
// mixed lot so that one time fits all, what a load asks of a steamer, and how
// long cooked pieces take to cool.
//
// # Asking
//
// [LookupCrop], [ParseCut] and [ParseDoneness] read the words of a dish or a
// cook. A [Question] asks for a time and whatever goes with it, and its
// [Question.Answer] holds what was asked. The parts can be had by themselves:
//
//   - [Steam] for one piece, [SteamLot] for tubers of several sizes, [BySize]
//     for a table, [Trace] for the temperatures on the way;
//   - [LoadPlan] for layers, rounds, water and gas;
//   - [PlanCuts] for what to do to tubers of each size so that all end
//     together;
//   - [Cool] for the time until pieces can be dressed, and go into the fridge;
//   - [ChillIn] for how cold they are after some minutes in a room, a fridge, a box
//     with ice, cold water or ice water, and when they are cold enough;
//   - [LearnFrom] for what this kitchen's own knife tests say of the model.
//
// Minutes count from the moment steam flows freely. Each time has a band: a
// knife goes in at Low, and High is the longest it may take. The Reasons of an
// answer name the source of every figure it rests on.
//
// # The model
//
// A piece is heated through its surface by condensing steam at the local
// saturation temperature ([SteamC]); heat moves inward by conduction, and the
// slowest point decides. Its temperature history is gathered into a cook value,
// in equivalent minutes at 100 °C, and the piece is done when that reaches the
// target of the wished doneness. Every shape is replaced by one radial body
// ([Body]) whose slowest decay rate and lag equal those of the real piece.
// While a cold load condenses more steam than the stove makes, the heat flux is
// capped: the come-up.
//
// # Adding a crop
//
// A crop is a row in crops.go, with its composition, its figures of doneness
// and where both come from. A published time for it goes to
// testdata/steaming/cooking-tables.csv.
//
// Physics is float64 in the units that the field names say (mm, °C, g, W,
// minutes); inside, SI. The package prints nothing and keeps no state. A value
// that cannot be is a [units.FieldError] that names the question's field.
package heat
