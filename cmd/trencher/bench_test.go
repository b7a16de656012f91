package main

import (
	"testing"
)

// BenchmarkShareDemo is the main job in one process, from flags to text.
func BenchmarkShareDemo(b *testing.B) {
	for b.Loop() {
		if _, errs, status := trencher("", "share", "--demo"); status != statusDone {
			b.Fatal(errs)
		}
	}
}
