//go:build !pocket

package pocket

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestOnlyAReleaseCarriesTheProgram(t *testing.T) {
	_, ok := Carried()
	assert.False(t, ok)
}
