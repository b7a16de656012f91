// Package tables reads the tables of weights that people kept before: day
// before month or month before day, semicolons and decimal commas, tabs,
// pounds and ounces in columns of their own, a column for each week or for
// each bed, titles above and totals below, and beds called by their crops.
//
// What a table does not say it does not guess: [Read] returns the open
// questions as the fields of a [Layout].
package tables
