package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWaitingIsToldAndTakenAway(t *testing.T) {
	screen := make(chan string, 100)
	done := tellWaiting(screenWriter(screen), "sharing out", 5*time.Millisecond)
	assert.Equal(t, "\rsharing out ... 5ms", <-screen)
	done()
	close(screen)
	last := ""
	for text := range screen {
		last = text
	}
	assert.Equal(t, "\r\x1b[K", last, "the line is gone at the end")
}

// screenWriter passes on what is written, piece by piece.
type screenWriter chan string

func (s screenWriter) Write(text []byte) (int, error) {
	s <- string(text)
	return len(text), nil
}

func TestQuickWorkIsNotAnnounced(t *testing.T) {
	var out bytes.Buffer
	tellWaiting(&out, "sharing out", time.Hour)()
	assert.Empty(t, out.String())
}

func TestWaitingNeedsATerminal(t *testing.T) {
	file, err := os.Create(filepath.Join(t.TempDir(), "err.txt"))
	require.NoError(t, err)
	defer file.Close()
	env := &environment{screen: file}
	env.waiting("sharing out")()
	info, err := file.Stat()
	require.NoError(t, err)
	assert.Zero(t, info.Size(), "nothing is written into a file")
}
