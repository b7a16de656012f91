package strict_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/strict"
)

// A file may write one thing in several ways; the shapes tell them apart.
func TestShapesAndPlaces(t *testing.T) {
	r := strict.Parse("k.yaml", []byte("limits:\n  butter: 150 g\n  milk: 1 l\nalso: [a, b]\nname: x\n"))
	m := r.Root().AnyMap()
	assert.Equal(t, []string{"limits", "also", "name"}, m.Keys())
	assert.True(t, m.Has("name"))
	assert.False(t, m.Has("nothing"))
	assert.True(t, m.At("limits").IsMap())
	assert.True(t, m.At("also").IsList())
	assert.False(t, m.At("name").IsList() || m.At("name").IsMap())
	assert.False(t, m.At("nothing").IsValid())
	file, line, column := m.At("limits").AnyMap().At("milk").Place()
	assert.Equal(t, "k.yaml", file)
	assert.Equal(t, [2]int{3, 9}, [2]int{line, column})
	require.NoError(t, r.Err())

	m.At("name").Fail("taken already", "another name")
	m.At("name").Fail("said only once", "")
	r.Root().Fail("too short", "")
	assert.EqualError(t, r.Err(), "k.yaml:1:1: too short\nk.yaml:5:7: name \"x\": taken already")
}

// What is not there reads as nothing, all the way down.
func TestAbsentReadsAsNothing(t *testing.T) {
	var n strict.Node
	n.Fail("nobody hears", "")
	m := n.Map("a")
	assert.Nil(t, n.List())
	assert.Empty(t, m.At("a").Text())
	assert.Empty(t, m.Require("a").Text())
	assert.Zero(t, n.Whole(1, 2))
	assert.True(t, n.Decimal().IsZero())
	assert.True(t, n.Date().IsZero())
	assert.True(t, n.Time(nil).IsZero())
	file, _, _ := n.Place()
	assert.Empty(t, file)
}

func TestJoinSortsTheFilesMistakes(t *testing.T) {
	first := strict.Errors{{File: "b.yaml", Line: 2, Column: 1, Problem: "two"}}
	err := strict.Join(nil, first, &strict.Error{File: "a.yaml", Problem: "one"}, errors.New("plain"))
	assert.EqualError(t, err, "plain\na.yaml: one\nb.yaml:2:1: two")
	assert.NoError(t, strict.Join(nil, nil))
	var one *strict.Error
	require.ErrorAs(t, err, &one)
	assert.Empty(t, one.Hint())
}
