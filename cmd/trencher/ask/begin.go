package ask

import (
	"fmt"
	"time"

	"trencher/cmd/trencher/demo"
	"trencher/harvest/journal"
	"trencher/units"
)

// Begun is a new plot: the files that stand in it.
type Begun struct {
	Dir   string
	Files []string
}

// Begin writes the demo plot into a new folder as a starting point, its dates
// moved so that the lift is on the day of now (or the day before, where the
// lift's hour is still to come). It refuses a folder that holds a plot.
func Begin(dir string, now time.Time) (Begun, error) {
	day := now
	if lifted := time.Date(now.Year(), now.Month(), now.Day(), 11, 0, 0, 0, now.Location()); now.Before(lifted) {
		day = now.AddDate(0, 0, -1)
	}
	files, err := journal.Redated(demo.Plot(), demo.Day(), day)
	if err != nil {
		return Begun{}, err
	}
	written, err := journal.Begin(dir, files)
	return Begun{Dir: dir, Files: written}, err
}

// Reasons says where the files of a new plot come from.
func (b Begun) Reasons() []units.Reason {
	return []units.Reason{
		units.Why("example plot", fmt.Sprintf("%d files", len(b.Files)), "the built-in demo plot, an invented scenario: nobody's garden", "computed"),
		units.Why("dates", "the lift stands on the last day whose lift is past", "the demo's, all moved by the same number of days", "computed"),
	}
}
