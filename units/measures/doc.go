// Package measures knows what a spoon, a cup or a piece of an ingredient
// weighs, and what crops are called.
//
// [Default] is the table, [Table.For] the table for a kitchen's country, and
// [Table.With] puts what a kitchen has weighed itself before it.
// [Table.Convert] leads between mass, volume and count. Every figure is a [Row]
// with its source; where there is no row there is no answer, only the nearest
// ingredients by name: nothing is taken to be as heavy as water.
//
// [Table.Answer] answers a cook's [Question] in words, "3 eggs" or "1½ UK pint
// to ml": it reads them ([Table.Read]), converts, and tells as values what it
// assumed, what it rests on and what the kitchen would measure out. The wording
// is another package's.
//
// Names match whole, never a known name inside a longer one, and in the
// singular or plural: [Fold] and [Singulars] say how. [CropNamed] finds a crop
// by any of its names; crops.csv has them all, and the tables of figures refer
// to a crop by its id.
package measures
