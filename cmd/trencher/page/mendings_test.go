package page

import (
	"errors"
	"io/fs"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
)

// What a full disk says keeps its whole message and its hint on the page, too.
func TestFullDiskIsToldWhole(t *testing.T) {
	disk := errors.Join(&fs.PathError{Op: "write", Path: "x.part", Err: syscall.ENOSPC}, errors.New("not closed"))
	err := &units.FieldError{Problem: "not written: journal/2031/x.yaml: no space left on device",
		Accepted: "the same again once you have made room: the disk is full", Cause: disk}
	assert.Equal(t, []mending{{Says: "Not written: journal/2031/x.yaml: no space left on device.",
		Hint: "Write the same again once you have made room: the disk is full."}}, mendings(err, nil))
	assert.Len(t, mendings(errors.Join(err, err), nil), 2)
}
