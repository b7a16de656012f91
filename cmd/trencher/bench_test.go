package main

import (
	"os/exec"
	"path/filepath"
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

// BenchmarkWholeProcess is the main job as it is waited for, from the shell's
// start of the program to its end, beside a bare program on the same libraries
// that prints its help.
func BenchmarkWholeProcess(b *testing.B) {
	for _, program := range []struct {
		name, source string
		args         []string
	}{
		{"share", ".", []string{"share", "--demo"}},
		{"help", ".", []string{"--help"}},
		{"bare", "./testdata/bare", nil},
	} {
		path := filepath.Join(b.TempDir(), program.name+".exe")
		if out, err := exec.Command("go", "build", "-o", path, program.source).CombinedOutput(); err != nil {
			b.Fatal(string(out))
		}
		b.Run(program.name, func(b *testing.B) {
			for b.Loop() {
				if out, err := exec.Command(path, program.args...).CombinedOutput(); err != nil {
					b.Fatal(string(out))
				}
			}
		})
	}
}
