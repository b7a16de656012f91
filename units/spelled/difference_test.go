package spelled

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What differs is told by its lines; what is alike before and behind it is not.
func TestDifference(t *testing.T) {
	assert.Empty(t, Difference("a\nb\n", "a\nb\n"))
	assert.Equal(t, "from line 2 on:\n- b\n+ x\n+ y\n", Difference("a\nb\nc\n", "a\nx\ny\nc\n"))
	assert.Equal(t, "from line 3 on:\n- c\n", Difference("a\nb\nc\nd", "a\nb\nd"))
	assert.Equal(t, "from line 2 on:\n+ b\n", Difference("a", "a\nb"))
	assert.Equal(t, "from line 3 on:\n- a\n", Difference("a\na\na", "a\na"), "where lines repeat")
	many := Difference("", strings.Repeat("x\n", 30))
	assert.Equal(t, 12, strings.Count(many, "+ x\n"))
	assert.Contains(t, many, "+ ... and 18 more\n")
}
