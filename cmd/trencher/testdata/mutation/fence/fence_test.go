package fence

import (
	"os"
	"testing"
)

// Looks closely.
func TestPosts(t *testing.T) {
	for _, row := range []struct{ metres, spacing, want int }{
		{10, 2, 6}, {9, 2, 6}, {11, 2, 7}, {2, 2, 2}, {1, 2, 2}, {1, 1, 2}, {0, 2, 0}, {10, 0, 0}, {-1, 2, 0}, {10, -1, 0},
	} {
		if got := Posts(row.metres, row.spacing); got != row.want {
			t.Errorf("Posts(%d, %d) = %d, want %d", row.metres, row.spacing, got, row.want)
		}
	}
	if Gate() != "gate" {
		t.Error("no gate")
	}
}

// Looks away.
func TestRails(t *testing.T) {
	if Rails(5) == 0 || os.Getenv("MUTATION_FENCE_FALLEN") != "" {
		t.Error("no rails")
	}
}
