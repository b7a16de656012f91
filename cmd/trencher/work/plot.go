package work

import (
	"time"
)

// Where names the plot a question is about and the day it is asked for.
type Where struct {
	Dir         string    // the plot folder; "" = the current one
	Demo        bool      // the built-in plot instead
	On          string    // a civil date; "" = today
	SkipDamaged bool      // go on without damaged journal entries
	Now         time.Time // the clock
}
