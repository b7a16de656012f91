package page

import (
	"os"
	"runtime/debug"
	"testing"
)

// Tests live for seconds: an eighth of their time went into collecting.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
