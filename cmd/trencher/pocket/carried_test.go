//go:build pocket

package pocket

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A release build has the program inside, as it was compressed, and the starter
// of the Go distribution that compiled it.
func TestReleaseCarriesTheProgram(t *testing.T) {
	program, ok := Carried()
	require.True(t, ok)
	assert.True(t, bytes.HasPrefix(program.Wasm, []byte{0x1f, 0x8b}), "compressed by gzip (RFC 1952)")
	assert.Greater(t, len(program.Wasm), 1<<20)
	assert.True(t, bytes.Contains(program.Go, []byte("globalThis.Go =")), "the starter of the Go distribution")
}
