// Package units holds exact quantities with a unit: reading them as people
// write them, converting them, and rounding them to measures a kitchen has.
//
// [Parse] reads an amount and [ParseUnit] a unit. A word that means different
// sizes in different countries takes the [System] that stands beside it, else
// that of the kitchen, else it is an [*AmbiguousError] that lists the readings;
// whatever else does not read is a [*ParseError]. [Quantity.In] converts within
// a dimension, as an exact fraction from end to end: nothing is rounded until
// [Quantity.Decimal] or [Quantity.Rounded] is asked. Between mass, volume and
// count only an ingredient leads across: that is package measures.
//
// [Kitchen.Measure] rounds an amount to the scales, spoons and jug there are,
// and says by how much that moved it. [KitchenWord] calls a unit what a kitchen
// calls it; [Unit.Symbol] names its system too.
//
// Every unit is a row of units.csv, defined as a multiple of another by its
// legal definition, with its [Provenance]; words.csv has the regional words,
// and those that are refused because nobody can say how much they are; kinds.csv
// the kinds of piece. A [Band] is a riddle's, a [FieldError] a value somebody
// gave that cannot be used: these are here because all packages share them.
package units
