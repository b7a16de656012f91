//go:build !pocket

package main

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/pocket"
)

// A build without the phone's program inside says that it makes one, and for how
// long one has to wait, before it begins; where there is no Go tool it says so.
func TestProgramIsMadeWhereNoneIsInside(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	var said bytes.Buffer
	_, err := phoneProgram(context.Background(), &said)
	assert.ErrorIs(t, err, pocket.ErrNoProgram)
	assert.ErrorContains(t, err, "there is no Go tool on this machine to make it with")
	assert.Equal(t, "this build has no program for the phone inside: making it with Go, which may take a minute\n", said.String())
}
