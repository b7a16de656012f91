package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestVersion(t *testing.T) {
	out, errs, status := trencher("", "--version")
	assert.Equal(t, statusDone, status, errs)
	assert.Equal(t, "trencher unreleased\n", out)
}

// A release is built with its version stamped in, as DEVELOPERS.md says.
func TestVersionIsStamped(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") == "" {
		t.Skip("links the program: set TRENCHER_LONG=1")
	}
	program := filepath.Join(t.TempDir(), "trencher")
	if runtime.GOOS == "windows" {
		program += ".exe"
	}
	build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w -X main.version=9.8.7", "-o", program, ".")
	built, err := build.CombinedOutput()
	require.NoError(t, err, string(built))
	out, err := exec.Command(program, "--version").Output()
	require.NoError(t, err)
	assert.Equal(t, "trencher 9.8.7\n", string(out))
}
