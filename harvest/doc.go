// Package harvest is the season's account of a plot: what stands where, what
// was lifted and weighed, what each lot is fit for and how long it keeps raw,
// what is on hand, and where every gram went.
//
// Weights are exact: grams as decimals from the scale to the tally. The
// package knows no disk and prints nothing; the clock is passed in.
package harvest
