package main

import (
	"bytes"
	"errors"
	"io/fs"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
)

// What a full disk says keeps its whole message and its hint, though closing and
// removing the torn file failed besides.
func TestFullDiskIsToldWhole(t *testing.T) {
	disk := errors.Join(&fs.PathError{Op: "write", Path: "x.part", Err: syscall.ENOSPC}, errors.New("not closed"))
	err := &units.FieldError{Problem: "not written: journal/2031/x.yaml: no space left on device",
		Accepted: "the same again once you have made room: the disk is full; nothing was half-written", Cause: disk}
	var out bytes.Buffer
	report(&out, nil, err)
	assert.Equal(t, `not written: journal/2031/x.yaml: no space left on device
hint: write the same again once you have made room: the disk is full; nothing was half-written
`, out.String())
}
