// Package ask reads questions and opens plots: what a person typed, in flags or
// in boxes, becomes a typed question, and the plot's files become the values it
// is answered from. It prints nothing.
package ask

import (
	"errors"

	"trencher/harvest/journal"
)

// What stands in the way of an answer, besides a wrong field or file.
var (
	ErrNoPlot        = journal.ErrNoPlot   // the folder is no plot
	ErrReadOnly      = journal.ErrReadOnly // the plot is only to look at
	ErrNothingOnHand = errors.New("nothing is on hand")
)
