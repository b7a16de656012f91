// Command trencher takes a weighed crop from the bed to the plate: it shares
// a lift out among the grower's own dishes, scales them, times the steaming,
// says how leftovers keep, and keeps the season's account.
package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"time"
	_ "time/tzdata" // every zone is known, on any machine

	"trencher/harvest/journal"
)

// version is stamped into a release by the linker: -X main.version=1.0.0.
var version = "unreleased"

func main() {
	collectLate()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	env := &environment{in: os.Stdin, out: os.Stdout, err: os.Stderr, now: time.Now, program: phoneProgram,
		device: func() string { return journal.DeviceName(os.UserConfigDir) }}
	if err := checkZone(os.Getenv("TZ")); err != nil {
		stop()
		fmt.Fprintln(env.guarded().err, err)
		os.Exit(statusInput)
	}
	status := run(ctx, env, os.Args[1:])
	stop()
	os.Exit(status)
}

// collectLate collects nothing until memory has grown to roomy: a command lives for
// a blink, and collecting took a sixth of it. Once what is kept takes most of that
// room, it is collected whenever it has grown by two fifths.
func collectLate() {
	const roomy, full = 160 << 20, 120 << 20 // bytes
	debug.SetGCPercent(-1)
	debug.SetMemoryLimit(roomy)
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	var look func(struct{})
	look = func(struct{}) {
		if metrics.Read(live); live[0].Value.Uint64() > full {
			debug.SetGCPercent(40)
			debug.SetMemoryLimit(math.MaxInt64)
			return
		}
		runtime.AddCleanup(new([64]byte), look, struct{}{}) // runs with the next collection
	}
	runtime.AddCleanup(new([64]byte), look, struct{}{})
}

// checkZone refuses a TZ that names no zone: the clock would silently be that of
// UTC, and a verdict on food hours too mild.
func checkZone(name string) error {
	name = strings.TrimPrefix(name, ":")
	if strings.HasPrefix(name, "/") { // a file of the system's own
		data, err := os.ReadFile(name)
		if err == nil {
			_, err = time.LoadLocationFromTZData(name, data)
		}
		if err != nil {
			return fmt.Errorf("TZ %q: no file of a time zone; write a zone such as Europe/London, or unset TZ", name)
		}
		return nil
	}
	if _, err := time.LoadLocation(name); err != nil {
		return fmt.Errorf("TZ %q: no time zone known; write one such as Europe/London, or unset TZ", name)
	}
	return nil
}
