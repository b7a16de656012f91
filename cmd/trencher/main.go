// Command trencher takes a weighed crop from the bed to the plate: it shares
// a lift out among the grower's own dishes, scales them, times the steaming,
// says how leftovers keep, and keeps the season's account.
package main

import (
	"context"
	"os"
	"os/signal"
	"time"
)

// version is stamped into a release by the linker: -X main.version=1.0.0.
var version = "unreleased"

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	env := &environment{in: os.Stdin, out: os.Stdout, err: os.Stderr, now: time.Now}
	status := run(ctx, env, os.Args[1:])
	stop()
	os.Exit(status)
}
