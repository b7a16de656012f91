// Package harvest is the season's account of a plot: what stands where, what
// was lifted and weighed, what each lot is fit for and how long it keeps raw,
// what is on hand, where every gram went, and what became of what was cooked.
//
// # From the bowl to the account
//
// A [Planting] is one tub or bed with one crop. A [Lift] of it is bowls on a
// scale (gross less tare) and the [Grade]s its net weight falls into; each
// grade, and the rest that no grade names, is a [Lot]. A [Move] takes grams out
// of a lot: to the kitchen, into store, away, onto the heap. [Settle] draws
// lifts and moves up into an [Account], whose Stock is what is on hand, what to
// use first on top, and whose Tally is what each planting gave and where it
// went. [Ready] tells which plantings are due.
//
// Entries are never changed: a later one replaces or voids an earlier one by
// naming its file ([Correct]). They may be read in any order.
//
// # The ledger
//
// A [Ledger] holds the plantings and the entries an answer rests on. Package
// journal opens one from a plot's folder; it is asked questions (Account,
// Ready, Batches) and given new entries (Lift, Move, Void), each of which is
// checked against the plantings, the clock and all other entries before it is
// written. What cannot be is a [units.FieldError] that names the field, or a
// strict.Error that names the place in a file; nothing is then written.
//
// # Cooked batches
//
// [Batches] folds the events of cooked food (cooked, chilled, out, reheated,
// eaten, binned) into each [Batch]'s state and history, and [Ledger.Fits] says
// whether a next event can be. Whether it may still be eaten is for package
// keeping to say.
//
// # Numbers
//
// Weights are exact: grams as decimals from the scale to the tally. The package
// knows no disk and prints nothing; the clock is passed in. What a crop needs,
// keeps and gives comes from crops.yaml, every row with its source.
package harvest
