package ask

import (
	"time"

	"trencher/cmd/trencher/demo"
	"trencher/harvest/journal"
)

// Begin writes the demo plot into a new folder as a starting point, see
// [journal.BeginLike].
func Begin(dir string, now time.Time) (journal.Begun, error) {
	return journal.BeginLike(dir, demo.Plot(), demo.Day(), now)
}
