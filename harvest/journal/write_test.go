package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"testing"
	"trencher/units"

	"github.com/stretchr/testify/assert"
)

// Whatever the disk refuses, the person is told that nothing was half-written
// and what to do about it.
func TestWriteErrorsSayWhatToDo(t *testing.T) {
	for _, row := range []struct {
		err  error
		hint string
	}{
		{syscall.ENOSPC, "made room"},
		{syscall.EROFS, "may not be written to"},
		{fs.ErrPermission, "may not be written to"},
		{fs.ErrNotExist, "brought it back"},
		{errors.New("the card was pulled out"), "nothing was half-written"},
	} {
		err := notWritten("journal/2031", &fs.PathError{Op: "open", Path: "x", Err: row.err})
		assert.Contains(t, err.Error(), "not written: journal/2031: ")
		assert.ErrorIs(t, err, row.err)
		var hinted interface{ Hint() string }
		assert.ErrorAs(t, fmt.Errorf("lift: %w", err), &hinted)
		assert.Contains(t, hinted.Hint(), row.hint)
	}
	assert.Contains(t, notBegun("garden", syscall.ENOSPC).(*units.FieldError).Accepted, "made room")
	assert.Contains(t, notBegun("garden", syscall.ENOTDIR).(*units.FieldError).Accepted, "a folder that can be made")
}
