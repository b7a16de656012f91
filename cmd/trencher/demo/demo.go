// Package demo holds the built-in plot: an invented garden with one day's
// lift, so that every command can be tried before a plot of one's own exists.
// `trencher begin` writes the same files out as a starting point.
package demo

import (
	"embed"
	"io/fs"
	"time"
)

//go:embed plot
var files embed.FS

// Name is what answers call the demo plot.
const Name = "the demo plot"

// ServeAt is the time of day the demo's meal is for.
const ServeAt = "18:30"

// Plot returns the demo plot's folder.
func Plot() fs.FS {
	plot, err := fs.Sub(files, "plot")
	if err != nil {
		panic(err) // the folder is embedded above
	}
	return plot
}

// Zone is the demo garden's time zone, one hour east of UTC, so that the
// demo reads the same on every machine.
func Zone() *time.Location { return time.FixedZone("", 3600) }

// Day is the day of the demo's lift, local midnight.
func Day() time.Time { return time.Date(2031, time.July, 19, 0, 0, 0, 0, Zone()) }
