package harvest

import "time"

var began = time.Now()

// processorTime is the time passed: the processor's own is not told here.
func processorTime() time.Duration { return time.Since(began) }
